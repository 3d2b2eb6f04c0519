// What would be read at the places of a farm if one thing were wrong with it, by solving it so.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <vector>

#include "model/farm/farm.h"
#include "solver/fit/fit_site.h"
#include "solver/flow/flow_state.h"
#include "solver/flow/solved_case.h"

namespace leat::solver {

/// One thing to be read: a flow, a pressure or a level at a place, or the flow of a pipe.
struct ReadingSpot {
  std::size_t place = 0;
  std::optional<std::size_t> pipe;  // flow of this pipe, from `from` to `to`
  model::Measurement::Kind kind = model::Measurement::Kind::Flow;
  std::optional<model::Month> month;  // the water and yields of this month
};

/// Solves one farm again and again with one cause at one size. Each solve starts from the farm's
/// own answer, or from the last one of the same cause. Lines broken and tees opened to the air stay
/// those of the farm as it is filed.
class ReadingModel {
 public:
  /// `farm` must outlive the model.
  ReadingModel(const model::Farm& farm, std::vector<ReadingSpot> spots, LoadCase load_case);

  /// Whether the farm as filed has an answer in every month that is asked for.
  [[nodiscard]] bool is_solved() const;
  /// Readings of the farm as filed [m3/s, Pa gauge, m]: one a spot.
  [[nodiscard]] const std::vector<double>& as_filed() const { return as_filed_; }
  /// Readings with a cause at a size (fit_site.h says in what unit); none where no balance is
  /// found.
  [[nodiscard]] std::optional<std::vector<double>> with(const FitSite& site, double size);
  /// The flow that leaks at the size last solved for, for a site that is a leak [m3/s], in the
  /// first month.
  [[nodiscard]] double last_leak_m3_s() const { return last_leak_m3_s_; }

 private:
  struct Setting {
    std::optional<model::Month> month;
    Surroundings surroundings;
    SolvedCase base;
    std::unique_ptr<nodal::NodalSolver> solver;  // of the base's pattern
    std::optional<FitSite> last_site;            // what was solved last, and its state: the next
    nodal::State last;                           // size of the same cause begins there
  };
  /// Solves `changed_` with the cause in it; false where no balance is found.
  [[nodiscard]] bool solve(Setting& setting, const FitSite& site, double size, FlowState& state);
  [[nodiscard]] double read(const ReadingSpot& spot,
                            const FlowState& state,
                            const model::Farm& farm) const;

  const model::Farm& farm_;
  model::Farm changed_;
  std::vector<ReadingSpot> spots_;
  std::vector<std::size_t> setting_of_;  // one a spot
  std::vector<Setting> settings_;
  std::vector<double> as_filed_;
  double last_leak_m3_s_ = 0.0;
};

}  // namespace leat::solver
