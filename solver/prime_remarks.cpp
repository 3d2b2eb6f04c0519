#include "solver/prime_remarks.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "solver/judgements.h"
#include "solver/spoken_amount.h"

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
    }
    parted();
    air_lock();
    part_full();
    return std::move(remarks_);
  }

 private:
  [[nodiscard]] const std::string& last_name() const {
    return farm_.pipes[course_.line.pipes.back()].name;
  }
  [[nodiscard]] std::string pressure(double value_Pa) const {
    return spoken_pressure(value_Pa, units_);
  }

  void slow_filling() {
    if (options_.fill_m3_s && *options_.fill_m3_s > plan_.fastest_fill_m3_s) {
      remarks_.push_back(fmt::format(
          "Filling at {} would run at more than {} in the pipe and shut air in: hold it to {}.",
          spoken_flow(*options_.fill_m3_s, units_),
          spoken_velocity(fastest_filling_m_s, units_),
          spoken_flow(plan_.fill_m3_s, units_)));
    }
  }

  void pump() {
    const FillPump& pump = *plan_.pump;
    const LinePoint& end = course_.line.points.back();
    if (course_.outlet.kind == EndClosure::Kind::Float) {
      remarks_.push_back(fmt::format(
          "A pump cannot fill it from below through the float of {}: take the float off first, or "
          "pour at the summit.",
          farm_.places[course_.line.to].name));
      return;
    }
    std::string text = fmt::format(
        "With a pump instead: join it to the lower end of {}, the summit open{}. Water comes up "
        "from below, the air goes out at the summit, and what spills over it fills the leg to {}. "
        "The pump must reach {} there at {}. One that cannot stops lower: each {} short is {} of "
        "height.",
        last_name(),
        course_.outlet.kind == EndClosure::Kind::Valve
            ? fmt::format(" and the {} open, and shut that when the summit is full",
                          course_.outlet.name)
            : "",
        farm_.places[course_.line.from].name,
        pressure(pump.needed_Pa),
        spoken_flow(plan_.fill_m3_s, units_),
        units_ == model::UnitSystem::Us ? "1 psi" : "10 kPa",
        units_ == model::UnitSystem::Us ? "2.3 ft" : "1 m");
    if (pump.reaches_m) {
      const double short_m = course_.top().elevation_m - *pump.reaches_m;
      text += fmt::format(" Yours of {} stops at {}, {} {} the summit{}.",
                          pressure(*options_.shut_off_Pa),
                          spoken_level(*pump.reaches_m, units_),
                          spoken_length(std::abs(short_m), units_),
                          short_m > 0.0 ? "below" : "above",
                          short_m > 0.0 ? ": fill the rest by hand at the summit" : "");
    }
    if (pump.has_limit) {
      text += fmt::format(
          " It must not be able to give more than {} there, for {} at {}: 72 % of "
          "its rating.",
          pressure(pump.most_Pa),
          farm_.pipes[pump.limit_pipe].name,
          spoken_length(pump.limit_at_m, units_));
    } else {
      text += fmt::format(" {} carries no rating: the gauge must not go above what is needed.",
                          farm_.pipes[end.pipe].name);
    }
    remarks_.push_back(std::move(text));
  }

  void foot_valve() {
    if (!plan_.flow_without_foot_valve_m3_s) {
      remarks_.push_back(
          "No foot valve throttles this line. Where one person must fill it, a valve at both ends "
          "does the same and costs next to nothing when open.");
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

  [[nodiscard]] bool has_flag(const char* code) const {
    return std::any_of(plan_.answer.flags.begin(), plan_.answer.flags.end(), [&](const Flag& flag) {
      return flag.code == code;
    });
  }

  void parted() {
    if (has_flag("parted")) {
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
    remarks_.push_back(fmt::format(
        "Filled with its high points shut, air in {} {} of it can hold back {} of water; the fall "
        "there is comes to {}: {}.",
        lock.pockets,
        lock.pockets == 1 ? "leg" : "legs",
        spoken_length(lock.lifted_m, units_),
        spoken_length(lock.fall_m, units_),
        lock.starts() ? "it starts all the same, though with less until the air is out"
                      : "it does not start until they are bled"));
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
                      farm_.pipes[pipe].name,
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
