#include "solver/size/store_rules.h"

#include <algorithm>
#include <utility>

#include "model/herd_catalogue.h"
#include "solver/size/day_below.h"

namespace leat::solver {

namespace {

constexpr double seconds_per_hour = 3600.0;
constexpr double seconds_per_day = 86400.0;
constexpr double herd_share = 0.25;     // of a day's amount, for a herd that comes at once
constexpr double gallons_a_head = 2.0;  // refilled within the hour
constexpr double short_dry_spell_days = 3.0;
constexpr double long_dry_spell_days = 7.0;

/// USDA Livestock Watering Data Sheet; Ohio State University ANR-12 (2003).
constexpr const char* usda = "USDA";
constexpr const char* ohio = "Ohio";

/// Heads that drink at a trough; 0 where the file gives an amount only.
double heads_at(const model::Trough& trough, std::optional<model::Month> month) {
  const auto* const herd = std::get_if<model::HerdNeed>(&trough.need);
  double heads = 0.0;
  if (herd != nullptr) {
    for (const model::HerdEntry& entry : herd->herd) {
      heads += entry.heads.at(month).in_si();
    }
  }
  return heads;
}

class Rules {
 public:
  Rules(const model::Farm& farm, const SteadyAnswer& answer, std::optional<model::Month> month)
      : farm_(farm), answer_(answer), month_(month) {}

  std::vector<StoreRule> make() {
    for (std::size_t i = 0; i < farm_.places.size(); ++i) {
      if (const auto* const trough = std::get_if<model::Trough>(&farm_.places[i].data)) {
        add_trough(i, *trough);
      } else if (std::holds_alternative<model::Tank>(farm_.places[i].data)) {
        add_tank(i);
      }
    }
    return std::move(rules_);
  }

 private:
  void add(std::size_t place, std::string rule, double volume_m3, std::string source) {
    rules_.push_back({place, std::move(rule), volume_m3, std::move(source), false});
  }

  void add_trough(std::size_t place, const model::Trough& trough) {
    const std::optional<double> day_m3 = day_amount_m3(farm_, farm_.places[place], month_);
    if (!day_m3 || *day_m3 <= 0.0 || std::holds_alternative<model::RateNeed>(trough.need)) {
      return;  // of a rate nobody knows how much it is in a day
    }
    const double inflow_m3_s = std::max(0.0, answer_.places[place].delivered_m3_s);
    add(place,
        "its hours, at the flow it gets",
        volume_for_hours_m3(*day_m3, in_hours(trough.within), inflow_m3_s),
        "balance");
    add(place, "a herd that comes at once", herd_share * *day_m3, ohio);
    add(place,
        "time to bring a day's water",
        volume_by_refill_m3(*day_m3, heads_at(trough, month_), inflow_m3_s),
        usda);
    mark_greatest_of_last(3);
    add(place, "a source that may fail for a day", 2.0 * *day_m3, usda);
  }

  /// What water is drawn faster than it comes must stand in the tank.
  void add_tank(std::size_t place) {
    const double day_m3 = day_below_m3(farm_, place, month_);
    if (day_m3 <= 0.0) {
      return;
    }
    double in_m3_s = 0.0;
    for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
      if (farm_.pipes[i].to == place) {
        in_m3_s += std::max(0.0, answer_.pipes[i].flow_m3_s);
      }
    }
    add(place,
        "the hours in which all is drunk",
        volume_for_hours_m3(day_m3, shortest_hours(), in_m3_s),
        "balance");
    add(place, "time to bring a day's water", volume_by_refill_m3(day_m3, 0.0, in_m3_s), usda);
    mark_greatest_of_last(2);
    add(place, "3 days without a source", short_dry_spell_days * day_m3, "practice");
    add(place, "7 days without a source", long_dry_spell_days * day_m3, "practice");
  }

  /// In which all that is drunk on the farm may be drunk.
  [[nodiscard]] double shortest_hours() const {
    double hours = seconds_per_day / seconds_per_hour;
    for (const model::Place& place : farm_.places) {
      if (const auto* const trough = std::get_if<model::Trough>(&place.data)) {
        hours = std::min(hours, in_hours(trough->within));
      }
    }
    return hours;
  }

  /// Of the rules just added the one that asks for most: what the place must hold in usual times.
  void mark_greatest_of_last(std::size_t count) {
    std::size_t greatest = rules_.size() - count;
    for (std::size_t i = greatest; i < rules_.size(); ++i) {
      greatest = rules_[i].volume_m3 > rules_[greatest].volume_m3 ? i : greatest;
    }
    rules_[greatest].is_least = true;
  }

  const model::Farm& farm_;
  const SteadyAnswer& answer_;
  std::optional<model::Month> month_;
  std::vector<StoreRule> rules_;
};

}  // namespace

double volume_for_hours_m3(double day_m3, double hours, double inflow_m3_s) {
  // Half a litre of a day's thousand is the flow's last digit, not a trough.
  const double short_m3 = day_m3 - inflow_m3_s * hours * seconds_per_hour;
  return short_m3 > 5e-4 * day_m3 ? short_m3 : 0.0;
}

double volume_by_refill_m3(double day_m3, double heads, double inflow_m3_s) {
  const double refill_h = inflow_m3_s > 0.0 ? day_m3 / inflow_m3_s / seconds_per_hour : 1e9;
  if (refill_h <= 1.0) {
    return heads > 0.0 ? in_cubic_metres(us_gallons(gallons_a_head * heads)) : herd_share * day_m3;
  }
  return refill_h <= 4.0 ? herd_share * day_m3 : day_m3;
}

std::vector<StoreRule> store_rules(const model::Farm& farm,
                                   const SteadyAnswer& answer,
                                   std::optional<model::Month> month) {
  return Rules(farm, answer, month).make();
}

}  // namespace leat::solver
