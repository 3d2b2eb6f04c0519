#include "solver/fit.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "solver/driest_month.h"
#include "solver/fit_words.h"
#include "solver/measurement_error.h"
#include "solver/steady.h"

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
constexpr double least_chance_listed = 0.005;
constexpr std::size_t most_entries = 12;
constexpr std::size_t most_told_apart = 4;
constexpr double least_chance_told_apart = 0.03;

/// How far two causes' readings lie apart over the given spots, in standard errors of all together.
double apart(const FittedCause& a, const FittedCause& b, const std::vector<GivenReading>& given) {
  double sum = 0.0;
  for (std::size_t i = 0; i < given.size(); ++i) {
    const double off = (a.computed[i] - b.computed[i]) / given[i].error;
    sum += off * off;
  }
  return std::sqrt(sum);
}

bool same_place(const FitSite& a, const FitSite& b) {
  return a.kind != CauseKind::WaterColder && b.kind != CauseKind::WaterColder &&
         a.at_pipe == b.at_pipe && a.index == b.index;
}

/// Spots that were not read but could be: flows at ends, pressures at tees.
std::vector<ReadingSpot> spots_to_try(const model::Farm& farm,
                                      const std::vector<ReadingSpot>& read) {
  std::vector<ReadingSpot> spots;
  const std::optional<model::Month> month =
      read.empty() ? std::optional<model::Month>() : read.front().month;
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    ReadingSpot spot;
    spot.place = i;
    spot.month = month;
    const bool tee = std::holds_alternative<model::Tee>(farm.places[i].data);
    spot.kind = tee ? Kind::Pressure : Kind::Flow;
    const bool known = std::any_of(read.begin(), read.end(), [&](const ReadingSpot& one) {
      return one.place == i && one.kind == spot.kind && !one.pipe;
    });
    const bool fed = std::any_of(
        farm.pipes.begin(), farm.pipes.end(), [i](const model::Pipe& p) { return p.to == i; });
    const bool is_spring = std::holds_alternative<model::Spring>(farm.places[i].data);
    if (!known && (fed || is_spring)) {
      spots.push_back(spot);
    }
  }
  return spots;
}

double error_of(const ReadingSpot& spot, double value) {
  if (spot.kind == Kind::Pressure) {
    return gauge_error_Pa(value);
  }
  return std::max(5e-7, plain_flow_share * std::abs(value));
}

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
    gather();
    const double best = causes_.empty() ? result_.chi_square : least_chi_square();
    result_.verdict = best > chi_square_point(std::max(1.0, count - 1.0), normal_point_99) ||
                              result_.entries.empty()
                          ? FitVerdict::Unexplained
                          : FitVerdict::Explained;
    find_alike();
    find_next();
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
    for (const FittedCause& cause : causes_) {
      chances_.push_back(std::exp(cause.log_evidence - largest) / sum);
    }
  }

  /// Puts causes of one place that no reading tells apart into one entry, the likeliest first.
  void gather() {
    std::vector<std::size_t> order(causes_.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
      order[i] = i;
    }
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      return chances_[a] > chances_[b];
    });
    for (const std::size_t i : order) {
      const auto home =
          std::find_if(result_.entries.begin(), result_.entries.end(), [&](const FitEntry& entry) {
            return same_place(entry.causes.front().site, causes_[i].site) &&
                   apart(entry.causes.front(), causes_[i], given_) < 1.0;
          });
      if (home != result_.entries.end()) {
        home->causes.push_back(causes_[i]);
        home->chance += chances_[i];
      } else {
        result_.entries.push_back({{causes_[i]}, chances_[i], {}});
      }
    }
    std::stable_sort(result_.entries.begin(),
                     result_.entries.end(),
                     [](const FitEntry& a, const FitEntry& b) { return a.chance > b.chance; });
    while (!result_.entries.empty() &&
           (result_.entries.size() > most_entries ||
            (result_.entries.size() > 2 && result_.entries.back().chance < least_chance_listed))) {
      result_.entries.pop_back();
    }
  }

  void find_alike() {
    for (std::size_t i = 0; i < result_.entries.size(); ++i) {
      for (std::size_t k = 0; k < result_.entries.size(); ++k) {
        if (i != k &&
            apart(result_.entries[i].causes.front(), result_.entries[k].causes.front(), given_) <
                1.0) {
          result_.entries[i].alike.push_back(k);
        }
      }
    }
  }

  /// The unread spot whose reading parts the likeliest entries best: pairs weighed by their
  /// chances, each counted as told apart by 1 - exp(-(difference in errors)^2 / 8).
  void find_next() {
    std::vector<std::size_t> rivals;
    for (std::size_t i = 0; i < result_.entries.size() && rivals.size() < most_told_apart; ++i) {
      if (i < 1 || result_.entries[i].chance > least_chance_told_apart) {
        rivals.push_back(i);
      }
    }
    double best = 0.0;
    for (std::size_t spot = given_.size(); spot < all_.size() && rivals.size() > 1; ++spot) {
      double score = 0.0;
      double widest = 0.0;
      double least = 0.0;
      for (std::size_t a = 0; a < rivals.size(); ++a) {
        for (std::size_t b = a + 1; b < rivals.size(); ++b) {
          const FitEntry& one = result_.entries[rivals[a]];
          const FitEntry& two = result_.entries[rivals[b]];
          const double first = one.causes.front().computed[spot];
          const double second = two.causes.front().computed[spot];
          const double off = (first - second) /
                             std::hypot(error_of(all_[spot], first), error_of(all_[spot], second));
          least = std::min({least, first, second});
          widest = std::max(widest, std::abs(off));
          score += one.chance * two.chance * (1.0 - std::exp(-off * off / 8.0));
        }
      }
      // What runs out of open water runs into no bucket.
      const bool can_be_read = all_[spot].kind == Kind::Pressure || least >= 0.0;
      if (can_be_read && score > best && widest > 2.0) {
        best = score;
        TellingReading telling;
        telling.spot = all_[spot];
        telling.entries = rivals;
        for (const std::size_t rival : rivals) {
          telling.expected.push_back(result_.entries[rival].causes.front().computed[spot]);
        }
        result_.next = telling;
      }
    }
  }

  const model::Farm& farm_;
  const std::vector<ReadingSpot>& spots_;
  const std::vector<GivenReading>& given_;
  std::vector<ReadingSpot> all_;
  ReadingModel model_;
  std::vector<FittedCause> causes_;
  std::vector<double> chances_;
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
  steady.units = options.units;
  found.answer = solve_steady(farm, steady);
  if (!found.answer.converged) {
    return found;
  }
  found.result = fit_readings(farm, found.spots, found.given, options.load_case);
  write_fit_sentences(farm, options.units.value_or(farm.show), found);
  return found;
}

}  // namespace leat::solver
