#include "solver/prime_steps.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <numeric>

#include <fmt/format.h>

#include "solver/prime_words.h"
#include "solver/spoken_amount.h"

namespace leat::solver {

namespace {

using Kind = EndClosure::Kind;

/// What is carried up a hill: jugs of 1 gal or buckets of 10 L, as many as that asks for.
std::string vessels(double volume_m3, model::UnitSystem units) {
  const bool is_us = units == model::UnitSystem::Us;
  const double holds_m3 = is_us ? cubic_metres_per_us_gallon : 0.01;
  const double count = std::max(1.0, std::ceil(volume_m3 / holds_m3 - 1e-9));
  return fmt::format("{:.0f} {}{} of {}",
                     count,
                     is_us ? "jug" : "bucket",
                     count > 1.0 ? "s" : "",
                     is_us ? "1 gal" : "10 L");
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
    measure();
    watch();
    return std::move(steps_);
  }

 private:
  /// What shuts the lower end, of the file or fitted for it.
  [[nodiscard]] std::string outlet_piece() const {
    if (fits_valve_) {
      return fmt::format("the valve you fitted at the end of {}", last_name());
    }
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

  [[nodiscard]] bool has_cap_only() const {
    return course_.outlet.kind == Kind::Cap && !fits_valve_;
  }
  [[nodiscard]] bool lifts_float() const {
    return course_.outlet.kind == Kind::Float && !fits_valve_;
  }
  /// A plug that would bear more than a hand should trust is no way to shut the inlet.
  [[nodiscard]] bool fits_foot_valve() const {
    return course_.inlet.kind == Kind::Cap &&
           standing_pressure_Pa(plan_, course_.line.points.front()) > most_on_a_cap_Pa;
  }
  [[nodiscard]] bool has_foot_valve() const {
    return course_.inlet.kind == Kind::OneWay || fits_foot_valve();
  }
  [[nodiscard]] std::string foot_valve_words() const {
    return fits_foot_valve() ? "foot valve" : course_.inlet.name;
  }

  void how_to_stop() {
    const std::string branches = shut_off_words();
    std::string usual;
    if (!has_cap_only()) {
      usual = fmt::format("{}{} {}: it stops, and stays primed. If that cannot be done, ",
                          branches.empty() ? "" : branches + ", then ",
                          lifts_float() ? "lift" : "shut",
                          outlet_piece());
    } else if (!branches.empty()) {
      usual = branches + ", then ";
    }
    std::string how =
        usual + fmt::format("open the cap at {}: air goes in and {}.",
                            summit_in_full(),
                            has_foot_valve()
                                ? fmt::format("what lies beyond it runs off, while the {} "
                                              "holds the rest",
                                              foot_valve_words())
                                : "the water runs off both ways");
    how.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(how.front())));
    step(summit_where(),
         fmt::format("Know how to stop it before you start it. {} From the side, turn the cap off "
                     "by its rim, never with a palm or finger over the hole; keep sleeves and "
                     "children away from there and from the inlet in {}: they suck.",
                     how,
                     source_name()));
  }

  void carry_water() {
    const double ready_m3 = water_to_have_ready * course_.volume_m3;
    step(summit_where(),
         fmt::format("Carry {} of water from {} up to {}: {}. The line holds {}; the rest is for "
                     "spills and for air that comes out late. Have an airtight cap for the opening "
                     "there{}.",
                     volume(ready_m3),
                     source_name(),
                     summit_words(),
                     vessels(ready_m3, units_),
                     volume(course_.volume_m3),
                     has_inner_bleeds() ? " and for every lower high point named below" : ""),
         std::nullopt,
         std::nullopt,
         PrimeStep::Kind::CarryWater);
  }

  [[nodiscard]] bool has_inner_bleeds() const {
    return course_.bleeds.size() > (course_.bleeds_at_lower_end() ? 1U : 0U);
  }

