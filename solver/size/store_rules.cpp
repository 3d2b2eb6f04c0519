#include "solver/size/store_rules.h"

#include <algorithm>
#include <utility>

#include "model/quantity/conversion.h"
#include "solver/size/day_below.h"
#include "solver/size/store_season.h"

namespace leat::solver {

namespace {

constexpr double herd_share = 0.25;     // of a day's amount, for a herd that comes at once
constexpr double gallons_a_head = 2.0;  // refilled within the hour
constexpr int short_dry_spell_days = 3;
constexpr int long_dry_spell_days = 7;
constexpr int days_cut_at_trough = 1;
constexpr int days_cut_at_tank = 3;
/// Stores times pipes of a farm whose month is run for each store (some thirty times).
constexpr std::size_t most_stores_and_pipes = 400;
constexpr model::Month any_month = model::Month::Jul;  // of a farm in which months are alike

/// A store asked for more than this many times what rules for a day ask for stands in for water.
constexpr double much = 2.0;

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
      : farm_(farm), answer_(answer), month_(month), season_(farm, month.value_or(any_month)) {}

  std::vector<StoreRule> make(std::vector<SizeNote>& notes) {
    runs_season_ = store_count() * farm_.pipes.size() <= most_stores_and_pipes;
    if (!runs_season_) {
      notes.emplace_back(StoresByRuleOnly{});
    }
    for (std::size_t i = 0; i < farm_.places.size(); ++i) {
      std::visit(Overload{[&](const model::Trough& trough) { add_trough(i, trough); },
                          [&](const model::Tank&) { add_tank(i); },
                          [](const model::AnyOf<model::Spring,
                                                model::Creek,
                                                model::Pond,
                                                model::Outlet,
                                                model::Tee> auto&) {}},
                 farm_.places[i].data);
    }
    for (StoreRule& rule : rules_) {
      if (rule.is_least) {
        judge(rule);
      }
    }
    return std::move(rules_);
  }

 private:
  [[nodiscard]] std::size_t store_count() const {
    return static_cast<std::size_t>(
        std::count_if(farm_.places.begin(), farm_.places.end(), [](const model::Place& place) {
          return model::is_trough(place) || model::is_tank(place);
        }));
  }

  void add(std::size_t place,
           StorePurpose purpose,
           std::optional<double> volume_m3,
           StoreSource source,
           int days = 0) {
    StoreRule rule;
    rule.place = place;
    rule.purpose = purpose;
    rule.days = days;
    rule.volume_m3 = volume_m3;
    rule.source = source;
    rules_.push_back(rule);
  }

  void add_month_by_season(std::size_t place) {
    if (runs_season_) {
      add(place, StorePurpose::Month, season_.for_the_month_m3(place), StoreSource::Season);
    }
  }

  void add_cut_by_season(std::size_t place, StorePurpose purpose, int days) {
    if (runs_season_) {
      add(place, purpose, season_.without_inflow_m3(place, days), StoreSource::Season, days);
    }
  }

  /// Holds the rule to go by against what the place has and against the rules for a day.
  void judge(StoreRule& rule) const {
    if (const std::optional<Volume> held = model::volume_held_by(farm_.places[rule.place])) {
      rule.held_m3 = in_cubic_metres(*held);
    }
    rule.is_too_small = rule.held_m3 && *rule.held_m3 < rule.volume_m3.value_or(0.0) * (1.0 - 1e-9);
    if (rule.source != StoreSource::Season || !rule.volume_m3) {
      return;
    }
    double greatest_m3 = 0.0;
    for (const StoreRule& other : rules_) {
      if (other.place == rule.place &&
          (other.source == StoreSource::Balance || other.source == StoreSource::Usda)) {
        greatest_m3 = std::max(greatest_m3, other.volume_m3.value_or(0.0));
        if (other.source == StoreSource::Usda) {
          break;  // the USDA's second rule is for a source that fails
        }
      }
    }
    rule.stands_in_for_water = greatest_m3 > 0.0 && *rule.volume_m3 > much * greatest_m3;
  }

  void add_trough(std::size_t place, const model::Trough& trough) {
    const std::optional<double> day_m3 = day_amount_m3(farm_, farm_.places[place], month_);
    if (!day_m3 || *day_m3 <= 0.0 || std::holds_alternative<model::RateNeed>(trough.need)) {
      return;  // of a rate nobody knows how much it is in a day
    }
    const double inflow_m3_s = std::max(0.0, answer_.places[place].delivered_m3_s);
    add(place,
        StorePurpose::ItsHours,
        volume_for_hours_m3(*day_m3, in_hours(trough.within), inflow_m3_s),
        StoreSource::Balance);
    add(place, StorePurpose::HerdAtOnce, herd_share * *day_m3, StoreSource::Ohio);
    add(place,
        StorePurpose::DaysWater,
        volume_by_refill_m3(*day_m3, heads_at(trough, month_), inflow_m3_s),
        StoreSource::Usda);
    add_month_by_season(place);
    mark_greatest_of_last(3);
    add(place, StorePurpose::FailingSource, 2.0 * *day_m3, StoreSource::Usda);
    add_cut_by_season(place, StorePurpose::LineShut, days_cut_at_trough);
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
        StorePurpose::AllHours,
        volume_for_hours_m3(day_m3, shortest_hours(), in_m3_s),
        StoreSource::Balance);
    add(place,
        StorePurpose::DaysWater,
        volume_by_refill_m3(day_m3, 0.0, in_m3_s),
        StoreSource::Usda);
    add_month_by_season(place);
    mark_greatest_of_last(2);
    for (const int days : {short_dry_spell_days, long_dry_spell_days}) {
      add(place, StorePurpose::DaysWithoutSource, days * day_m3, StoreSource::Practice, days);
    }
    add_cut_by_season(place, StorePurpose::SourcesDry, days_cut_at_tank);
  }

  /// In which all that is drunk on the farm may be drunk.
  [[nodiscard]] double shortest_hours() const {
    double hours = seconds_per_day / seconds_per_hour;
    for (const model::Place& place : farm_.places) {
      hours = std::min(hours, in_hours(model::drinking_time_of(place)));
    }
    return hours;
  }

  /// Of the rules just added (`count`, and the season's) the one that asks for most: what the place
  /// must hold in usual times.
  void mark_greatest_of_last(std::size_t count) {
    std::size_t greatest = rules_.size() - count - (runs_season_ ? 1 : 0);
    for (std::size_t i = greatest; i < rules_.size(); ++i) {
      greatest = rules_[i].volume_m3 > rules_[greatest].volume_m3 ? i : greatest;
    }
    rules_[greatest].is_least = true;
  }

  const model::Farm& farm_;
  const SteadyAnswer& answer_;
  std::optional<model::Month> month_;
  StoreSeason season_;
  bool runs_season_ = false;
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
                                   std::optional<model::Month> month,
                                   std::vector<SizeNote>& notes) {
  return Rules(farm, answer, month).make(notes);
}

}  // namespace leat::solver
