#include <map>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "solver/day/day_values.h"
#include "solver/day/farm_of_day.h"
#include "solver/findings/starved_reason.h"
#include "solver/findings/states.h"
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

  std::string of(std::size_t place,
                 const DriestMoment& driest,
                 const SeasonBooks::MonthSum& month) {
    const std::string supply = supply_sentence(place, month);
    const std::string moment = moment_sentence(place, driest);
    if (supply.empty()) {
      return moment.empty() ? "water came to it more slowly than was drunk" : moment;
    }
    // These say the same of one moment.
    const bool says_so = moment.empty() || moment.find("yields only") != std::string::npos ||
                         moment.find("yield only") != std::string::npos ||
                         moment.rfind("spring short", 0) == 0 ||
                         supply.find(" nothing, ") != std::string::npos;
    return says_so ? supply : supply + ", and " + moment;
  }

 private:
  /// The reason of steady flow at the driest moment; empty where steady flow has none.
  std::string moment_sentence(std::size_t place, const DriestMoment& driest) {
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
    const SolvedCase& solved = found->second->solved;
    if (!solved.state.solution.report.is_usable() ||
        solved.places[place].met.value_or(1.0) >= met_limit) {
      return "";
    }
    std::vector<BrokenLine> lines = lines_;
    lines.insert(
        lines.end(), solved.happenings.broken_lines.begin(), solved.happenings.broken_lines.end());
    for (const StoppedLine& stopped : past_.stopped) {
      if (stopped.parted && found->second->options_broken(stopped.line.pipe)) {
        const std::string reason = starved_reason(solved.state, place, lines, past_.units);
        const std::string& pipe = past_.farm.pipes[stopped.line.pipe].name;
        if (reason.find("the siphon " + pipe) == 0) {
          return fmt::format("the water parted at the summit of {}, which runs no more", pipe);
        }
        return reason;
      }
    }
    const std::string tank = empty_tank(place, driest);
    const std::string reason = starved_reason(solved.state, place, lines, past_.units);
    if (tank.empty()) {
      return reason;
    }
    // What little fall an empty tank leaves, and which pipe takes it, is not why water is short.
    const bool shares_out_the_fall = reason.find(" of the fall (") != std::string::npos;
    return shares_out_the_fall || reason.empty() ? tank : tank + "; " + reason;
  }

  /// "hill tank is empty" where a tank joined to the place stands at its lowest mouth.
  std::string empty_tank(std::size_t place, const DriestMoment& driest) const {
    const std::vector<bool> joined = joined_to(past_.farm, place);
    for (const StoreLaw& store : past_.stores.laws()) {
      const model::Place& other = past_.farm.places[store.place];
      const std::optional<double> mouth_m = lowest_mouth_m(past_.farm, store);
      if (joined[store.place] && std::holds_alternative<model::Tank>(other.data) && mouth_m &&
          driest.levels_m[past_.stores.of_place(store.place)] < *mouth_m + empty_within_m) {
        return other.name + " is empty";
      }
    }
    return "";
  }

  /// "bank spring gives 860 gal a day, the troughs want 1100 gal": where springs alone feed what is
  /// joined to the place, and give less in the month than is wanted there.
  std::string supply_sentence(std::size_t place, const SeasonBooks::MonthSum& month) const {
    const std::vector<bool> joined = joined_to(past_.farm, place);
    double given_m3 = 0.0;
    double wanted_m3 = 0.0;
    std::size_t springs = 0;
    std::string name;
    for (std::size_t i = 0; i < joined.size(); ++i) {
      if (!joined[i]) {
        continue;
      }
      const model::Place& other = past_.farm.places[i];
      const bool is_spring = std::holds_alternative<model::Spring>(other.data);
      const bool other_water = std::holds_alternative<model::Creek>(other.data) ||
                               std::holds_alternative<model::Pond>(other.data);
      if (other_water && gives_water(i)) {
        return "";
      }
      if (is_spring) {
        ++springs;
        name = other.name;
        given_m3 += month.yield_m3[i];
      }
      wanted_m3 += month.need_m3[i];
    }
    if (springs == 0 || month.days <= 0.0 || given_m3 >= wanted_m3) {
      return "";
    }
    if (given_m3 <= 0.0) {
      return fmt::format("{} nothing, {} a day are wanted",
                         springs == 1 ? name + " gives" : std::string("the springs give"),
                         spoken_volume(wanted_m3 / month.days, past_.units));
    }
    return fmt::format("{} {} a day, {} wanted",
                       springs == 1 ? name + " gives" : std::string("the springs give"),
                       spoken_volume(given_m3 / month.days, past_.units),
                       spoken_volume(wanted_m3 / month.days, past_.units) + " are");
  }

  bool gives_water(std::size_t place) const {
    for (const model::Pipe& pipe : past_.farm.pipes) {
      if (pipe.from == place) {
        return true;
      }
    }
    return false;
  }

  struct Moment {
    model::Farm farm;
    SolvedCase solved;
    [[nodiscard]] bool options_broken(std::size_t pipe) const {
      return solved.state.options.broken_pipes.contains(pipe);
    }
  };

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
      const DriestMoment& driest = past.books.driest()[i][month];
      if (trough.months[month].met.value_or(1.0) < met_limit && driest.short_m3_s > 0.0) {
        trough.months[month].reason = reasons.of(trough.place, driest, past.books.months()[month]);
      }
    }
  }
}

}  // namespace leat::solver