  void close_inlet() {
    const std::string deep =
        inlet_depth_m() > 0.0
            ? fmt::format(
                  "{} under the water of {}", spoken_length(inlet_depth_m(), units_), source_name())
            : fmt::format("at the very surface of {} by the file: put it well under",
                          source_name());
    const std::string pressure =
        spoken_pressure(standing_pressure_Pa(plan_, course_.line.points.front()), units_);
    if (fits_foot_valve()) {
      step(first_pipe(),
           fmt::format("Fit a foot valve into the inlet of {}, clean and tight, and lay it {}, "
                       "screened. A plug would have to hold {}, and one pulled by a cord should "
                       "hold no more than {}.",
                       first_name(),
                       deep,
                       pressure,
                       spoken_pressure(most_on_a_cap_Pa, units_)));
      return;
    }
    switch (course_.inlet.kind) {
      case Kind::OneWay:
        step(first_pipe(),
             fmt::format("See that the inlet of {} lies {}, screened, and that its {} is clean and "
                         "shuts: it holds the water in the leg up to the summit.",
                         first_name(),
                         deep,
                         course_.inlet.name));
        return;
      case Kind::Valve:
        step(first_pipe(),
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
    step(first_pipe(),
         fmt::format("Put a plug on a cord into the inlet of {}, so tight that it holds the water "
                     "of the leg up to the summit ({}). Screen the inlet with a basket large "
                     "enough for the plug to drop out inside it, the cord led through to the bank, "
                     "and lay it {}. The file has neither valve nor foot valve there.",
                     first_name(),
                     pressure,
                     deep));
  }

  /// Where the line rises to its end, the end is shut only when water has come to it.
  void close_outlet() {
    const std::string pressure =
        spoken_pressure(standing_pressure_Pa(plan_, course_.line.points.back()), units_);
    const std::string must_hold = fmt::format("It must hold {} when the line is full.", pressure);
    const bool is_left_open = course_.bleeds_at_lower_end();
    const std::string open_as_yet =
        is_left_open ? " Leave it open as yet: the line rises to it, and its air leaves there."
                     : "";
    const std::string under = outlet_depth_m() > 0.01
                                  ? fmt::format(" (it lies {} under the water there)",
                                                spoken_length(outlet_depth_m(), units_))
                                  : "";
    const auto say = [&](const std::string& where, const std::string& text) {
      step(where, text + open_as_yet, std::nullopt, std::nullopt, PrimeStep::Kind::ShutLowerEnd);
    };
    if (fits_valve_) {
      say(last_pipe(),
          fmt::format("Before anything is filled, fit a valve at the end of {}{} at {}, to be "
                      "turned from dry ground{}. {} {}",
                      last_name(),
                      under,
                      end_name(),
                      is_left_open ? "" : ", and shut it",
                      must_hold,
                      why_a_valve()));
      return;
    }
    switch (course_.outlet.kind) {
      case Kind::Valve:
        say(last_pipe(),
            is_left_open
                ? fmt::format(
                      "Go to {} and try {}{}. {}", end_name(), outlet_piece(), under, must_hold)
                : fmt::format(
                      "Go to {} and shut {}{}. {}", end_name(), outlet_piece(), under, must_hold));
        return;
      case Kind::Float:
        say(end_place(),
            fmt::format("Go to {} {} its float, {} the end of {}. {} If it drips, fit a valve in "
                        "front of it.",
                        end_name(),
                        is_left_open ? "with a cord for" : "and tie up",
                        is_left_open ? "which is to shut" : "so that it shuts",
                        last_name(),
                        must_hold));
        return;
      case Kind::OneWay:
      case Kind::Cap:
        break;
    }
    say(last_pipe(),
        fmt::format("Go to {} {} a cap {} the end of {}. {} The file has no valve there; one would "
                    "be better, since the cap must come off against that pressure.",
                    end_name(),
                    is_left_open ? "with" : "and put",
                    is_left_open ? "for" : "on",
                    last_name(),
                    must_hold));
  }

  [[nodiscard]] std::string why_a_valve() const {
    if (course_.outlet.kind == Kind::Float) {
      const auto& trough = std::get<model::Trough>(farm_.places[course_.line.to].data);
      return fmt::format(
          "The float alone does not hold: that is more than the {} it closes "
          "against.",
          spoken_pressure(in_pascals(*trough.closes_against), units_));
    }
    if (outlet_depth_m() > 0.01) {
      return "The file has none there, and nobody should work a cap off under water.";
    }
    return fmt::format(
        "The file has none there, and a cap should not be worked off against more "
        "than {}.",
        spoken_pressure(most_on_a_cap_Pa, units_));
  }

  /// What is done to the lower end when its air is out.
  [[nodiscard]] std::string shut_lower_end_words() const {
    if (lifts_float()) {
      return fmt::format("tie up {}", outlet_piece());
    }
    return has_cap_only() ? "put its cap on" : fmt::format("shut {}", outlet_piece());
  }

  void open_high_points() {
    step(summit_where(),
         fmt::format("Open the line at {}: there the water goes in and the air comes out. If there "
                     "is no opening yet, put in a tee that takes an airtight cap, never a vent: "
                     "running, the line sucks there, and "
                     "a vent would let air in and stop it.",
                     summit_in_full()));
    for (const BleedPoint& bleed : course_.bleeds) {
      if (course_.is_lower_end(bleed)) {
        continue;  // it stands open already
      }
      const std::string& name = pipe_name(course_.line.points[bleed.point].pipe);
      step(name,
           fmt::format("Open {} as well: its air cannot get to the summit.",
                       point_words(farm_, course_, bleed.point, "the high point", units_)));
    }
  }

  void pour() {
    const std::string rate = spoken_flow(plan_.fill_m3_s, units_);
    const std::string limit =
        plan_.fill_m3_s < plan_.fastest_fill_m3_s
            ? ""
            : fmt::format(
                  " (no faster: {} in the pipe)",
                  filling_speed(plan_.fastest_fill_m3_s / course_.narrowest_area_m2, units_));
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
           plan_.fill_s,
           PrimeStep::Kind::Pour);
      return;
    }
    step(summit_where(), how + legs, std::nullopt, std::nullopt, PrimeStep::Kind::Pour);
    for (const BleedPoint& bleed : course_.bleeds) {
      const std::string& name = pipe_name(course_.line.points[bleed.point].pipe);
      const std::string gone_in =
          fmt::format("about {} have gone in since the step before", volume(bleed.volume_m3));
      step(name,
           course_.is_lower_end(bleed)
               ? fmt::format("When water without bubbles comes out at the end of {}, {}; {}.",
                             last_name(),
                             shut_lower_end_words(),
                             gone_in)
               : fmt::format("When water without bubbles runs out at {}, cap it; {}.",
                             point_words(farm_, course_, bleed.point, "the high point", units_),
                             gone_in),
           bleed.volume_m3,
           bleed.volume_m3 / plan_.fill_m3_s);
      poured_m3 += bleed.volume_m3;
    }
    const double rest_m3 = std::max(0.0, course_.volume_m3 - poured_m3);
    step(summit_where(),
         fmt::format("Go on pouring at {} until the water stands at the brim and stays there.",
                     summit_words()),
         rest_m3,
         rest_m3 / plan_.fill_m3_s,
         PrimeStep::Kind::Pour);
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
    if (has_foot_valve()) {
      return;  // it opens by itself
    }
    if (course_.inlet.kind == Kind::Valve) {
      step(first_pipe(),
           fmt::format("With the lower end still shut, open the {} at the start of {} fully. Never "
                       "throttle there, only at the lower end.",
                       course_.inlet.name,
                       first_name()));
      return;
    }
    step(first_pipe(),
         fmt::format("With the lower end still shut, pull the plug of {} by its cord, the inlet "
                     "staying under the water of {} all the time. Stand on the bank. The water "
                     "stays up in the line.",
                     first_name(),
                     source_name()));
  }

