#include "solver/fit/fit.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "solver/flow/driest_month.h"
#include "solver/steady/steady.h"
#include "solver/uncertainty/measurement_error.h"

namespace leat::solver {

namespace {

using Kind = model::Measurement::Kind;

constexpr double normal_point_95 = 1.644854;
constexpr double normal_point_99 = 2.326348;
/// Beforehand, against a cause at one place (weights of fit_site.cpp): that nothing is wrong, and
/// that something is which this list does not know. Common practice, no source.
constexpr double weight_of_nothing = 10.0;
constexpr double weight_of_other = 0.05;
/// Causes that explain worse than the best by more than this are not looked at further.
constexpr double hopeless = 30.0;
/// An entry of more than this chance stands out.
constexpr double stands_out = 0.8;

class FitStudy {
 public:
  FitStudy(const model::Farm& farm,
           const std::vector<ReadingSpot>& spots,
           const std::vector<GivenReading>& given,
           LoadCase load_case)
      : farm_(farm), spots_(spots), given_(given), model_(farm, all_spots(), load_case) {}

  FitResult study() {
    result_.solved = model_.is_solved();
    if (!result_.solved || given_.empty()) {
      return std::move(result_);
    }
    result_.computed = model_.as_filed();
    result_.computed.resize(given_.size());
    result_.chi_square = chi_square_of(result_.computed, given_);
    const auto count = static_cast<double>(given_.size());
    if (result_.chi_square <= chi_square_point(count, normal_point_95) && largest_off() <= 2.0) {
      result_.verdict = FitVerdict::Agrees;
      result_.chance_of_reading_errors = 1.0;
      return std::move(result_);
    }
    fit_causes();
    weigh();
    result_.entries = gathered(farm_, causes_, given_);
    const double best = causes_.empty() ? result_.chi_square : least_chi_square();
    result_.verdict = best > chi_square_point(std::max(1.0, count - 1.0), normal_point_99) ||
                              result_.entries.empty()
                          ? FitVerdict::Unexplained
                          : FitVerdict::Explained;
    result_.one_stands_out = !result_.entries.empty() &&
                             result_.entries.front().chance > stands_out &&
                             result_.entries.front().alike.empty();
    result_.next = telling_readings(all_, given_.size(), result_.entries);
    return std::move(result_);
  }

 private:
  std::vector<ReadingSpot> all_spots() {
    std::vector<ReadingSpot> all = spots_;
    for (const ReadingSpot& spot : spots_to_try(farm_, spots_)) {
      all.push_back(spot);
    }
    all_ = all;
    return all;
  }

  /// How far the reading that is furthest off lies from what was computed [its errors].
  [[nodiscard]] double largest_off() const {
    double largest = 0.0;
    for (std::size_t i = 0; i < given_.size(); ++i) {
      largest =
          std::max(largest, std::abs(given_[i].value - result_.computed[i]) / given_[i].error);
    }
    return largest;
  }

  void fit_causes() {
    double best = result_.chi_square;
    for (const FitSite& site : fit_sites(farm_, spots_.front().month)) {
      causes_.push_back(best_size(model_, site, given_));
      best = std::min(best, causes_.back().chi_square);
    }
    causes_.erase(std::remove_if(causes_.begin(),
                                 causes_.end(),
                                 [&](const FittedCause& cause) {
                                   return cause.computed.empty() ||
                                          cause.chi_square > best + hopeless ||
                                          cause.chi_square > result_.chi_square - 1.0;
                                 }),
                  causes_.end());
    for (FittedCause& cause : causes_) {
      find_interval(model_, given_, cause);
      speak_of_leak(cause);
    }
  }

  /// A leak's size is searched by the bore of its hole and told as the water it loses.
  void speak_of_leak(FittedCause& cause) {
    if (cause.site.kind != CauseKind::LeakAtTee) {
      return;
    }
    for (double* const size : {&cause.low, &cause.high, &cause.size}) {
      const bool found = model_.with(cause.site, *size).has_value();
      *size = found ? model_.last_leak_m3_s() : 0.0;
    }
  }

