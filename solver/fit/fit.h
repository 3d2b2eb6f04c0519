// Why less was measured than the farm should give: every single cause tried where it could sit,
// ranked by how well it explains the readings and how likely it is beforehand. METHOD.md, "Fit".
#pragma once

#include <optional>
#include <vector>

#include "solver/answer/steady_answer.h"
#include "solver/fit/fit_entry.h"
#include "solver/fit/fit_next.h"
#include "solver/fit/next_step.h"

namespace leat::solver {

struct FitOptions {
  LoadCase load_case = LoadCase::Wide;     // a trough is measured with its float held down
  std::optional<model::Month> month;       // of readings without a date; else the driest
  std::optional<model::UnitSystem> units;  // of the flags' sentences
};

enum class FitVerdict {
  Agrees,       // the readings are as computed, within their errors
  Explained,    // at least one cause explains them
  Unexplained,  // no single cause does
  NothingGiven  // no reading
};

struct FitResult {
  bool solved = false;
  FitVerdict verdict = FitVerdict::NothingGiven;
  std::vector<double> computed;  // one a reading, the farm as filed
  double chi_square = 0.0;       // of the farm as filed
  std::vector<FitEntry> entries;
  bool one_stands_out = false;            // the first entry is far likelier than the others
  double chance_of_reading_errors = 0.0;  // nothing is wrong but the readings
  double chance_of_other = 0.0;           // none of the causes
  std::vector<TellingReading> next;       // readings that would tell them apart, the best first
};

/// Fits every cause to readings that are given with their errors.
[[nodiscard]] FitResult fit_readings(const model::Farm& farm,
                                     const std::vector<ReadingSpot>& spots,
                                     const std::vector<GivenReading>& given,
                                     LoadCase load_case);

/// The study of a farm's own measurements.
struct FitAnswer {
  SteadyAnswer answer;  // of the farm as filed, for its flags; problems where there is none
  std::vector<ReadingSpot> spots;
  std::vector<GivenReading> given;
  FitResult result;
  NextStep next;
};
[[nodiscard]] FitAnswer fit(const model::Farm& farm, const FitOptions& options);

/// A size of a cause as it is told: what a spring lacks as a flow [m3/s], all else as CauseKind
/// says, a leak as the flow it loses.
[[nodiscard]] double told_size(const model::Farm& farm,
                               const FitAnswer& answer,
                               const FittedCause& cause,
                               double size);

/// The 1 - `tail` point of chi-square (Wilson and Hilferty 1931; Abramowitz and Stegun 26.4.17).
/// `normal_point` is the normal distribution's point of the same tail.
[[nodiscard]] double chi_square_point(double degrees, double normal_point);

}  // namespace leat::solver
