#include "audit/audit_figures.hpp"
#include "audit/audit_view.hpp"
#include "flinch/explain/reasons.hpp"
#include "look/schema.hpp"

namespace flinch::cli {
namespace {

using Json = nlohmann::ordered_json;

Json json(std::optional<double> const& value) { return value ? Json(*value) : Json(nullptr); }

Json json(Proportion const& p) {
  return {{"count", p.count}, {"of", p.of}, {"share", p.share()}, {"low", p.low}, {"high", p.high}};
}

class AuditJson {
 public:
  AuditJson(PackAudit const& one, std::size_t worst)
      : pack_(*one.pack), location_(one.location), audit_(one.audit), worst_(worst) {}

  [[nodiscard]] Json write() const {
    Json out;
    out["pack"] = {{"name", pack_.name}, {"version", pack_.version}};
    out["pack"]["location"] = location_.empty() ? Json(nullptr) : Json(location_);
    out["cases"] = audit_.cases;
    out["left_open"] = audit_.left_open;
    out["triage"] = triage();
    out["needs_now"] = calibration(audit_.needs_now);
    out["needs_now"]["roc"]["points"] = roc(audit_.now_curve);
    out["needs_now"]["roc_with_alarms"]["points"] = roc(audit_.now_curve_with_alarms);
    out["first_cause"] = calibration(audit_.first_cause);
    for (auto const& figure : audit_figures(audit_))
      out[Json::json_pointer(std::string(figure.pointer))] =
          std::visit([](auto const& value) { return json(value); }, figure.value);
    out["by_cause"] = by_cause();
    out["misses"] = audit_.misses.size();
    out["worst"] = worst();
    return out;
  }

 private:
  [[nodiscard]] Json triage() const {
    auto tiers = Json::array();
    for (auto const& tier : pack_.tiers) tiers.push_back(tier.name);
    return {{"tiers", std::move(tiers)},
            {"needed_by_given", audit_.triage.cells},
            {"without_tier", audit_.triage.without_tier}};
  }
  [[nodiscard]] static Json calibration(Calibration const& what) {
    auto bands = Json::array();
    for (auto const& band : what.bands)
      bands.push_back({{"from", band.from},
                       {"to", band.to},
                       {"mean_forecast", band.mean_forecast},
                       {"came_true", json(band.came_true)}});
    return {{"forecasts", what.forecasts.size()}, {"reliability", std::move(bands)}};
  }
  [[nodiscard]] static Json roc(std::vector<RocPoint> const& curve) {
    auto points = Json::array();
    for (auto const& point : curve)
      points.push_back({{"false_alarms", point.false_alarm_share}, {"hits", point.hit_share}});
    return points;
  }
  [[nodiscard]] Json by_cause() const {
    auto out = Json::array();
    for (auto const& one : audit_.by_cause) {
      auto row = name_and_title(one.cause);
      row["first"] = json(one.hits.first);
      row["top_three"] = json(one.hits.top_three);
      row["under"] = json(one.under);
      row["over"] = json(one.over);
      out.push_back(std::move(row));
    }
    return out;
  }
  [[nodiscard]] Json name_and_title(std::optional<CauseId> cause) const {
    Json out;
    out["cause"] = cause ? Json(pack_[*cause].name) : Json("none");
    out["title"] = title_of(pack_, cause);
    return out;
  }
  [[nodiscard]] Json worst() const {
    auto out = Json::array();
    for (auto const& miss : audit_.misses) {
      if (out.size() == worst_) break;
      Json one;
      one["file"] = miss.name;
      one["needed"] = miss.needed ? Json(pack_[*miss.needed].name) : Json(nullptr);
      one["given"] = miss.given ? Json(pack_[*miss.given].name) : Json(nullptr);
      one["tiers_too_low"] = miss.tiers_too_low;
      one["cause"] = !miss.is_cause_known ? Json(nullptr)
                     : miss.cause         ? Json(pack_[*miss.cause].name)
                                          : Json("none");
      one["place"] = miss.is_cause_known ? Json(miss.place) : Json(nullptr);
      one["why"] = miss.why;
      out.push_back(std::move(one));
    }
    return out;
  }

  Pack const& pack_;
  std::string const& location_;
  Audit const& audit_;
  std::size_t worst_;
};

}  // namespace

Json audit_json(std::vector<PackAudit> const& audits, std::size_t worst) {
  Json out;
  out["schema"] = schema_json(audit_schema);
  out["caution"] = audit_caution;
  out["audits"] = Json::array();
  for (auto const& one : audits) out["audits"].push_back(AuditJson(one, worst).write());
  return out;
}

}  // namespace flinch::cli