  [[nodiscard]] double least_chi_square() const {
    double least = causes_.front().chi_square;
    for (const FittedCause& cause : causes_) {
      least = std::min(least, cause.chi_square);
    }
    return least;
  }

  /// Turns evidence into chances that add to one, with "nothing wrong" and "something else".
  void weigh() {
    const auto count = static_cast<double>(given_.size());
    const double nothing = std::log(weight_of_nothing) - 0.5 * result_.chi_square;
    double weights = weight_of_nothing;
    for (const FittedCause& cause : causes_) {
      weights += cause.site.weight;
    }
    const double other = std::log(weight_of_other * weights) -
                         0.5 * chi_square_point(count, normal_point_99) - 0.5 * count;
    double largest = std::max(nothing, other);
    for (const FittedCause& cause : causes_) {
      largest = std::max(largest, cause.log_evidence);
    }
    double sum = std::exp(nothing - largest) + std::exp(other - largest);
    for (const FittedCause& cause : causes_) {
      sum += std::exp(cause.log_evidence - largest);
    }
    result_.chance_of_reading_errors = std::exp(nothing - largest) / sum;
    result_.chance_of_other = std::exp(other - largest) / sum;
    for (FittedCause& cause : causes_) {
      cause.chance = std::exp(cause.log_evidence - largest) / sum;
    }
  }

  const model::Farm& farm_;
  const std::vector<ReadingSpot>& spots_;
  const std::vector<GivenReading>& given_;
  std::vector<ReadingSpot> all_;
  ReadingModel model_;
  std::vector<FittedCause> causes_;
  FitResult result_;
};

/// Where and in which month each of the farm's own measurements was taken.
void take_measurements(const model::Farm& farm, const FitOptions& options, FitAnswer& answer) {
  const bool by_month = depends_on_month(farm);
  const std::optional<model::Month> usual =
      !by_month ? std::nullopt : (options.month ? options.month : driest_month(farm));
  for (const model::Measurement& measured : farm.measured) {
    ReadingSpot spot;
    spot.place = measured.place;
    spot.kind = measured.kind;
    if (measured.kind == Kind::Flow) {
      spot.pipe = measured.pipe;
    }
    spot.month = by_month && measured.on ? std::optional(model::month_of(*measured.on)) : usual;
    const ReadingWithError reading = reading_of(measured, sight_distance_m(farm, measured.place));
    answer.spots.push_back(spot);
    answer.given.push_back({reading.value, reading.error});
  }
}

}  // namespace

double chi_square_point(double degrees, double normal_point) {
  const double share = 2.0 / (9.0 * degrees);
  const double root = 1.0 - share + normal_point * std::sqrt(share);
  return degrees * root * root * root;
}

FitResult fit_readings(const model::Farm& farm,
                       const std::vector<ReadingSpot>& spots,
                       const std::vector<GivenReading>& given,
                       LoadCase load_case) {
  return FitStudy(farm, spots, given, load_case).study();
}

FitAnswer fit(const model::Farm& farm, const FitOptions& options) {
  FitAnswer found;
  take_measurements(farm, options, found);
  SteadyOptions steady;
  steady.load_case = options.load_case;
  steady.month = found.spots.empty() ? options.month : found.spots.front().month;
  found.answer = solve_steady(farm, steady);
  if (!found.answer.converged) {
    return found;
  }
  found.result = fit_readings(farm, found.spots, found.given, options.load_case);
  found.next = next_step(found);
  return found;
}

double told_size(const model::Farm& farm,
                 const FitAnswer& answer,
                 const FittedCause& cause,
                 double size) {
  if (cause.site.kind == CauseKind::SpringWeaker && !answer.spots.empty()) {
    const auto* const yield = model::yield_of(farm.places[cause.site.index]);
    return size * in_cubic_metres_per_second(yield->at(answer.spots.front().month));
  }
  return size;
}

}  // namespace leat::solver
