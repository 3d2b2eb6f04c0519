#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "solver/day/day_values.h"
#include "solver/day/farm_of_day.h"
#include "solver/findings/states.h"
#include "solver/findings/why_short.h"
#include "solver/flow/solved_case.h"
#include "solver/network/pipes_by_place.h"
#include "solver/season/season_findings.h"

namespace leat::solver {

namespace {

/// Places that pipes join to a place, whatever stands between.
std::vector<bool> joined_to(const model::Farm& farm, std::size_t place) {
  std::vector<bool> joined(farm.places.size(), false);
  joined[place] = true;
  return joined_by_pipes(farm, std::move(joined));
}

class Reasons {
 public:
  explicit Reasons(const SeasonPast& past) : past_(past) {
    for (const StoppedLine& stopped : past.stopped) {
      lines_.push_back(stopped.line);
    }
  }

  SeasonReason of(std::size_t place,
                  const DriestMoment& driest,
                  const WaterAccount::MonthSum& month) {
    SeasonReason reason = reason_of_moment(place, driest);
    reason.supply = supply_short(place, month);
    if (reason.supply) {
      leave_out_the_springs(reason);
    }
    return reason;
  }

 private:
  /// What the moment says of springs that give too little, the month's supply says already.
  static void leave_out_the_springs(SeasonReason& reason) {
    if (reason.supply->given_m3_day <= 0.0) {
      reason.empty_tank.reset();
      reason.moment.reset();
    } else if (reason.moment && std::holds_alternative<SpringsShort>(*reason.moment)) {
      reason.moment.reset();
    }
  }

  /// The driest moment solved as steady flow.
  struct Moment {
    model::Farm farm;
    SolvedCase solved;
  };

  const SolvedCase& solved(const DriestMoment& driest) {
    const std::pair key{driest.day, driest.levels_m};
    auto found = moments_.find(key);
    if (found == moments_.end()) {
      auto moment = std::make_unique<Moment>();
      moment->farm = farm_at(past_.farm,
                             day_values(past_.farm, driest.day),
                             past_.stores,
                             driest.levels_m,
                             driest.wanted_by_place_m3_s);
      NetworkOptions options;
      for (std::size_t i = 0; i < driest.stopped; ++i) {
        options.broken_pipes.insert(past_.stopped[i].line.pipe);
      }
      for (const model::FloatBreak& broken : past_.farm.breaks) {
        if (broken.on <= driest.day) {
          options.open_floats.insert(broken.place);
        }
      }
      moment->solved =
          solve_running_case(moment->farm, surroundings_of(moment->farm, std::nullopt), options);
      found = moments_.emplace(key, std::move(moment)).first;
    }
    return found->second->solved;
  }

  /// The reason of steady flow at the driest moment; nothing where steady flow has none.
  SeasonReason reason_of_moment(std::size_t place, const DriestMoment& driest) {
    const SolvedCase& moment = solved(driest);
    SeasonReason reason;
    if (!moment.state.solution.report.is_usable() ||
        moment.places[place].met.value_or(1.0) >= met_limit) {
      return reason;
    }
    std::vector<BrokenLine> lines = lines_;
    lines.insert(
        lines.end(), moment.happenings.broken_lines.begin(), moment.happenings.broken_lines.end());
    reason.moment = why_short(moment.state, place, lines);
    const std::set<std::string> parted = parted_pipes(moment.state.options);
    if (!parted.empty()) {
      const auto* broken = std::get_if<BrokenSiphon>(&*reason.moment);
      if (broken != nullptr && parted.contains(broken->pipe)) {
        reason.moment = SummitParted{broken->pipe};
      }
      return reason;
    }
    reason.empty_tank = empty_tank(place, driest);
    // What little fall an empty tank leaves, and which pipe takes it, is not why water is short.
    if (reason.empty_tank && std::holds_alternative<LargestLoss>(*reason.moment)) {
      reason.moment.reset();
    }
    return reason;
  }

  /// Names of the pipes whose water had parted by then: the network knows them as broken only.
  std::set<std::string> parted_pipes(const NetworkOptions& options) const {
    std::set<std::string> names;
    for (const StoppedLine& stopped : past_.stopped) {
      if (stopped.parted && options.broken_pipes.contains(stopped.line.pipe)) {
        names.insert(past_.farm.pipes[stopped.line.pipe].name);
      }
    }
    return names;
  }

  /// The name of a tank joined to the place that stands at its lowest mouth.
  std::optional<std::string> empty_tank(std::size_t place, const DriestMoment& driest) const {
    const std::vector<bool> joined = joined_to(past_.farm, place);
    for (const StoreLaw& store : past_.stores.laws()) {
      const model::Place& other = past_.farm.places[store.place];
      const std::optional<double> mouth_m = lowest_mouth_m(past_.farm, store);
      if (joined[store.place] && model::is_tank(other) && mouth_m &&
          driest.levels_m[past_.stores.of_place(store.place)] < *mouth_m + empty_within_m) {
        return other.name;
      }
    }
    return std::nullopt;
  }

  /// Where springs alone feed what is joined to the place, and give less in the month than is
  /// wanted there.
  std::optional<SupplyShort> supply_short(std::size_t place,
                                          const WaterAccount::MonthSum& month) const {
    const std::vector<bool> joined = joined_to(past_.farm, place);
    double given_m3 = 0.0;
    double wanted_m3 = 0.0;
    SupplyShort supply;
    for (std::size_t i = 0; i < joined.size(); ++i) {
      if (!joined[i]) {
        continue;
      }
      const model::Place& other = past_.farm.places[i];
      if (model::is_natural_water(other) && gives_water(i)) {
        return std::nullopt;
      }
      if (model::is_spring(other)) {
        supply.springs.push_back(other.name);
        given_m3 += month.yield_m3[i];
      }
      wanted_m3 += month.need_m3[i];
    }
    if (supply.springs.empty() || month.days <= 0.0 || given_m3 >= wanted_m3) {
      return std::nullopt;
    }
    supply.given_m3_day = given_m3 / month.days;
    supply.wanted_m3_day = wanted_m3 / month.days;
    return supply;
  }

  bool gives_water(std::size_t place) const {
    for (const model::Pipe& pipe : past_.farm.pipes) {
      if (pipe.from == place) {
        return true;
      }
    }
    return false;
  }

  const SeasonPast& past_;
  std::vector<BrokenLine> lines_;
  std::map<std::pair<model::Date, std::vector<double>>, std::unique_ptr<Moment>> moments_;
};

}  // namespace

void find_season_reasons(const SeasonPast& past, SeasonAnswer& answer) {
  Reasons reasons(past);
  for (std::size_t i = 0; i < answer.troughs.size(); ++i) {
    TroughSeason& trough = answer.troughs[i];
    for (std::size_t month = 0; month < trough.months.size(); ++month) {
      const DriestMoment& driest = past.account.driest()[i][month];
      if (trough.months[month].met.value_or(1.0) < met_limit && driest.short_m3_s > 0.0) {
        trough.months[month].reason =
            reasons.of(trough.place, driest, past.account.months()[month]);
      }
    }
  }
}

}  // namespace leat::solver
