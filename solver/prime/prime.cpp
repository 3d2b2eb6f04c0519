#include "solver/prime/prime.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "model/text/nearest_word.h"
#include "solver/flow/flow_state.h"
#include "solver/prime/fill_pump.h"
#include "solver/prime/filling_steps.h"
#include "solver/prime/prime_remarks.h"
#include "solver/prime/prime_steps.h"
#include "solver/prime/prime_words.h"
#include "solver/steady/steady.h"

namespace leat::solver {

namespace {

/// A line that climbs less above its water fills by itself [m].
constexpr double least_climb_m = 1e-6;

/// Findings with which a line is not to be filled: it would part, gas up or draw air, or its pipe
/// would be sucked flat or burst. A collapse that is a caution still has its wall to spare.
bool is_fatal(const Flag& flag) {
  static const std::set<Code> codes = {Code::Parted,
                                       Code::NearVapour,
                                       Code::BelowVapour,
                                       Code::Breaks,
                                       Code::AirIn,
                                       Code::OverRating};
  return codes.count(flag.code) > 0 ||
         (flag.code == Code::Collapse && flag.severity == FlagSeverity::Danger);
}

bool is_foot_valve(const model::Fitting& fitting) {
  return fitting.name.find("foot valve") != std::string::npos;
}

class PrimeStudy {
 public:
  PrimeStudy(const model::Farm& farm, const PrimeOptions& options)
      : farm_(farm), options_(options), units_(options.units.value_or(farm.show)) {}

  PrimePlan study() {
    const std::optional<std::size_t> asked = asked_pipe();
    if (!plan_.problems.empty() || !solve(farm_, LoadCase::Wide)) {
      return std::move(plan_);
    }
    choose_line(asked);
    const model::Farm opened = with_open_valves();
    wide_ = solve_steady(opened, steady_options(LoadCase::Wide));
    // Where nothing depends on how hard the line draws, it is judged as `solve` judges it.
    const bool is_siphon = prime_course(farm_, plan_.answer, line_).climb_m() > least_climb_m;
    if (!solve(opened, is_siphon ? LoadCase::Wide : LoadCase::Needs) || !runs_as_written()) {
      return std::move(plan_);
    }
    read_line();
    reckon_flows(opened);
    reckon_filling();
    keep_own_flags();
    reckon_pump();
    judge();
    // A pump that is too strong is no reason not to pour: it is said after the plan is made.
    if (plan_.pump) {
      if (auto flag = too_strong_pump(farm_, *plan_.pump, options_.shut_off_Pa, units_)) {
        add_flag(*std::move(flag));
      }
    }
    plan_.remarks = priming_remarks(farm_, plan_, options_, units_);
    return std::move(plan_);
  }

 private:
  void problem(std::string code, std::string text, std::string hint) {
    model::Diagnostic made;
    made.code = std::move(code);
    made.file = farm_.file;
    made.text = std::move(text);
    made.hint = std::move(hint);
    plan_.problems.push_back(std::move(made));
  }

  std::optional<std::size_t> asked_pipe() {
    if (!options_.pipe) {
      return std::nullopt;
    }
    std::vector<std::string> names;
    for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
      names.push_back(farm_.pipes[i].name);
      if (names.back() == *options_.pipe) {
        return i;
      }
    }
    const auto near = model::nearest_word(*options_.pipe, names);
    problem("unknown-pipe",
            fmt::format("no pipe is named '{}'", *options_.pipe),
            near ? fmt::format("did you mean '{}'?", *near) : "");
    return std::nullopt;
  }

  [[nodiscard]] SteadyOptions steady_options(LoadCase load_case) const {
    SteadyOptions steady;
    steady.load_case = load_case;
    steady.month = options_.month;
    steady.units = units_;
    return steady;
  }

  bool solve(const model::Farm& farm, LoadCase load_case) {
    plan_.answer = solve_steady(farm, steady_options(load_case));
    plan_.month = plan_.answer.month;
    plan_.month_chosen = plan_.answer.month_chosen;
    if (!plan_.answer.converged) {
      plan_.problems = plan_.answer.problems;
    }
    return plan_.answer.converged;
  }

