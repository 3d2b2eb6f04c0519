#include "solver/prime/prime_remarks.h"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <variant>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "solver/findings/states.h"
#include "solver/prime/prime_words.h"

namespace leat::solver {

namespace {

class RemarkWriter {
 public:
  RemarkWriter(const model::Farm& farm,
               const PrimePlan& plan,
               const PrimeOptions& options,
               model::UnitSystem units)
      : farm_(farm), plan_(plan), options_(options), course_(plan.course), units_(units) {}

  std::vector<std::string> write() {
    if (plan_.need == PrimeNeed::ByHand) {
      slow_filling();
      pump();
      foot_valve();
    } else if (options_.shut_off_Pa) {
      remarks_.push_back(
          fmt::format("Your pump of {} {}.",
                      pressure(*options_.shut_off_Pa),
                      plan_.need == PrimeNeed::FillsItself
                          ? "is not needed: the line fills by itself"
                          : "changes nothing in that: do not fill the line with it"));
    }
    parted();
    air_lock();
    part_full();
    return std::move(remarks_);
  }

 private:
  [[nodiscard]] std::string last_name() const {
    return quoted(farm_.pipes[course_.line.pipes.back()].name);
  }
  [[nodiscard]] std::string pressure(double value_Pa) const {
    return spoken_pressure(value_Pa, units_);
  }

  void slow_filling() {
    if (options_.fill_m3_s && *options_.fill_m3_s > plan_.fastest_fill_m3_s) {
      remarks_.push_back(
          fmt::format("Poured in at {} the water would run at more than {} in the pipe and shut "
                      "air in: hold it "
                      "to {}.",
                      spoken_flow(*options_.fill_m3_s, units_),
                      filling_speed(plan_.fastest_fill_m3_s / course_.narrowest_area_m2, units_),
                      spoken_flow(plan_.fill_m3_s, units_)));
    }
  }

  /// "4, 6 and 8": the numbers of steps of some kinds.
  [[nodiscard]] std::string numbers_of(std::initializer_list<PrimeStep::Kind> kinds) const {
    std::vector<std::size_t> numbers;
    for (std::size_t i = 0; i < plan_.steps.size(); ++i) {
      if (std::count(kinds.begin(), kinds.end(), plan_.steps[i].kind) > 0) {
        numbers.push_back(i + 1);
      }
    }
    std::string text = numbers.size() == 1 ? "step " : "steps ";
    for (std::size_t i = 0; i < numbers.size(); ++i) {
      const char* const before = i == 0 ? "" : i + 1 == numbers.size() ? " and " : ", ";
      text += fmt::format("{}{}", before, numbers[i]);
    }
    return text;
  }

  /// How the lower end is made ready for the pump.
  [[nodiscard]] std::string pumping_words(const std::string& valve) const {
    using Step = PrimeStep::Kind;
    if (must_fit_valve(farm_, plan_)) {
      return fmt::format(
          "Leave the valve that is fitted there open, with the summit open, and pump "
          "in place of {}",
          numbers_of({Step::Pour}));
    }
    return fmt::format("In place of {} open the {} there, with the summit open, and pump",
                       numbers_of({Step::ShutLowerEnd, Step::Pour}),
                       valve);
  }

  /// Whether a pump can draw at the line's lower end itself.
  [[nodiscard]] bool has_water_below() const {
    const model::Place& end = farm_.places[course_.line.to];
    return std::holds_alternative<model::Pond>(end.data) ||
           std::holds_alternative<model::Creek>(end.data);
  }

