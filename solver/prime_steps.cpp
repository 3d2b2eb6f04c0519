#include "solver/prime_steps.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include <fmt/format.h>

#include "solver/prime_words.h"
#include "solver/spoken_amount.h"

namespace leat::solver {

namespace {

using Kind = EndClosure::Kind;

/// What is carried up a hill: a jug of 1 gal or a bucket of 10 L.
struct Vessel {
  double holds_m3 = 0.0;
  const char* words = "";
};

Vessel vessel_of(model::UnitSystem units) {
  if (units == model::UnitSystem::Us) {
    return {cubic_metres_per_us_gallon, "jugs of 1 gal"};
  }
  return {0.01, "buckets of 10 L"};
}

/// Share of the valve's way, as it is turned.
std::string opening_words(const model::Valve& valve) {
  const double open = valve.shut ? 1.0 : valve.open;
  if (open >= 1.0) {
    return "until it is wide open";
  }
  const double eighths = open * 8.0;
  if (std::abs(eighths - std::round(eighths)) < 1e-6) {
    const int part = static_cast<int>(std::round(eighths));
    const int common = std::gcd(part, 8);
    return fmt::format("to {}/{} open", part / common, 8 / common);
  }
  return fmt::format("to {:.0f} % open", open * 100.0);
}

class StepWriter : private PrimeWords {
 public:
  using PrimeWords::PrimeWords;

  std::vector<PrimeStep> prime() {
    how_to_stop();
    carry_water();
    shut_branches();
    close_inlet();
    close_outlet();
    open_high_points();
    pour();
    wait_and_top_up();
    cap_summit();
    let_source_in();
    open_outlet();
    wait_for_own_water();
    open_branches();
    watch();
    return std::move(steps_);
  }

 private:
  [[nodiscard]] std::string outlet_piece() const {
    switch (course_.outlet.kind) {
      case Kind::Valve:
        return fmt::format("the {} at the end of {}", course_.outlet.name, last_name());
      case Kind::Float:
        return fmt::format("the float of {}", end_name());
      case Kind::OneWay:
      case Kind::Cap:
        break;
    }
    return fmt::format("the cap on the end of {}", last_name());
  }

  void how_to_stop() {
    const bool has_cap_only = course_.outlet.kind == Kind::Cap;
    const std::string usual =
        has_cap_only ? ""
                     : fmt::format("{} {}: it stops, and stays primed. If that cannot be done, ",
                                   course_.outlet.kind == Kind::Float ? "Lift" : "Shut",
                                   outlet_piece());
    step(summit_where(),
         fmt::format("Know how to stop it before you start it. {}{}pen the cap at {}: air goes in "
                     "and the water runs off both ways. Keep hands, sleeves and children away from "
                     "that opening and from the inlet in {}: they suck.",
                     usual,
                     has_cap_only ? "O" : "o",
                     summit_in_full(),
                     source_name()));
  }

  void carry_water() {
    const Vessel vessel = vessel_of(units_);
    const double ready_m3 = water_to_have_ready * course_.volume_m3;
    step(summit_where(),
         fmt::format("Carry {} of water from {} up to {}: {:.0f} {}. The line holds {}; the "
                     "rest is for spills and for air that comes out late. Have an airtight cap "
                     "for the opening there{}.",
                     volume(ready_m3),
                     source_name(),
                     summit_words(),
                     std::ceil(ready_m3 / vessel.holds_m3 - 1e-9),
                     vessel.words,
                     volume(course_.volume_m3),
                     course_.bleeds.empty() ? "" : " and for every lower high point named below"));
  }

  void close_inlet() {
    const std::string deep =
        inlet_depth_m() > 0.0
            ? fmt::format(
                  "{} under the water of {}", spoken_length(inlet_depth_m(), units_), source_name())
            : fmt::format("at the very surface of {} by the file: put it well under",
                          source_name());
    switch (course_.inlet.kind) {
      case Kind::OneWay:
        step(first_name(),
             fmt::format("See that the inlet of {} lies {}, screened, and that its {} is clean and "
                         "shuts: it holds the water in the leg up to the summit.",
                         first_name(),
                         deep,
                         course_.inlet.name));
        return;
      case Kind::Valve:
        step(first_name(),
             fmt::format("See that the inlet of {} lies {}, screened, and shut the {} at the start "
                         "of {}.",
                         first_name(),
                         deep,
                         course_.inlet.name,
                         first_name()));
        return;
      case Kind::Float:
      case Kind::Cap:
        break;
    }
    step(first_name(),
         fmt::format("Put a plug on a cord into the inlet of {}, so tight that it bears the water "
                     "of the leg up to the summit ({}); lay the inlet {}, screened. The file has "
                     "neither valve nor foot valve there.",
                     first_name(),
                     spoken_pressure(standing_pressure_Pa(course_.line.points.front()), units_),
                     deep));
  }

