#include "solver/fit/fit_next.h"

#include <algorithm>
#include <cmath>

#include "solver/uncertainty/measurement_error.h"

namespace leat::solver {

namespace {

using Kind = model::Measurement::Kind;

constexpr double told_apart_errors = 2.0;  // standard errors
constexpr double least_chance_weighed = 0.002;
constexpr std::size_t most_weighed = 40;
constexpr std::size_t most_told = 4;
constexpr double least_chance_told = 0.03;

/// A cause, with what the chances of its like at the same spot come to.
struct Rival {
  std::size_t entry = 0;
  std::size_t cause = 0;
  double chance = 0.0;
};

/// One rival a spot of each entry, the likeliest first; their chances, before the unlikely are left
/// out, add to one.
std::vector<Rival> rivals_of(const std::vector<FitEntry>& entries) {
  std::vector<Rival> rivals;
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const std::size_t first = rivals.size();
    for (std::size_t k = 0; k < entries[i].causes.size(); ++k) {
      const FittedCause& cause = entries[i].causes[k];
      const auto known =
          std::find_if(rivals.begin() + static_cast<std::ptrdiff_t>(first),
                       rivals.end(),
                       [&](const Rival& rival) {
                         return same_spot(entries[i].causes[rival.cause].site, cause.site);
                       });
      if (known == rivals.end()) {
        rivals.push_back({i, k, cause.chance});
      } else {
        known->chance += cause.chance;
      }
    }
  }
  // Only against each other: where nothing explains the readings well all are small.
  double sum = 0.0;
  for (const Rival& rival : rivals) {
    sum += rival.chance;
  }
  for (Rival& rival : rivals) {
    rival.chance = sum > 0.0 ? rival.chance / sum : 1.0 / static_cast<double>(rivals.size());
  }
  std::stable_sort(rivals.begin(), rivals.end(), [](const Rival& a, const Rival& b) {
    return a.chance > b.chance;
  });
  while (rivals.size() > most_weighed ||
         (rivals.size() > 2 && rivals.back().chance < least_chance_weighed)) {
    rivals.pop_back();
  }
  return rivals;
}

double error_of(const ReadingSpot& spot, double value) {
  if (spot.kind == Kind::Pressure) {
    return gauge_error_Pa(value);
  }
  return std::max(least_flow_error_m3_s, plain_flow_share * std::abs(value));
}

/// How far two readings lie apart [standard errors of one].
double errors_apart(const ReadingSpot& spot, double a, double b) {
  const double error = std::hypot(error_of(spot, a), error_of(spot, b)) / std::sqrt(2.0);
  return std::abs(a - b) / error;
}

/// How well a spot's reading tells the rivals apart; 0 where it cannot be read or tells nothing.
double score_of(const ReadingSpot& spot,
                std::size_t at,
                const std::vector<FitEntry>& entries,
                const std::vector<Rival>& rivals) {
  const auto reading = [&](const Rival& rival) {
    return entries[rival.entry].causes[rival.cause].computed[at];
  };
  double score = 0.0;
  double widest = 0.0;
  for (std::size_t a = 0; a < rivals.size(); ++a) {
    const double first = reading(rivals[a]);
    // What runs out of open water runs into no bucket.
    if (spot.kind == Kind::Flow && first < 0.0) {
      return 0.0;
    }
    for (std::size_t b = a + 1; b < rivals.size(); ++b) {
      const double second = reading(rivals[b]);
      const double off = errors_apart(spot, first, second);
      widest = std::max(widest, off);
      score += rivals[a].chance * rivals[b].chance * (1.0 - std::exp(-off * off / 8.0));
    }
  }
  return widest > told_apart_errors ? score : 0.0;
}

}  // namespace

std::vector<ReadingSpot> spots_to_try(const model::Farm& farm,
                                      const std::vector<ReadingSpot>& read) {
  std::vector<ReadingSpot> spots;
  const std::optional<model::Month> month =
      read.empty() ? std::optional<model::Month>() : read.front().month;
  std::vector<bool> fed(farm.places.size(), false);
  for (const model::Pipe& pipe : farm.pipes) {
    fed[pipe.to] = true;
  }
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    ReadingSpot spot;
    spot.place = i;
    spot.month = month;
    const bool tee = model::is_tee(farm.places[i]);
    spot.kind = tee ? Kind::Pressure : Kind::Flow;
    const bool known = std::any_of(read.begin(), read.end(), [&](const ReadingSpot& one) {
      return one.place == i && one.kind == spot.kind && !one.pipe;
    });
    const bool is_spring = model::is_spring(farm.places[i]);
    if (!known && (fed[i] || is_spring)) {
      spots.push_back(spot);
    }
  }
  return spots;
}

std::vector<TellingReading> telling_readings(const std::vector<ReadingSpot>& spots,
                                             std::size_t first,
                                             const std::vector<FitEntry>& entries) {
  const std::vector<Rival> rivals = rivals_of(entries);
  std::vector<std::pair<double, std::size_t>> scores;
  for (std::size_t at = first; at < spots.size(); ++at) {
    const double score = score_of(spots[at], at, entries, rivals);
    if (score > 0.0) {
      scores.emplace_back(score, at);
    }
  }
  std::stable_sort(
      scores.begin(), scores.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<TellingReading> telling;
  for (const auto& [score, at] : scores) {
    TellingReading one;
    one.spot = spots[at];
    bool differ = false;
    for (const Rival& rival : rivals) {
      const double value = entries[rival.entry].causes[rival.cause].computed[at];
      const bool differs =
          !one.expected.empty() &&
          errors_apart(one.spot, one.expected.front().value, value) > told_apart_errors;
      const bool is_likely = one.expected.size() < most_told && rival.chance > least_chance_told;
      // The likeliest may all read alike: then the first that does not is told as well.
      if (one.expected.empty() || is_likely || (differs && !differ)) {
        one.expected.push_back({rival.entry, rival.cause, value});
        differ = differ || differs;
      }
    }
    telling.push_back(std::move(one));
  }
  return telling;
}

}  // namespace leat::solver
