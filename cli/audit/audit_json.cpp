#include "audit/audit_view.hpp"
#include "flinch/explain/reasons.hpp"
#include "look/schema.hpp"

namespace flinch::cli {
namespace {

using Json = nlohmann::ordered_json;

Json number(std::optional<double> const& value) { return value ? Json(*value) : Json(nullptr); }

Json proportion(Proportion const& p) {
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
    out["hits"] = {{"first", proportion(audit_.hits.first)},
                   {"top_three", proportion(audit_.hits.top_three)}};
    out["needs_now"] = calibration(audit_.needs_now);
    out["needs_now"]["roc"] = roc(audit_.now_area, audit_.now_curve);
    out["needs_now"]["roc_with_alarms"] =
        roc(audit_.now_area_with_alarms, audit_.now_curve_with_alarms);
    out["first_cause"] = calibration(audit_.first_cause);
    out["cause_log_loss"] = number(audit_.cause_log_loss);
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
            {"without_tier", audit_.triage.without_tier},
            {"exact", proportion(audit_.triage.exact)},
            {"under", proportion(audit_.triage.under)},
            {"over", proportion(audit_.triage.over)},
            {"kappa_linear", number(audit_.triage.linear_kappa)},
            {"kappa_quadratic", number(audit_.triage.quadratic_kappa)}};
  }
  [[nodiscard]] static Json calibration(Calibration const& what) {
    auto bands = Json::array();
    for (auto const& band : what.bands)
      bands.push_back({{"from", band.from},
                       {"to", band.to},
                       {"mean_forecast", band.mean_forecast},
                       {"came_true", proportion(band.came_true)}});
    return {{"forecasts", what.forecasts.size()},
            {"brier", number(what.brier)},
            {"log_loss", number(what.log_loss)},
            {"reliability", std::move(bands)}};
  }
  [[nodiscard]] static Json roc(std::optional<double> const& area,
                                std::vector<RocPoint> const& curve) {
    auto points = Json::array();
    for (auto const& point : curve)
      points.push_back({{"false_alarms", point.false_alarm_share}, {"hits", point.hit_share}});
    return {{"area", number(area)}, {"points", std::move(points)}};
  }
  [[nodiscard]] Json by_cause() const {
    auto out = Json::array();
    for (auto const& one : audit_.by_cause) {
      auto row = name_and_title(one.cause);
      row["first"] = proportion(one.hits.first);
      row["top_three"] = proportion(one.hits.top_three);
      row["under"] = proportion(one.under);
      row["over"] = proportion(one.over);
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