  /// What the full line puts on a point of it with the summit open [Pa gauge].
  [[nodiscard]] double standing_pressure_Pa(const LinePoint& point) const {
    return (course_.top().elevation_m - point.elevation_m) * plan_.answer.density_kg_m3 *
           gravity_m_s2;
  }

  void close_outlet() {
    const LinePoint& end = course_.line.points.back();
    const std::string pressure = spoken_pressure(standing_pressure_Pa(end), units_);
    const std::string under = outlet_depth_m() > 0.01
                                  ? fmt::format(" (it lies {} under the water there)",
                                                spoken_length(outlet_depth_m(), units_))
                                  : "";
    switch (course_.outlet.kind) {
      case Kind::Valve:
        step(last_name(),
             fmt::format("Go to {} and shut {}{}. It will bear {} when the line is full.",
                         end_name(),
                         outlet_piece(),
                         under,
                         pressure));
        return;
      case Kind::Float:
        step(end_name(),
             fmt::format("Go to {} and tie its float up, so that it shuts the end of {}. It will "
                         "bear {} when the line is full{}.",
                         end_name(),
                         last_name(),
                         pressure,
                         float_words(standing_pressure_Pa(end))));
        return;
      case Kind::OneWay:
      case Kind::Cap:
        break;
    }
    step(last_name(),
         fmt::format("Go to {} and put a cap on the end of {}{} that bears {}. The file has no "
                     "valve there; one would be better, since the cap must come off against that "
                     "pressure.",
                     end_name(),
                     last_name(),
                     under,
                     pressure));
  }

  /// A float that closes against less than the full line puts on it does not hold the water.
  [[nodiscard]] std::string float_words(double pressure_Pa) const {
    const auto& trough = std::get<model::Trough>(farm_.places[course_.line.to].data);
    if (trough.closes_against && in_pascals(*trough.closes_against) < pressure_Pa) {
      return fmt::format(", more than the {} it closes against: take it off and cap the end",
                         spoken_pressure(in_pascals(*trough.closes_against), units_));
    }
    return "; if it drips, cap the end";
  }

  void open_high_points() {
    step(summit_where(),
         fmt::format("Open the line at {}: there the water goes in and the air comes out. If there "
                     "is no opening yet, put in a tee that takes an airtight cap, never a vent: "
                     "running, the line sucks there, and "
                     "a vent would let air in and stop it.",
                     summit_in_full()));
    for (const BleedPoint& bleed : course_.bleeds) {
      const std::string& name = pipe_name(course_.line.points[bleed.point].pipe);
      step(name,
           fmt::format("Open {} as well: its air cannot get to the summit.",
                       point_words(farm_, course_, bleed.point, "the high point", units_)));
    }
  }

  void pour() {
    const std::string rate = spoken_flow(plan_.fill_m3_s, units_);
    const std::string limit = plan_.fill_m3_s < plan_.fastest_fill_m3_s
                                  ? ""
                                  : fmt::format(" (no faster: {} in the pipe)",
                                                spoken_velocity(fastest_filling_m_s, units_));
    double poured_m3 = 0.0;
    const std::string how =
        fmt::format("Pour water in at {} at {}{}, with pauses, so that the air comes up past it. ",
                    summit_words(),
                    rate,
                    limit);
    const std::string legs =
        fmt::format("It runs down both legs: the one from {} takes {}{}, the one to {} takes {}.",
                    source_name(),
                    volume(course_.inlet_side_m3),
                    already_words(),
                    end_name(),
                    volume(course_.outlet_side_m3));
    if (course_.bleeds.empty()) {
      step(summit_where(),
           how + legs + " Go on until it stands at the brim and stays there.",
           course_.volume_m3,
           plan_.fill_s);
      return;
    }
    step(summit_where(), how + legs);
    for (const BleedPoint& bleed : course_.bleeds) {
      const std::string& name = pipe_name(course_.line.points[bleed.point].pipe);
      step(name,
           fmt::format("When water without bubbles runs out at {}, cap it; about {} have gone in "
                       "since the step before.",
                       point_words(farm_, course_, bleed.point, "the high point", units_),
                       volume(bleed.volume_m3)),
           bleed.volume_m3,
           bleed.volume_m3 / plan_.fill_m3_s);
      poured_m3 += bleed.volume_m3;
    }
    const double rest_m3 = std::max(0.0, course_.volume_m3 - poured_m3);
    step(summit_where(),
         fmt::format("Go on pouring at {} until the water stands at the brim and stays there.",
                     summit_words()),
         rest_m3,
         rest_m3 / plan_.fill_m3_s);
  }

  [[nodiscard]] std::string already_words() const {
    if (course_.inlet.kind != Kind::OneWay || course_.already_in_m3 <= 0.0) {
      return "";
    }
    return fmt::format(" ({} of it stands in there by itself, up to the level of {})",
                       volume(course_.already_in_m3),
                       source_name());
  }

