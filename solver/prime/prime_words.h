// The words that the sentences about filling a line share: its names, its branches.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "solver/prime/prime.h"

namespace leat::solver {

/// A name as it stands in a sentence, 'to top': names may be words like any other.
[[nodiscard]] std::string quoted(const std::string& name);

/// A cap is not worked off by hand against more than this (common practice, no source) [Pa].
inline constexpr double most_on_a_cap_Pa = 50e3;

/// What the full line puts on a point of it with the summit open [Pa gauge].
[[nodiscard]] double standing_pressure_Pa(const PrimePlan& plan, const LinePoint& point);

/// Whether a valve must be fitted at the lower end before the line can be filled: a cap there would
/// bear too much or come off under water, or the float does not close against the full line.
[[nodiscard]] bool must_fit_valve(const model::Farm& farm, const PrimePlan& plan);

/// Whether a foot valve must be fitted: a plug in the inlet would hold back too much.
[[nodiscard]] bool must_fit_foot_valve(const PrimePlan& plan);

/// The speed of filling, "0.3 m/s" or, as the cautions have it, "1 ft/s".
[[nodiscard]] std::string filling_speed(double velocity_m_s, model::UnitSystem units);

/// "the summit of 'siphon' at 90 ft (106.0 ft)", or the tee it stands at.
[[nodiscard]] std::string point_words(const model::Farm& farm,
                                      const PrimeCourse& course,
                                      std::size_t point,
                                      const std::string& what,
                                      model::UnitSystem units);

/// An end that lies less deep than this is not under water, as far as hands go [m].
inline constexpr double under_water_m = 0.01;

/// Base of those who write steps: collects them and knows the line's names.
class PrimeWords {
 public:
  PrimeWords(const model::Farm& farm, const PrimePlan& plan, model::UnitSystem units)
      : farm_(farm), plan_(plan), course_(plan.course), units_(units) {}

 protected:
  void step(std::string where,
            std::string text,
            std::optional<double> volume_m3 = std::nullopt,
            std::optional<double> time_s = std::nullopt,
            PrimeStep::Kind kind = PrimeStep::Kind::Other);

  [[nodiscard]] const std::string& pipe_name(std::size_t pipe) const {
    return farm_.pipes[pipe].name;
  }
  [[nodiscard]] const std::string& place_name(std::size_t place) const {
    return farm_.places[place].name;
  }
  // What a step stands at, as the file writes it ...
  [[nodiscard]] const std::string& first_pipe() const {
    return pipe_name(course_.line.pipes.front());
  }
  [[nodiscard]] const std::string& last_pipe() const {
    return pipe_name(course_.line.pipes.back());
  }
  [[nodiscard]] const std::string& end_place() const { return place_name(course_.line.to); }
  // ... and as it is named in sentences.
  [[nodiscard]] std::string first_name() const { return quoted(first_pipe()); }
  [[nodiscard]] std::string last_name() const { return quoted(last_pipe()); }
  [[nodiscard]] std::string source_name() const { return quoted(place_name(course_.line.from)); }
  [[nodiscard]] std::string end_name() const { return quoted(end_place()); }
  [[nodiscard]] std::string summit_where() const {
    return course_.summit_tee ? place_name(*course_.summit_tee) : pipe_name(course_.top().pipe);
  }
  /// With its distance and level: for the first mention.
  [[nodiscard]] std::string summit_in_full() const {
    return point_words(farm_, course_, course_.summit, "the summit", units_);
  }
  [[nodiscard]] std::string summit_words() const {
    return std::string("the summit ") + (course_.summit_tee ? "at " : "of ") +
           quoted(summit_where());
  }
  [[nodiscard]] std::string volume(double volume_m3) const;

  /// How deep the line's two ends lie under water [m].
  [[nodiscard]] double inlet_depth_m() const {
    return course_.source_m - course_.line.points.front().elevation_m;
  }
  [[nodiscard]] double outlet_depth_m() const {
    return course_.end_m - course_.line.points.back().elevation_m;
  }

  /// One step for each pipe that meets the line at a tee: how it is kept out, and let in again.
  void shut_branches();
  void open_branches();
  void let_in(const LineBranch& branch);
  /// "shut off 'side' at 'crest'" for every branch that runs with the line; empty without any.
  [[nodiscard]] std::string shut_off_words() const;

  const model::Farm& farm_;
  const PrimePlan& plan_;
  const PrimeCourse& course_;
  model::UnitSystem units_;
  std::vector<PrimeStep> steps_;

 private:
  [[nodiscard]] bool has_valve_at(const LineBranch& branch) const;
  [[nodiscard]] bool runs_with_the_line(const LineBranch& branch) const;
};

}  // namespace leat::solver