  [[nodiscard]] bool starts_at_ram(const LineCourse& line) const {
    return std::any_of(farm_.rams.begin(), farm_.rams.end(), [&](const model::Ram& ram) {
      return farm_.pipes[ram.delivery].from == line.from;
    });
  }

  void choose_line(std::optional<std::size_t> asked) {
    if (asked) {
      line_ = line_through(farm_, plan_.answer, *asked);
      return;
    }
    const LineFinder finder(farm_, plan_.answer);
    double highest_climb_m = 0.0;
    bool found = false;
    for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
      LineCourse line = finder.through(i);
      if (starts_at_ram(line)) {
        continue;  // the ram fills it
      }
      const double climb_m = prime_course(farm_, plan_.answer, line).climb_m();
      const bool higher = climb_m > highest_climb_m + 1e-9;
      const bool longer = highest_climb_m <= 0.0 && line.length_m > line_.length_m + 1e-9;
      if (!found || higher || longer) {
        found = true;
        highest_climb_m = std::max(highest_climb_m, climb_m);
        line_ = std::move(line);
      }
    }
  }

  /// A valve that the file has shut is planned for as open: a primed line is meant to run.
  model::Farm with_open_valves() {
    model::Farm opened = farm_;
    for (const std::size_t pipe : line_.pipes) {
      std::optional<model::Valve>& valve = opened.pipes[pipe].valve;
      if (valve && valve->shut) {
        valve->shut = false;
        valve->open = 1.0;
        opened_.push_back(pipe);
      }
    }
    return opened;
  }

  /// Whether the line starts at water and nothing runs up it.
  bool runs_as_written() {
    if (!model::is_open_water(farm_.places[line_.from])) {
      problem("line-without-water",
              fmt::format("the line of pipe '{}' does not start at water: the file has it begin at "
                          "{}",
                          farm_.pipes[line_.pipes.back()].name,
                          farm_.places[line_.from].name),
              "name a pipe on the way down from a spring, creek, pond or tank; write a pipe that "
              "brings water with the water as its from");
      return false;
    }
    for (const std::size_t pipe : line_.pipes) {
      if (plan_.answer.pipes[pipe].flow_m3_s < -still_flow_m3_s) {
        problem("runs-backwards",
                fmt::format("water runs backwards in pipe '{}', so there is no plan for priming it "
                            "as the file has it",
                            farm_.pipes[pipe].name),
                "leat solve FILE says where its water comes from");
        return false;
      }
    }
    return true;
  }

  void read_line() {
    plan_.course = prime_course(farm_, plan_.answer, line_);
    plan_.lock = air_lock_of(farm_, plan_.answer, line_);
    for (const FallingLeg& leg : falling_legs(farm_, plan_.answer)) {
      if (std::count(line_.pipes.begin(), line_.pipes.end(), leg.pipe) > 0) {
        plan_.air.push_back(leg);
      }
    }
  }

  void reckon_filling() {
    const double area_m2 = plan_.course.narrowest_area_m2;
    plan_.fastest_fill_m3_s = fastest_filling_m_s * area_m2;
    plan_.pump_m3_s =
        std::min(options_.fill_m3_s.value_or(plan_.fastest_fill_m3_s), plan_.fastest_fill_m3_s);
    if (!fills_itself()) {
      const double bore_m = std::sqrt(4.0 * area_m2 / std::numbers::pi);
      const double bubble_m_s = rising_bubble * std::sqrt(gravity_m_s2 * bore_m);
      plan_.fastest_fill_m3_s =
          std::min(plan_.fastest_fill_m3_s, bubble_m_s * area_m2 * share_for_air);
    }
    plan_.fill_m3_s = std::min(plan_.pump_m3_s, plan_.fastest_fill_m3_s);
    if (fills_itself() && plan_.inflow_m3_s > still_flow_m3_s) {
      plan_.fill_m3_s = std::min(plan_.fill_m3_s, plan_.inflow_m3_s);
    }
    plan_.fill_s = plan_.course.volume_m3 / plan_.fill_m3_s;
  }

