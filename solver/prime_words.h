// The words that the sentences about filling a line share: its names, its branches.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "model/farm.h"
#include "solver/prime.h"

namespace leat::solver {

/// "the summit of siphon at 90 ft (106.0 ft)", or the tee it stands at.
[[nodiscard]] std::string point_words(const model::Farm& farm,
                                      const PrimeCourse& course,
                                      std::size_t point,
                                      const std::string& what,
                                      model::UnitSystem units);

/// Base of those who write steps: collects them and knows the line's names.
class PrimeWords {
 public:
  PrimeWords(const model::Farm& farm, const PrimePlan& plan, model::UnitSystem units)
      : farm_(farm), plan_(plan), course_(plan.course), units_(units) {}

 protected:
  void step(std::string where,
            std::string text,
            std::optional<double> volume_m3 = std::nullopt,
            std::optional<double> time_s = std::nullopt);

  [[nodiscard]] const std::string& pipe_name(std::size_t pipe) const {
    return farm_.pipes[pipe].name;
  }
  [[nodiscard]] const std::string& first_name() const {
    return pipe_name(course_.line.pipes.front());
  }
  [[nodiscard]] const std::string& last_name() const {
    return pipe_name(course_.line.pipes.back());
  }
  [[nodiscard]] const std::string& source_name() const {
    return farm_.places[course_.line.from].name;
  }
  [[nodiscard]] const std::string& end_name() const { return farm_.places[course_.line.to].name; }
  [[nodiscard]] const std::string& summit_pipe() const { return pipe_name(course_.top().pipe); }
  [[nodiscard]] std::string summit_where() const {
    return course_.summit_tee ? farm_.places[*course_.summit_tee].name : summit_pipe();
  }
  /// With its distance and level: for the first mention.
  [[nodiscard]] std::string summit_in_full() const {
    return point_words(farm_, course_, course_.summit, "the summit", units_);
  }
  [[nodiscard]] std::string summit_words() const {
    return std::string("the summit ") + (course_.summit_tee ? "at " : "of ") + summit_where();
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

  const model::Farm& farm_;
  const PrimePlan& plan_;
  const PrimeCourse& course_;
  model::UnitSystem units_;
  std::vector<PrimeStep> steps_;

 private:
  [[nodiscard]] bool has_valve_at(const LineBranch& branch) const;
};

}  // namespace leat::solver
