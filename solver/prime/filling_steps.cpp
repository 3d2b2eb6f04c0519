#include "solver/prime/filling_steps.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "solver/prime/prime_words.h"

namespace leat::solver {

namespace {

class FillingWriter : private PrimeWords {
 public:
  using PrimeWords::PrimeWords;

  std::vector<PrimeStep> fill() {
    keep_branches_shut();
    open_high_points();
    open_end_a_little();
    close_high_points();
    let_it_run_full();
    open_what_was_shut();
    return std::move(steps_);
  }

 private:
  /// Whether a branch can be kept shut until the line is full: by its valve or at its far end.
  [[nodiscard]] bool can_be_shut(const LineBranch& branch) const {
    const model::Pipe& pipe = farm_.pipes[branch.pipe];
    const bool leaves = pipe.from == branch.tee;
    return leaves &&
           (pipe.valve || !std::holds_alternative<model::Tee>(farm_.places[pipe.to].data));
  }

  void keep_branches_shut() {
    for (const LineBranch& branch : course_.line.branches) {
      const model::Pipe& pipe = farm_.pipes[branch.pipe];
      const std::string& tee_place = place_name(branch.tee);
      const std::string tee = quoted(tee_place);
      const std::string name = quoted(pipe.name);
      const bool leaves = pipe.from == branch.tee;
      const std::string far = quoted(place_name(leaves ? pipe.to : pipe.from));
      if (pipe.valve && pipe.valve->shut) {
        continue;  // stays as the file has it
      }
      if (can_be_shut(branch)) {
        step(tee_place,
             fmt::format("Keep {}, which leaves {}, shut {} until the line is full.",
                         name,
                         tee,
                         pipe.valve ? std::string("at its valve") : "at " + far));
      } else if (leaves) {
        step(tee_place,
             fmt::format("{} leaves {} and has no valve: it fills along with the line. Keep shut "
                         "what takes water beyond {}.",
                         name,
                         tee,
                         far));
      } else {
        step(tee_place,
             fmt::format("What comes in at {} through {} helps to fill the line: hold it back at "
                         "{} if it is too much.",
                         tee,
                         name,
                         far));
      }
    }
  }

  void open_what_was_shut() {
    for (const LineBranch& branch : course_.line.branches) {
      const model::Pipe& pipe = farm_.pipes[branch.pipe];
      if (can_be_shut(branch) && !(pipe.valve && pipe.valve->shut)) {
        let_in(branch);
      }
    }
  }

  void open_end_a_little() {
    const bool is_slow = plan_.inflow_m3_s <= plan_.fill_m3_s;
    const std::string how =
        is_slow ? std::string("fully: by itself it runs slowly enough")
                : fmt::format("so far that no more than {} can run ({} in the pipe)",
                              spoken_flow(plan_.fill_m3_s, units_),
                              filling_speed(plan_.fill_m3_s / course_.narrowest_area_m2, units_));
    step(end_place(),
         fmt::format("At {} open the end of {} {}. Let {} run into {}.",
                     end_name(),
                     last_name(),
                     how,
                     source_name(),
                     first_name()));
  }

  /// Where a vent stands, the air leaves by itself.
  [[nodiscard]] bool has_vent(const LinePoint& point) const {
    const std::vector<model::Vent>& vents = farm_.pipes[point.pipe].vents;
    return std::any_of(vents.begin(), vents.end(), [&](const model::Vent& vent) {
      return std::abs(in_metres(vent.distance) - point.at_m) < 1e-6;
    });
  }

  /// High points without a vent, in the order in which the water comes to them.
  [[nodiscard]] std::vector<std::size_t> high_points() const {
    std::vector<std::size_t> highs;
    for (std::size_t i = 1; i + 1 < course_.line.points.size(); ++i) {
      const bool is_bleed = std::any_of(course_.bleeds.begin(),
                                        course_.bleeds.end(),
                                        [i](const BleedPoint& bleed) { return bleed.point == i; });
      if ((is_bleed || i == course_.summit) && !has_vent(course_.line.points[i])) {
        highs.push_back(i);
      }
    }
    return highs;
  }

  [[nodiscard]] std::string high_point_words(std::size_t point) const {
    return point_words(farm_, course_, point, "the high point", units_);
  }

  /// All before the water comes: behind one that is shut it would trap its air.
  void open_high_points() {
    bool is_first = true;
    for (const std::size_t point : high_points()) {
      step(pipe_name(course_.line.points[point].pipe),
           fmt::format("Before any water is let in, open {}{}.{}",
                       high_point_words(point),
                       is_first ? "" : " as well",
                       is_first ? " If there is no opening there, fit a tee with a plug or a hand "
                                  "valve first."
                                : ""));
      is_first = false;
    }
  }

  void close_high_points() {
    for (const std::size_t point : high_points()) {
      step(pipe_name(course_.line.points[point].pipe),
           fmt::format("When water without bubbles runs out at {}, close it.",
                       high_point_words(point)));
    }
  }

  void let_it_run_full() {
    step(end_place(),
         fmt::format("The line holds {}: at {} it is full after {} or more. When water runs evenly "
                     "at {}, without spitting, set the end as far open as you want it.",
                     volume(course_.volume_m3),
                     spoken_flow(plan_.fill_m3_s, units_),
                     spoken_time(plan_.fill_s),
                     end_name()),
         course_.volume_m3,
         plan_.fill_s);
  }
};

}  // namespace

std::vector<PrimeStep> filling_steps(const model::Farm& farm,
                                     const PrimePlan& plan,
                                     model::UnitSystem units) {
  return FillingWriter(farm, plan, units).fill();
}

}  // namespace leat::solver