  void open_outlet() {
    constexpr const char* drawn_harder =
        "The figures here are for that opening: wider draws harder at the summit.";
    if (course_.outlet.kind == Kind::Valve) {
      step(last_pipe(),
           fmt::format("Go to {}, stand clear of the end, and open {} slowly, over a minute, {}. "
                       "{}",
                       end_name(),
                       outlet_piece(),
                       opening_words(*farm_.pipes[course_.outlet.pipe].valve),
                       drawn_harder));
      return;
    }
    if (fits_valve_) {
      step(last_pipe(),
           fmt::format("Go to {}, {}stand clear of the end, and open {} slowly, over a minute, "
                       "until it is wide open.",
                       end_name(),
                       course_.outlet.kind == Kind::Float ? "see that its float is down, " : "",
                       outlet_piece()));
      return;
    }
    if (course_.outlet.kind == Kind::Float) {
      step(end_place(),
           fmt::format("Go to {} and let its float down slowly, standing clear of the jet.",
                       end_name()));
      return;
    }
    step(last_pipe(),
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
    if (const std::optional<double> time_s = own_water_after_s()) {
      step(end_place(),
           fmt::format("For the first {} the water you poured in runs out at {}; then comes that "
                       "of {}.",
                       spoken_time(*time_s),
                       end_name(),
                       source_name()),
           std::nullopt,
           time_s);
    }
  }

  /// The flow expected is that with every branch open, so it is measured after the last.
  void measure() {
    const double flow = plan_.flow_m3_s.value_or(0.0);
    step(end_place(),
         fmt::format("At {} expect {}{}{}.",
                     end_name(),
                     spoken_flow(flow, units_),
                     bucket_words(flow),
                     outlet_depth_m() > 0.01 && flow > 0.0
                         ? " (lift the end over the rim of the bucket on the bank: a little less "
                           "runs than said)"
                         : ""));
  }

  /// Air at the summit can be topped up only where both ends can be shut while it runs.
  [[nodiscard]] std::string top_up_words() const {
    const bool can_be_shut =
        !has_cap_only() && (has_foot_valve() || course_.inlet.kind == Kind::Valve);
    if (!can_be_shut) {
      const auto carry = std::find_if(steps_.begin(), steps_.end(), [](const PrimeStep& step) {
        return step.kind == PrimeStep::Kind::CarryWater;
      });
      return fmt::format(
          "stop it at the summit, let it run off, then begin again at step {}, with fresh water",
          carry - steps_.begin() + 1);
    }
    const std::string branches = shut_off_words();
    return fmt::format("{}shut {}, open the summit, top up, cap, open as before",
                       branches.empty() ? "" : branches + ", ",
                       has_foot_valve() ? "the lower end" : "both ends");
  }

  void watch() {
    step(end_place(),
         fmt::format("Measure again at {} after a day. A flow that falls in steps, with gurgling, "
                     "is air gathering at {}: {}. One that falls slowly and evenly is a strainer "
                     "filling or {} going down. One that stops at once drew air at the inlet or at "
                     "a joint above the level of {}.",
                     end_name(),
                     summit_words(),
                     top_up_words(),
                     source_name(),
                     source_name()));
  }

  const bool fits_valve_ = must_fit_valve(farm_, plan_);
};

}  // namespace

std::vector<PrimeStep> priming_steps(const model::Farm& farm,
                                     const PrimePlan& plan,
                                     model::UnitSystem units) {
  return StepWriter(farm, plan, units).prime();
}

}  // namespace leat::solver
