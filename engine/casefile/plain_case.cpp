#include "casefile/plain_case.hpp"

#include <algorithm>

#include "casefile/free_texts.hpp"
#include "flinch/model/choice.hpp"
#include "flinch/model/yes_and_no.hpp"
#include "model/fit.hpp"
#include "model/measure_text.hpp"

namespace flinch {
namespace {

using Kind = json::Token::Kind;

std::size_t breed_words(BreedTable const& table) {
  std::size_t count = 0;
  for (auto const& breed : table.breeds) count += 2 + breed.also.size();
  return count;
}

}  // namespace

PlainCaseReader::PlainCaseReader(Pack const& pack, Outcomes outcomes)
    : pack_(pack),
      outcomes_(outcomes),
      is_told_(pack),
      signs_(pack.signs.size()),
      sites_(pack.sites.size()),
      breeds_(breed_words(pack.breeds)),
      answered_(pack.signs.size()),
      places_(pack.signs.size()) {
  for (std::uint32_t i = 0; i < pack.signs.size(); ++i) signs_.add(pack.signs[i].name, i);
  for (std::uint32_t i = 0; i < pack.sites.size(); ++i) sites_.add(pack.sites[i].name, i);
  for (std::uint32_t i = 0; i < pack.breeds.breeds.size(); ++i) {
    auto const& breed = pack.breeds.breeds[i];
    breeds_.add(breed.key, i);
    breeds_.add(breed.name, i);
    for (auto const& also : breed.also) breeds_.add(also, i);
  }
}

bool PlainCaseReader::read(Tokens tokens, Case& patient) {
  tokens_ = tokens;
  next_ = 0;
  for (auto const& text : free_texts) (patient.*(text.member)).clear();
  patient.answers.clear();
  patient.cannot_tell.clear();
  patient.outcome.reset();
  patient.came_for.clear();
  std::optional<std::size_t> complaint;
  std::uint32_t keys_seen = 0;
  bool is_sound = !tokens.empty();
  while (is_sound && tokens_[next_].kind != Kind::close) {
    auto const key = tokens_[next_++].text;
    auto const place =
        static_cast<std::size_t>(std::find_if(free_texts.begin(), free_texts.end(),
                                              [&](FreeText const& one) { return one.key == key; }) -
                                 free_texts.begin());
    auto const bit = 1U << (place < free_texts.size()    ? place
                            : key == pack_.patient_key() ? free_texts.size()
                            : key == "answers"           ? free_texts.size() + 1
                            : key == "outcome"           ? free_texts.size() + 2
                                                         : free_texts.size() + 3);
    is_sound = (keys_seen & bit) == 0;
    keys_seen |= bit;
    if (!is_sound) break;
    if (place < free_texts.size()) {
      auto const& [kind, text] = tokens_[next_++];
      is_sound = kind == Kind::text;
      if (is_sound) patient.*(free_texts[place].member) = text;
    } else if (key == pack_.patient_key() || key == "answers") {
      is_sound = signs(key == "answers" ? Under::answers : Under::patient);
    } else if (key == "came for" && !complaint) {
      complaint = next_;
      pass_over();
    } else if (key == "outcome" && outcomes_ == Outcomes::read && !patient.outcome) {
      is_sound = outcome(patient);
    } else {
      is_sound = false;
    }
  }
  // By sign, as everywhere.
  answered_.empty_into(
      [&](SignId sign) { is_sound = is_sound && answer(sign, places_[index(sign)], patient); });
  return is_sound && (!complaint || came_for(*complaint, patient));
}

bool PlainCaseReader::outcome(Case& patient) {
  if (tokens_[next_++].kind != Kind::map || tokens_[next_].kind == Kind::close) return false;
  auto const numbered = [](auto const& things, std::string_view name) {
    return static_cast<std::uint32_t>(
        std::find_if(things.begin(), things.end(),
                     [&](auto const& thing) { return thing.name == name; }) -
        things.begin());
  };
  CaseOutcome closed;
  while (tokens_[next_].kind != Kind::close) {
    auto const key = tokens_[next_++].text;
    auto const& [kind, name] = tokens_[next_++];
    if (kind != Kind::text) return false;
    if (key == "cause" && !closed.is_cause_known) {
      closed.is_cause_known = true;
      if (name == "none") continue;
      closed.cause = CauseId{numbered(pack_.causes, name)};
      if (index(*closed.cause) == pack_.causes.size()) return false;
    } else if (key == "needed" && !closed.needed) {
      closed.needed = TierId{numbered(pack_.tiers, name)};
      if (index(*closed.needed) == pack_.tiers.size()) return false;
    } else {
      return false;
    }
  }
  ++next_;
  patient.outcome = closed;
  return true;
}

bool PlainCaseReader::came_for(std::size_t at, Case& patient) {
  if (tokens_[at++].kind != Kind::list) return false;
  for (; tokens_[at].kind == Kind::text; ++at) {
    auto const number = signs_.find(tokens_[at].text);
    if (!number) return false;
    SignId const sign{*number};
    bool const is_told = std::any_of(
        patient.answers.begin(), patient.answers.end(),
        [&](auto const& answer) { return answer.first == sign && is_told_(sign, answer.second); });
    bool const is_new =
        std::find(patient.came_for.begin(), patient.came_for.end(), sign) == patient.came_for.end();
    if (!is_told || !is_new) return false;
    patient.came_for.push_back(sign);
  }
  return tokens_[at].kind == Kind::close;
}

// The signs under a key, each with where its answer is.
bool PlainCaseReader::signs(Under under) {
  if (tokens_[next_++].kind != Kind::map) return false;
  bool has_species = false;
  while (tokens_[next_].kind != Kind::close) {
    auto const name = tokens_[next_++].text;
    if (under == Under::patient && name == "species") {
      auto const& [kind, text] = tokens_[next_++];
      if (has_species || kind != Kind::text || text != pack_.species) return false;
      has_species = true;
      continue;
    }
    auto const number = signs_.find(name);
    if (!number || answered_.has(SignId{*number})) return false;
    if (under == Under::patient && !pack_.signs[*number].of_the_patient) return false;
    answered_.add(SignId{*number});
    places_[*number] = next_;
    pass_over();
  }
  ++next_;
  return true;
}

// A value, whatever it is.
void PlainCaseReader::pass_over() {
  std::size_t depth = 0;
  do {
    auto const kind = tokens_[next_++].kind;
    if (kind == Kind::map || kind == Kind::list) ++depth;
    if (kind == Kind::close) --depth;
  } while (depth > 0);
}

bool PlainCaseReader::answer(SignId sign, std::size_t at, Case& patient) {
  auto const& [kind, text] = tokens_[at];
  switch (kind) {
    case Kind::text:
      if (text == "can't tell") {
        patient.cannot_tell.push_back(sign);
        return true;
      }
      return word(sign, text, patient);
    case Kind::yes:
      return word(sign, "yes", patient);
    case Kind::no:
      return word(sign, "no", patient);
    default:
      return findings(sign, at, patient);
  }
}

bool PlainCaseReader::word(SignId sign, std::string_view word, Case& patient) {
  auto const& s = pack_[sign];
  auto const& its = traits(s);
  if (its.is_number) return amount(sign, word, patient);
  if (its.takes_yes_or_no && (word == "yes" || word == "no")) {
    patient.answers.emplace_back(sign, plain_answer(s, word == "yes"));
    return true;
  }
  if (its.has_places) {
    Findings found{true, false, {}, {}};
    if (!mark(sign, word, found.found)) return false;
    patient.answers.emplace_back(sign, std::move(found));
    return true;
  }
  auto const breed = its.is_breed ? breeds_.find(word) : std::nullopt;
  auto const choice = breed ? std::optional(Choice{*breed}) : find_choice(pack_, s, word);
  if (choice) patient.answers.emplace_back(sign, *choice);
  return choice.has_value();
}

bool PlainCaseReader::amount(SignId sign, std::string_view text, Case& patient) {
  auto const& s = pack_[sign];
  auto const written = read_amount(text);
  if (!written) return false;
  auto const unit = find_unit(written->unit);
  if (!unit || unit->dimension != s.unit.dimension) return false;
  auto const value = convert(written->value, *unit, s.unit);
  if (!(value >= s.low && value <= s.high)) return false;
  patient.answers.emplace_back(sign, value);
  return true;
}

bool PlainCaseReader::findings(SignId sign, std::size_t at, Case& patient) {
  if (!traits(pack_[sign]).has_places) return false;
  Findings all;
  if (tokens_[at].kind == Kind::list) {
    if (!marks(sign, at, all.found)) return false;
  } else {
    bool has_found = false;
    bool has_clear = false;
    for (++at; tokens_[at].kind != Kind::close;) {
      auto const key = tokens_[at++].text;
      auto& has = key == "found" ? has_found : has_clear;
      if ((key != "found" && key != "clear") || has) return false;
      has = true;
      if (key == "found" && tokens_[at].kind == Kind::yes) {
        all.found_somewhere = true;
        ++at;
      } else if (tokens_[at].kind != Kind::list ||
                 !marks(sign, at, key == "found" ? all.found : all.clear)) {
        return false;
      }
    }
  }
  if (!all.found.empty()) all.found_somewhere = true;
  if (all == Findings{}) return true;  // nothing was said
  all.clear_everywhere = is_clear_all_over(pack_, pack_[sign], all);
  patient.answers.emplace_back(sign, std::move(all));
  return true;
}

// The sites of a list; moves on behind it.
bool PlainCaseReader::marks(SignId sign, std::size_t& at, std::vector<SiteMark>& out) {
  for (++at; tokens_[at].kind == Kind::text; ++at)
    if (!mark(sign, tokens_[at].text, out)) return false;
  return tokens_[at++].kind == Kind::close;
}

bool PlainCaseReader::mark(SignId sign, std::string_view text, std::vector<SiteMark>& out) {
  SiteMark mark;
  for (auto const& [words, side] : {std::pair{"left ", Side::left}, {"right ", Side::right}})
    if (text.starts_with(words)) {
      mark.side = side;
      text.remove_prefix(std::string_view(words).size());
      break;
    }
  auto const site = sites_.find(text);
  if (!site) return false;
  mark.site = SiteId{*site};
  Report none;
  if (!site_fits(pack_, pack_[sign], mark, {}, none)) return false;
  out.push_back(mark);
  return true;
}

}  // namespace flinch