  void pump() {
    const FillPump& pump = *plan_.pump;
    const std::string end = quoted(farm_.places[course_.line.to].name);
    if (course_.outlet.kind == EndClosure::Kind::Float) {
      remarks_.push_back(
          fmt::format("A pump cannot fill it from below through the float of {}: take the float "
                      "off and put a valve there first, or pour at the summit.",
                      end));
      return;
    }
    const bool is_capped =
        course_.outlet.kind == EndClosure::Kind::Cap && !must_fit_valve(farm_, plan_);
    const std::string valve =
        course_.outlet.kind == EndClosure::Kind::Valve ? course_.outlet.name : "valve";
    std::string text = fmt::format(
        "With a pump instead{}: it draws from {} and is joined to the lower end of {}. {}; the "
        "other steps hold{}. Water comes up from below, the air goes out at the summit, and what "
        "spills over it fills the leg to {}; shut the {} as soon as the summit is full to the "
        "brim, "
        "then stop the pump. It must reach {} there at {}. A weaker pump fills the line only part "
        "of the way: each {} short is {} of height.",
        is_capped ? ", put a valve on the lower end first, else this cannot be done" : "",
        has_water_below()
            ? end
            : fmt::format("a barrel of {} beside {}",
                          spoken_volume(water_to_have_ready * course_.volume_m3, units_),
                          end),
        last_name(),
        pumping_words(valve),
        is_capped ? ", with the valve in place of the cap" : " as they are",
        quoted(farm_.places[course_.line.from].name),
        valve,
        pressure(pump.needed_Pa),
        spoken_flow(plan_.pump_m3_s, units_),
        units_ == model::UnitSystem::Us ? "1 psi" : "10 kPa",
        units_ == model::UnitSystem::Us ? "2.3 ft" : "1 m");
    if (pump.has_limit) {
      text += fmt::format(
          " It must not be able to give more than {} there, for {} at {}: 72 % of "
          "its rating.",
          pressure(pump.most_Pa),
          quoted(farm_.pipes[pump.limit_pipe].name),
          spoken_length(pump.limit_at_m, units_));
    } else {
      text += fmt::format(" {} carries no rating: the gauge must not go above what is needed.",
                          last_name());
    }
    remarks_.push_back(text + your_pump());
  }

  /// What the pump the user named would do.
  [[nodiscard]] std::string your_pump() const {
    const FillPump& pump = *plan_.pump;
    if (!pump.reaches_m) {
      return "";
    }
    const std::string yours = pressure(*options_.shut_off_Pa);
    const bool is_too_strong = pump.has_limit && *options_.shut_off_Pa > pump.most_Pa;
    const double short_m = course_.top().elevation_m - *pump.reaches_m;
    const std::string stops = fmt::format("stops at {}, {} below the summit",
                                          spoken_level(*pump.reaches_m, units_),
                                          spoken_length(short_m, units_));
    if (is_too_strong) {
      return fmt::format(" Yours of {} {}, {} it is too strong: do not use it.",
                         yours,
                         short_m > 0.0 ? stops : "would reach the summit",
                         short_m > 0.0 ? "and" : "but");
    }
    return short_m > 0.0
               ? fmt::format(" Yours of {} {}: fill the rest by hand at the summit.", yours, stops)
               : fmt::format(" Yours of {} reaches the summit.", yours);
  }

  void foot_valve() {
    if (must_fit_foot_valve(plan_)) {
      remarks_.push_back(
          "The flow is reckoned without a foot valve. Put the foot valve that is to be fitted into "
          "the file "
          "and plan again: some kinds take a good part of the flow of a short line.");
      return;
    }
    if (!plan_.flow_without_foot_valve_m3_s) {
      const bool has_both = course_.inlet.kind == EndClosure::Kind::Valve &&
                            course_.outlet.kind == EndClosure::Kind::Valve;
      remarks_.push_back(
          has_both ? "This line has no foot valve. The valve at each end holds the water while one "
                     "person fills, and hardly slows it."
                   : "This line has no foot valve. A valve at each end holds the water while one "
                     "person fills, and hardly slows it.");
      return;
    }
    const double with = plan_.flow_m3_s.value_or(0.0);
    const double without = *plan_.flow_without_foot_valve_m3_s;
    const double share = without > 0.0 ? 100.0 * (1.0 - with / without) : 0.0;
    remarks_.push_back(fmt::format(
        "The foot valve stays in the running line: {} with it, {} without, {}. Safe "
        "ways to do without: a valve at both ends, or a flap held open by a cord once it runs. "
        "Never unscrew it on a running line: the inlet sucks.",
        spoken_flow(with, units_),
        spoken_flow(without, units_),
        share < 0.5 ? std::string("hardly less") : fmt::format("{:.0f} % less", share)));
  }

