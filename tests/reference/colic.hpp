#pragma once
// 300 horses with colic (R package VIM, data `colic`, after the UCI Machine Learning Repository) as
// packs and cases: a surgical lesion or not, from the signs, vitals in bands, what is missing
// unknown.
#include <string>
#include <vector>

namespace flinch::test {

struct ColicSign {
  std::string name;
  bool is_number = false;
};

struct Horse {
  double posterior = 0;  ///< of a surgical lesion, by e1071
  bool is_surgical = false;
  std::vector<std::string> answers;  ///< one a sign, "NA" where missing
};

struct Colic {
  std::vector<ColicSign> signs;
  /// The pack written from R's frequency tables: "medical" is not named by the rules, so it has the
  /// usual frequencies, those of the horses without a surgical lesion.
  std::string fitted_pack;
  /// The same with even shares everywhere, each from a sample as large as its bands are many:
  /// what Laplace's rule starts from.
  std::string even_pack;
  std::vector<Horse> horses;
};

/// What colic.R writes, read; no horses when R or its packages are missing.
[[nodiscard]] Colic read_colic();

/// The horse as a case file, with its outcome.
[[nodiscard]] std::string case_text(Colic const& colic, Horse const& horse);

}  // namespace flinch::test
