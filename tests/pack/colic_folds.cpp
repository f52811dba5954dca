// Writes docs/colic_folds.md: frequencies learnt from real cases, tried on cases kept aside, beside
// scikit-learn on the same folds.
#include <fmt/format.h>
#include <fmt/ostream.h>

#include <algorithm>
#include <fstream>
#include <iostream>
#include <sstream>

#include "flinch/audit/learn.hpp"
#include "reference/colic.hpp"
#include "reference/outside.hpp"
#include "support/small_pack.hpp"
#include "support/source_tree.hpp"

namespace flinch::test {
namespace {

constexpr std::size_t folds = 10;

using Scores = std::vector<Forecast>;

// Learnt on the other nine folds; the bases are the training horses' own.
Scores by_flinch(Colic const& colic) {
  auto const even = sound_pack({{"pack.flinch", colic.even_pack}});
  std::vector<NamedCase> horses;
  for (auto const& horse : colic.horses)
    horses.push_back({"", case_of(*even, case_text(colic, horse))});
  Scores out(horses.size());
  Tables const even_tables(even);
  for (std::size_t fold = 0; fold < folds; ++fold) {
    std::vector<NamedCase> others;
    double surgical = 0;
    for (std::size_t i = 0; i < horses.size(); ++i) {
      if (i % folds == fold) continue;
      others.push_back(horses[i]);
      surgical += colic.horses[i].is_surgical ? 1 : 0;
    }
    auto learnt = with_learned(*even, learn(even_tables, others, {0, 1}));
    auto const all = static_cast<double>(others.size());
    for (auto& cause : learnt.causes)
      cause.base = cause.name == "surgical" ? surgical / all : 1 - surgical / all;
    auto const pack = std::make_shared<Pack const>(std::move(learnt));
    Tables const tables(pack);
    Assessor assessor(tables);
    for (std::size_t i = fold; i < horses.size(); i += folds)
      out[i] = {posterior(*pack, assessor.assess(horses[i].patient), "surgical"),
                colic.horses[i].is_surgical};
  }
  return out;
}

std::vector<Scores> by_scikit_learn(Colic const& colic) {
  auto const script = source_path("tests/reference/colic");
  std::istringstream lines(output_of(fmt::format("{} --vanilla {}.R | {} {}_folds.py",
                                                 FLINCH_RSCRIPT, script, FLINCH_PYTHON, script)));
  std::vector<Scores> out(3);
  for (std::string line; std::getline(lines, line);) {
    auto const row = words(line);
    for (std::size_t model = 0; model < out.size(); ++model)
      out[model].push_back(
          {std::stod(row.at(model)), colic.horses.at(out[model].size()).is_surgical});
  }
  if (out.front().size() != colic.horses.size())
    throw std::runtime_error("python3-sklearn is needed; tests/run installs it");
  return out;
}

double mean_of_folds(Scores const& scores) {
  double sum = 0;
  for (std::size_t fold = 0; fold < folds; ++fold) {
    Scores part;
    for (std::size_t i = fold; i < scores.size(); i += folds) part.push_back(scores[i]);
    sum += roc_area(part).value();
  }
  return sum / static_cast<double>(folds);
}

void write_page(std::ostream& out) {
  auto const colic = read_colic();
  if (colic.horses.size() != 300)
    throw std::runtime_error("r-cran-e1071 and r-cran-vim are needed; tests/run installs them");
  auto const outside = by_scikit_learn(colic);
  out << "# Learnt frequencies on cases kept aside\n\n"
         "300 horses with colic (R package VIM, data `colic`, after the UCI Machine Learning "
         "Repository): a surgical\nlesion or not, from twelve signs, many of them missing. Ten "
         "folds, horse i in fold i mod 10; each learner is\nfitted on nine folds and tried on the "
         "tenth. This page is written by the test suite.\n\n"
         "| learner | ROC area, mean of the folds | pooled | Brier score | log loss |\n"
         "|---|---|---|---|---|\n";
  auto const line = [&](std::string_view name, Scores const& scores) {
    fmt::print(out, "| {} | {:.3f} | {:.3f} | {:.3f} | {:.3f} |\n", name, mean_of_folds(scores),
               roc_area(scores).value(), brier_score(scores).value(), log_loss(scores).value());
  };
  line("`flinch learn` from even shares, missing signs unknown", by_flinch(colic));
  line("scikit-learn GaussianNB, medians for what is missing", outside[0]);
  line("scikit-learn BernoulliNB, one column a band", outside[1]);
  line("scikit-learn LogisticRegression, one column a band", outside[2]);
  out << "\nHorses are no dogs, and a rank among two causes is easier than among a hundred: the "
         "page shows that what\n`learn` counts is as good as what others count from the same "
         "cases, no more.\n";
}

}  // namespace
}  // namespace flinch::test

int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "usage: colic_folds PAGE\n";
    return 2;
  }
  try {
    std::ofstream out(argv[1], std::ios::binary);
    flinch::test::write_page(out);
    return out.good() ? 0 : 1;
  } catch (std::exception const& mistake) {
    std::cerr << mistake.what() << '\n';
    return 1;
  }
}