  [[nodiscard]] bool has_flag(Code code) const {
    return std::any_of(plan_.answer.flags.begin(), plan_.answer.flags.end(), [&](const Flag& flag) {
      return flag.code == code;
    });
  }

  void parted() {
    if (has_flag(Code::Parted)) {
      remarks_.push_back(
          fmt::format("While parted water runs at all, the leg up to the summit alone decides how "
                      "much: at most "
                      "{}. A lower end, or a wider pipe below the summit, adds nothing.",
                      spoken_flow(plan_.answer.pipes[course_.top().pipe].flow_m3_s, units_)));
    }
  }

  void air_lock() {
    const AirLock& lock = plan_.lock;
    if (lock.pockets == 0 || plan_.need != PrimeNeed::FillsItself || lock.fall_m <= 0.0) {
      return;
    }
    const std::string lifted = spoken_length(lock.lifted_m, units_);
    const std::string fall = spoken_length(lock.fall_m, units_);
    remarks_.push_back(
        lock.starts()
            ? fmt::format("Filled with its high points shut, trapped air can hold back {} of water "
                          "out of a fall of {}: it starts all the same, though with less until the "
                          "air is out.",
                          lifted,
                          fall)
            : fmt::format("Filled with its high points shut, trapped air can hold back {} of "
                          "water, but the fall is only {}: it does not start until they are bled.",
                          lifted,
                          fall));
  }

  /// Whether the water stands full again at a pipe's lower end, after a reach that runs part full.
  [[nodiscard]] bool is_full_at_end(std::size_t pipe) const {
    const std::size_t end = farm_.pipes[pipe].to;
    const PlaceAnswer& place = plan_.answer.places[end];
    if (model::is_open_water(farm_.places[end])) {
      return place.level_m.value_or(-1e9) >
             in_metres(model::to_end_level(farm_, farm_.pipes[pipe], plan_.answer.month));
    }
    return place.pressure_Pa.value_or(0.0) > suction_limit_Pa;
  }

  void part_full() {
    for (const std::size_t pipe : course_.line.pipes) {
      const double length_m = plan_.answer.pipes[pipe].part_full_m;
      if (length_m <= 0.0) {
        continue;
      }
      const double whole_m = in_metres(farm_.pipes[pipe].length);
      const bool is_all = length_m >= 0.999 * whole_m;
      remarks_.push_back(
          fmt::format("Running, {} is part full over {}, with air or vapour above the water{}.",
                      quoted(farm_.pipes[pipe].name),
                      is_all ? "all its length"
                             : fmt::format("{} of its {}",
                                           spoken_length(length_m, units_),
                                           spoken_length(whole_m, units_)),
                      is_all                 ? ""
                      : is_full_at_end(pipe) ? ", and full again before its lower end"
                                             : ", and not full again before its lower end"));
    }
  }

  const model::Farm& farm_;
  const PrimePlan& plan_;
  const PrimeOptions& options_;
  const PrimeCourse& course_;
  model::UnitSystem units_;
  std::vector<std::string> remarks_;
};

}  // namespace

std::vector<std::string> priming_remarks(const model::Farm& farm,
                                         const PrimePlan& plan,
                                         const PrimeOptions& options,
                                         model::UnitSystem units) {
  return RemarkWriter(farm, plan, options, units).write();
}

}  // namespace leat::solver
