// What nothing uses, and causes that nothing speaks for.
#include <fmt/format.h>

#include "flinch/text/display.hpp"
#include "proofread/remarks.hpp"

namespace flinch {
namespace {

class Uses {
 public:
  explicit Uses(Pack const& pack)
      : pack_(pack),
        signs_(pack.signs.size()),
        means_(pack.means.size()),
        sites_(pack.sites.size()),
        groups_(pack.groups.size()),
        families_(pack.families.size()),
        tiers_(pack.tiers.size()),
        sources_(pack.sources.size()),
        values_(pack.signs.size()) {
    cite(pack.figure_sources);
    for (auto const& rule : pack.rules) use(rule);
    for (auto const& alarm : pack.alarms) {
      mark(alarm.condition);
      tiers_[index(alarm.see)] = true;
      cite(alarm.cites);
    }
    for (auto const& care : pack.care) use(care);
    for (auto const& cause : pack.causes) {
      for (auto const site : cause.affects) mark(site);
      tiers_[index(cause.see)] = true;
      cite(cause.cites);
    }
    for (auto const& sign : pack.signs) {
      if (sign.applies_if) mark(*sign.applies_if);
      if (traits(sign).has_places) offer(sign);
    }
    follow_wholes();
  }
  [[nodiscard]] bool sign(std::size_t i) const { return signs_[i]; }
  [[nodiscard]] bool meaning(std::size_t i) const { return means_[i]; }
  [[nodiscard]] bool site(std::size_t i) const { return sites_[i]; }
  [[nodiscard]] bool group(std::size_t i) const { return groups_[i]; }
  [[nodiscard]] bool family(std::size_t i) const { return families_[i]; }
  [[nodiscard]] bool tier(std::size_t i) const { return tiers_[i]; }
  [[nodiscard]] bool source(std::size_t i) const { return sources_[i]; }
  /// Whether some test holds for this step or choice.
  [[nodiscard]] bool value(std::size_t sign, std::size_t i) const {
    return (values_[sign] >> i & 1U) != 0;
  }

 private:
  void use(Rule const& rule) {
    if (rule.condition) mark(*rule.condition);
    if (!rule.bands.empty()) signs_[index(rule.over)] = true;
    for (auto const& band : rule.bands) mark_values(band.test);
    cite(rule.cites);
    if (rule.usual_source) sources_[index(*rule.usual_source)] = true;
    for (auto const& entry : rule.entries) {
      if (entry.source) sources_[index(*entry.source)] = true;
      if (entry.family) families_[index(*entry.family)] = true;
    }
  }
  void use(Care const& care) {
    if (care.fit_if) mark(*care.fit_if);
    for (auto const* gates : {&care.never_if, &care.ask_vet_if, &care.stop_if})
      for (auto const& gate : *gates) mark(gate.condition);
    for (auto const& sign : {care.taken, care.since, care.slims_by})
      if (sign) signs_[index(*sign)] = true;
    for (auto const& level : care.levels)
      if (level.see) tiers_[index(*level.see)] = true;
    cite(care.cites);
  }
  void cite(std::vector<SourceId> const& cites) {
    for (auto const source : cites) sources_[index(source)] = true;
  }
  // A site is used with those that it lies in.
  void mark(SiteId site) {
    sites_[index(site)] = true;
    for (auto outer = pack_[site].inside; outer; outer = pack_[*outer].inside)
      sites_[index(*outer)] = true;
  }
  // What can be answered is used.
  void offer(Sign const& sign) {
    for (std::uint32_t i = 0; i < pack_.sites.size(); ++i) {
      bool is_offered = sign.within.empty();
      for (auto const outer : sign.within)
        is_offered = is_offered || pack_.covers(outer, SiteId{i});
      if (is_offered) mark(SiteId{i});
    }
  }
  void mark(Condition const& c) {
    if (c.kind == Condition::Kind::test) {
      signs_[index(c.test.sign)] = true;
      mark_values(c.test);
      if (c.test.kind == Test::Kind::at_site) mark(c.test.mark.site);
      if (c.test.kind == Test::Kind::in_group) groups_[index(c.test.group)] = true;
    }
    if (c.kind == Condition::Kind::meaning && !means_[index(c.meaning)]) {
      means_[index(c.meaning)] = true;
      mark(pack_[c.meaning].condition);
    }
    for (auto const& part : c.parts) mark(part);
  }
  void mark_values(Test const& test) {
    auto& values = values_[index(test.sign)];
    if (test.kind == Test::Kind::at_least) values |= ~std::uint64_t{0} << test.values.front();
    if (test.kind == Test::Kind::is_value)
      for (auto const value : test.values) values |= std::uint64_t{1} << value;
  }
  // A whole is used through its parts, and a part may settle its whole.
  void follow_wholes() {
    for (bool changed = true; changed;) {
      changed = false;
      for (std::size_t i = 0; i < pack_.signs.size(); ++i) {
        auto const whole = pack_.signs[i].part_of;
        if (!whole || signs_[i] == signs_[index(*whole)]) continue;
        signs_[i] = signs_[index(*whole)] = true;
        changed = true;
      }
    }
  }