  void wait_and_top_up() {
    constexpr double ten_minutes_s = 600.0;
    step(summit_where(),
         fmt::format("Wait ten minutes at {}, knock on the pipe, and top up what sinks. If it goes "
                     "on sinking an end leaks: mend that before you go on.",
                     summit_words()),
         std::nullopt,
         ten_minutes_s);
  }

  void cap_summit() {
    step(summit_where(), fmt::format("Cap {} airtight, full to the brim.", summit_words()));
  }

  void let_source_in() {
    switch (course_.inlet.kind) {
      case Kind::OneWay:
        return;  // it opens by itself
      case Kind::Valve:
        step(first_name(),
             fmt::format("With the lower end still shut, open the {} at the start of {} fully. "
                         "Throttle never there, only at the lower end.",
                         course_.inlet.name,
                         first_name()));
        return;
      case Kind::Float:
      case Kind::Cap:
        break;
    }
    step(first_name(),
         fmt::format("With the lower end still shut, pull the plug of {} by its cord, the inlet "
                     "staying under the water of {} all the time. Stand on the bank. The water "
                     "stays up in the line.",
                     first_name(),
                     source_name()));
  }

  void open_outlet() {
    switch (course_.outlet.kind) {
      case Kind::Valve: {
        const model::Valve& valve = *farm_.pipes[course_.outlet.pipe].valve;
        step(last_name(),
             fmt::format("Go to {}, stand clear of the end, and open {} slowly, over a minute, {}. "
                         "The figures here are for that opening: wider draws harder at the summit.",
                         end_name(),
                         outlet_piece(),
                         opening_words(valve)));
        return;
      }
      case Kind::Float:
        step(end_name(),
             fmt::format("Go to {} and let its float down slowly, standing clear of the jet.",
                         end_name()));
        return;
      case Kind::OneWay:
      case Kind::Cap:
        break;
    }
    step(last_name(),
         fmt::format("Go to {} and work the cap off the end of {} slowly, standing to one side.",
                     end_name(),
                     last_name()));
  }

  /// Time until the water poured in has left, each pipe at its own flow [s].
  [[nodiscard]] std::optional<double> own_water_after_s() const {
    double time_s = 0.0;
    for (const PrimeLeg& leg : course_.legs) {
      const double flow = plan_.answer.pipes[leg.pipe].flow_m3_s;
      if (flow <= 0.0) {
        return std::nullopt;
      }
      time_s += leg.volume_m3 / flow;
    }
    return time_s;
  }

  /// What a bucket and a watch would show; a larger bucket where a small one fills too fast.
  [[nodiscard]] std::string bucket_words(double flow_m3_s) const {
    if (flow_m3_s <= 0.0) {
      return "";
    }
    constexpr double too_fast_s = 10.0;
    const bool is_us = units_ == model::UnitSystem::Us;
    const double small_m3 = is_us ? cubic_metres_per_us_gallon : 0.01;
    const double large_m3 = is_us ? 5.0 * cubic_metres_per_us_gallon : 0.05;
    const bool is_large = small_m3 / flow_m3_s < too_fast_s;
    const char* const words =
        is_us ? (is_large ? "5 gal bucket" : "1 gal jug") : (is_large ? "50 L tub" : "10 L bucket");
    return fmt::format(
        ": a {} is full in {}", words, spoken_time((is_large ? large_m3 : small_m3) / flow_m3_s));
  }

  void wait_for_own_water() {
    const std::optional<double> time_s = own_water_after_s();
    const double flow = plan_.flow_m3_s.value_or(0.0);
    step(end_name(),
         fmt::format("{}At {} expect {}{}{}.",
                     time_s ? fmt::format("For the first {} the water you poured in runs out; then "
                                          "comes that of {}. ",
                                          spoken_time(*time_s),
                                          source_name())
                            : "",
                     end_name(),
                     spoken_flow(flow, units_),
                     bucket_words(flow),
                     outlet_depth_m() > 0.01 && flow > 0.0
                         ? " (lift the end just clear of the water to measure it)"
                         : ""),
         std::nullopt,
         time_s);
  }

  void watch() {
    step(end_name(),
         fmt::format("Measure again at {} after a day. A flow that falls in steps, with gurgling, "
                     "is air gathering at {}: shut {}, open the summit, top up, cap, open as "
                     "before. One that falls slowly and evenly is a strainer filling or {} going "
                     "down. One that stops at once drew air at the inlet or at a joint above the "
                     "level of {}.",
                     end_name(),
                     summit_words(),
                     course_.inlet.kind == Kind::OneWay ? "the lower end" : "both ends",
                     source_name(),
                     source_name()));
  }
};

}  // namespace

std::vector<PrimeStep> priming_steps(const model::Farm& farm,
                                     const PrimePlan& plan,
                                     model::UnitSystem units) {
  return StepWriter(farm, plan, units).prime();
}

}  // namespace leat::solver