  void reckon_pump() {
    if (fills_itself()) {
      return;
    }
    const Surroundings around = surroundings_of(farm_, plan_.answer.month);
    plan_.pump = fill_pump_of(farm_, plan_.course, around, plan_.pump_m3_s, options_.shut_off_Pa);
    for (Flag& flag : standing_flags(farm_, plan_.course, around, units_)) {
      add_flag(std::move(flag));
    }
  }

  [[nodiscard]] double flow_at_end(const SteadyAnswer& answer) const {
    return answer.pipes[line_.pipes.back()].flow_m3_s;
  }

  void reckon_flows(model::Farm without) {
    if (!wide_.converged) {
      return;
    }
    plan_.flow_m3_s = flow_at_end(wide_);
    plan_.inflow_m3_s = wide_.pipes[line_.pipes.front()].flow_m3_s;
    bool has_one = false;
    for (const std::size_t pipe : line_.pipes) {
      std::vector<model::Fitting>& fittings = without.pipes[pipe].fittings;
      const auto kept = std::remove_if(fittings.begin(), fittings.end(), is_foot_valve);
      has_one = has_one || kept != fittings.end();
      fittings.erase(kept, fittings.end());
    }
    if (!has_one) {
      return;
    }
    const SteadyAnswer free = solve_steady(without, steady_options(LoadCase::Wide));
    if (free.converged) {
      plan_.flow_without_foot_valve_m3_s = flow_at_end(free);
    }
  }

  [[nodiscard]] bool is_of_line(const std::string& where) const {
    const auto is_here = [&](std::size_t pipe) {
      return farm_.pipes[pipe].name == where ||
             farm_.places[farm_.pipes[pipe].from].name == where ||
             farm_.places[farm_.pipes[pipe].to].name == where;
    };
    return std::any_of(line_.pipes.begin(), line_.pipes.end(), is_here);
  }

  void keep_own_flags() {
    std::vector<Flag>& flags = plan_.answer.flags;
    flags.erase(std::remove_if(flags.begin(),
                               flags.end(),
                               [this](const Flag& flag) { return !is_of_line(flag.where); }),
                flags.end());
  }

  /// Adds a finding about filling, in place of one that says the same of the static case.
  void add_flag(Flag flag) {
    std::vector<Flag>& flags = plan_.answer.flags;
    const auto same = std::find_if(flags.begin(), flags.end(), [&](const Flag& other) {
      return other.code == flag.code && other.where == flag.where;
    });
    if (same == flags.end()) {
      flags.push_back(std::move(flag));
    } else {
      *same = std::move(flag);
    }
    std::stable_sort(flags.begin(), flags.end(), [](const Flag& a, const Flag& b) {
      return a.severity < b.severity;
    });
  }

  [[nodiscard]] bool fills_itself() const { return plan_.course.climb_m() <= least_climb_m; }

  void judge() {
    const std::string reason = reason_not_to_prime();
    if (!reason.empty() || plan_.refused_for) {
      plan_.need = PrimeNeed::CannotHold;
      plan_.verdict =
          fmt::format("Do not {} it as it is: {}", fills_itself() ? "fill" : "prime", reason);
      return;
    }
    if (fills_itself()) {
      plan_.need = PrimeNeed::FillsItself;
      plan_.verdict = fmt::format(
          "No point of this line stands above the water of {} it starts from ({}): it needs no "
          "priming and fills by itself.",
          quoted(farm_.places[line_.from].name),
          spoken_level(plan_.course.source_m, units_));
      plan_.steps = filling_steps(farm_, plan_, units_);
      return;
    }
    plan_.need = PrimeNeed::ByHand;
    plan_.verdict = holds_words();
    plan_.steps = priming_steps(farm_, plan_, units_);
  }

  [[nodiscard]] std::string holds_words() const {
    std::string text =
        fmt::format("{} stands {} above {}, so the line must be primed.",
                    point_words(farm_, plan_.course, plan_.course.summit, "The summit", units_),
                    spoken_length(plan_.course.climb_m(), units_),
                    quoted(farm_.places[line_.from].name));
    if (const std::optional<double> margin = margin_m()) {
      text += fmt::format(" Running, it has {} left there before the water would part: it holds.",
                          spoken_length(*margin, units_));
    }
    for (const std::size_t pipe : opened_) {
      text += fmt::format(" The file has the valve of {} shut; this is for it wide open.",
                          quoted(farm_.pipes[pipe].name));
    }
    return text;
  }

