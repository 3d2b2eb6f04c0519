#include "solver/prime/prime_steps.h"

#include <algorithm>
#include <cctype>
#include <cmath>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "solver/prime/prime_ends.h"

namespace leat::solver {

namespace {

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

class StepWriter : private PrimeEnds {
 public:
  StepWriter(const model::Farm& farm, const PrimePlan& plan, model::UnitSystem units)
      : PrimeEnds(farm, plan, units) {}

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
           bleed.volume_m3 / plan_.fill_m3_s,
           course_.is_lower_end(bleed) ? PrimeStep::Kind::ShutLowerEnd : PrimeStep::Kind::Other);
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
    if (course_.inlet.kind != EndClosure::Kind::OneWay || course_.already_in_m3 <= 0.0) {
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
           fmt::format("For the first {}{} the water you poured in runs out at {}; then comes that "
                       "of {}.",
                       spoken_time(*time_s),
                       shut_off_words().empty() ? "" : " or more",  // branches still shut
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
                     outlet_depth_m() > under_water_m && flow > 0.0
                         ? " (lift the end over the rim of the bucket on the bank: a little less "
                           "runs than said)"
                         : ""));
  }

  /// Air at the summit can be topped up only where both ends can be shut while it runs.
  [[nodiscard]] std::string top_up_words() const {
    const bool can_be_shut =
        !has_cap_only() && (has_foot_valve() || course_.inlet.kind == EndClosure::Kind::Valve);
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
};

}  // namespace

std::vector<PrimeStep> priming_steps(const model::Farm& farm,
                                     const PrimePlan& plan,
                                     model::UnitSystem units) {
  return StepWriter(farm, plan, units).prime();
}

}  // namespace leat::solver