  Pack const& pack_;
  std::vector<bool> signs_, means_, sites_, groups_, families_, tiers_, sources_;
  std::vector<std::uint64_t> values_;  ///< of each sign; bit v: value v
};

class Unused {
 public:
  Unused(Pack const& pack, Remarks& remarks) : pack_(pack), remarks_(remarks), uses_(pack) {}

  void find() {
    for (std::size_t i = patient_sign::count; i < pack_.signs.size(); ++i)
      if (!uses_.sign(i) && !pack_.signs[i].tells_pain)
        say(Code::unused_sign, pack_.signs[i],
            fmt::format("no rule, alarm or care uses the sign `{}`", pack_.signs[i].name),
            "it is asked, and the answer changes nothing", "write the rule, or take the sign out");
    for (std::size_t i = 0; i < pack_.means.size(); ++i)
      if (!uses_.meaning(i))
        say(Code::unused_meaning, pack_.means[i],
            fmt::format("nothing uses the meaning `{}`", pack_.means[i].name),
            "a name that stands nowhere else is forgotten when its signs change",
            "use it, or take it out");
    for (std::size_t i = 0; i < pack_.sites.size(); ++i)
      if (!uses_.site(i))
        say(Code::unused_site, pack_.sites[i],
            fmt::format("nothing uses the site `{}`", pack_.sites[i].name),
            "no sign can be found there, and no cause affects it",
            "name it in a cause or a sign, or take it out");
    for (std::size_t i = pack_.breeds.groups.size(); i < pack_.groups.size(); ++i)
      if (!uses_.group(i)) {
        auto const& group = pack_.groups[i];
        remarks_.add(Code::unused_group, group.at, {group.at},
                     fmt::format("no condition asks for the breeds `{}`", group.key),
                     "belonging to them changes nothing", "write the rule, or take the group out");
      }
    for (std::size_t i = 0; i < pack_.families.size(); ++i)
      if (!uses_.family(i))
        say(Code::unused_family, pack_.families[i],
            fmt::format("no rule speaks of a cause as one of the family `{}`",
                        pack_.families[i].name),
            "either no rule names it, or those that do name each of its causes themselves",
            "name it in a rule, or take it out");
    // The last tier is where a patient stays when nothing asks for more.
    for (std::size_t i = 0; i + 1 < pack_.tiers.size(); ++i)
      if (!uses_.tier(i))
        say(Code::unused_tier, pack_.tiers[i],
            fmt::format("no cause or alarm asks for the tier `{}`", pack_.tiers[i].name),
            "no patient can ever come out there by itself", "name it in a `see`, or take it out");
    for (std::size_t i = 0; i < pack_.sources.size(); ++i)
      if (!uses_.source(i))
        say(Code::unused_source, pack_.sources[i],
            fmt::format("nothing cites the source `{}`", pack_.sources[i].name),
            "a list of sources that back nothing looks better founded than it is",
            "cite it where it was used, or take it out");
    find_unused_answers();
    find_silent_causes();
  }

 private:
  template <class T>
  void say(Code code, T const& subject, std::string what, std::string why, std::string remedy) {
    remarks_.add(code, subject.at, {subject.at}, std::move(what), std::move(why),
                 std::move(remedy));
  }

  // One that no test holds for may be the usual one: it is told from those that are used. A second
  // is told from nothing.
  void find_unused_answers() {
    for (std::size_t i = patient_sign::count; i < pack_.signs.size(); ++i) {
      auto const& sign = pack_.signs[i];
      if (!uses_.sign(i)) continue;
      Value const* usual = nullptr;
      for (std::size_t v = 0; v < sign.values.size(); ++v) {
        auto const& value = sign.values[v];
        if (uses_.value(i, v)) continue;
        if (usual == nullptr) {
          usual = &value;
          continue;
        }
        say(Code::unused_answer, sign,
            fmt::format("nothing tells the answer `{}` to the sign `{}` from `{}`", value.name,
                        sign.name, usual->name),
            "it is asked, and the answer changes nothing",
            "use it in a rule, alarm or care, or make one answer of them");
      }
    }
  }

  void find_silent_causes() {
    std::vector<bool> named(pack_.causes.size());
    for (auto const& rule : pack_.rules)
      for (auto const& entry : rule.entries) named[index(entry.cause)] = true;
    for (std::size_t i = 0; i < pack_.causes.size(); ++i)
      if (!named[i])
        say(Code::silent_cause, pack_.causes[i],
            fmt::format("no rule speaks for the cause `{}`", pack_.causes[i].name),
            "no answer can move it from its base rate", "write the rule that tells it");
  }

  Pack const& pack_;
  Remarks& remarks_;
  Uses uses_;
};

}  // namespace

void find_unused(Pack const& pack, Remarks& remarks) {
  for (auto const& file : pack.not_included)
    remarks.add(
        Code::not_included, pack.at, {},
        fmt::format("`{}` lies in the pack's folder and nothing includes it", inert(file)),
        "what stands in it does not count",
        fmt::format("write `include \"{}\"`, or take the file out of the folder", inert(file)));
  Unused(pack, remarks).find();
}

}  // namespace flinch