  /// Absolute head less vapour head at the worst summit of the line [m].
  [[nodiscard]] std::optional<double> margin_m() const {
    std::optional<double> least;
    const auto take = [&least](double margin) {
      least = least ? std::min(*least, margin) : margin;
    };
    for (const std::size_t pipe : line_.pipes) {
      const std::optional<SummitAnswer>& summit = plan_.answer.pipes[pipe].summit;
      if (summit && summit->margin_m) {
        take(*summit->margin_m);
      }
    }
    if (plan_.course.summit_tee) {
      const Surroundings around = surroundings_of(farm_, plan_.answer.month);
      const std::optional<double>& tee = plan_.answer.places[*plan_.course.summit_tee].pressure_Pa;
      if (tee) {
        take(around.head_of_pressure_m(*tee + around.air_pressure_Pa -
                                       around.water.vapour_pressure_Pa));
      }
    }
    return least;
  }

  /// Why the line should not be primed or filled; empty where it may be.
  [[nodiscard]] std::string reason_not_to_prime() {
    for (const Flag& flag : plan_.answer.flags) {
      if (is_fatal(flag)) {
        const bool by_its_own_water = flag.code == Code::OverRating && !fills_itself();
        plan_.refused_for = flag;
        plan_.verdict_end = by_its_own_water ? ". A lower summit, stronger pipe in the dip, or "
                                               "filling each leg by itself."
                                             : ".";
        return "";
      }
    }
    if (fills_itself()) {
      return "";
    }
    if (const std::optional<std::string> vent = vent_in_the_way()) {
      return *vent;
    }
    if (plan_.flow_m3_s.value_or(0.0) < still_flow_m3_s) {
      if (plan_.course.source_m <= plan_.course.end_m) {
        return fmt::format(
            "{} ({}) does not stand above its end ({}), and water does not run "
            "uphill.",
            quoted(farm_.places[line_.from].name),
            spoken_level(plan_.course.source_m, units_),
            spoken_level(plan_.course.end_m, units_));
      }
      return fmt::format("nothing would run to {} with every float open. leat solve says why.",
                         quoted(farm_.places[line_.to].name));
    }
    return "";
  }

  /// A vent below the summit's level spills while the line is filled, and on a running siphon's
  /// summit it draws air.
  [[nodiscard]] std::optional<std::string> vent_in_the_way() const {
    for (const std::size_t index : line_.pipes) {
      const model::Pipe& pipe = farm_.pipes[index];
      for (const model::Vent& vent : pipe.vents) {
        const bool stands_higher =
            vent.top && in_metres(*vent.top) >= plan_.course.top().elevation_m;
        if (stands_higher && !lies_in_suction(index, in_metres(vent.distance))) {
          continue;
        }
        return fmt::format(
            "the vent on {} at {} {}. Take it out and close the place with a "
            "plug or a hand valve.",
            quoted(pipe.name),
            spoken_length(in_metres(vent.distance), units_),
            stands_higher ? "stands where the line runs in suction, and a vent there "
                            "lets air in"
                          : "spills before the line is full, and lets air in where "
                            "the line runs in suction");
      }
    }
    return std::nullopt;
  }

  /// Whether a point of the line lies above the water it starts from.
  [[nodiscard]] bool lies_in_suction(std::size_t pipe, double at_m) const {
    const PipeCourse course = course_of(farm_, farm_.pipes[pipe], plan_.answer.month);
    return course.at(at_m).elevation_m > plan_.course.source_m;
  }

  const model::Farm& farm_;
  const PrimeOptions& options_;
  model::UnitSystem units_;
  LineCourse line_;
  SteadyAnswer wide_;
  std::vector<std::size_t> opened_;
  PrimePlan plan_;
};

}  // namespace

PrimePlan priming_plan(const model::Farm& farm, const PrimeOptions& options) {
  return PrimeStudy(farm, options).study();
}

}  // namespace leat::solver
