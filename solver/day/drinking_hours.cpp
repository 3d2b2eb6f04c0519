#include <algorithm>
#include <array>
#include <variant>

#include "model/quantity/conversion.h"
#include "solver/day/day_values.h"

namespace leat::solver {

namespace {

using model::AnyOf;
using model::Creek;
using model::Outlet;
using model::Pond;
using model::Spring;
using model::Tank;
using model::Tee;

/// A range of the clock within one day; one that runs past midnight has a piece at either end.
struct Piece {
  double from_s = 0.0;
  double to_s = 0.0;
};

std::array<Piece, 2> pieces_of(const model::ClockRange& range) {
  const double from_s = in_seconds(range.from);
  const double to_s = in_seconds(range.to);
  if (from_s < to_s) {
    return {{{from_s, to_s}, {}}};
  }
  return {{{from_s, seconds_per_day}, {0.0, to_s}}};
}

/// Seconds between two moments that lie in any of the ranges, each counted once. Called every step
/// of a season for every trough, so it asks for no memory.
double covered_s(const std::vector<model::ClockRange>& ranges, double from_s, double to_s) {
  double covered = 0.0;
  double at_s = from_s;
  while (at_s < to_s) {
    double covered_to_s = at_s;  // as far as a range that holds `at_s` goes on
    double next_s = to_s;        // where the next range begins
    for (const model::ClockRange& range : ranges) {
      for (const Piece& piece : pieces_of(range)) {
        if (piece.from_s <= at_s && at_s < piece.to_s) {
          covered_to_s = std::max(covered_to_s, piece.to_s);
        } else if (at_s < piece.from_s) {
          next_s = std::min(next_s, piece.from_s);
        }
      }
    }
    if (covered_to_s > at_s) {
      covered_to_s = std::min(covered_to_s, to_s);
      covered += covered_to_s - at_s;
      at_s = covered_to_s;
    } else {
      at_s = next_s;
    }
  }
  return covered;
}

/// Seconds of drinking between two moments, whatever tells the hours.
double drinking_s(const model::Trough& trough, double from_s, double to_s) {
  if (!trough.drinks.empty()) {
    return covered_s(trough.drinks, from_s, to_s);
  }
  // Below a second the clock's own rounding would leave nothing.
  const double half_s = 0.5 * std::clamp(in_seconds(trough.within), 1.0, seconds_per_day);
  const double noon_s = 0.5 * seconds_per_day;
  return std::max(std::min(to_s, noon_s + half_s) - std::max(from_s, noon_s - half_s), 0.0);
}

}  // namespace

double drinking_share(const model::Trough& trough, double from_s, double to_s) {
  return drinking_s(trough, from_s, to_s) / drinking_s(trough, 0.0, seconds_per_day);
}

double drinking_share(const model::Place& place, double from_s, double to_s) {
  return std::visit(
      Overload{[&](const model::Trough& trough) { return drinking_share(trough, from_s, to_s); },
               [&](const AnyOf<Spring, Creek, Pond, Tank, Outlet, Tee> auto&) {
                 return (to_s - from_s) / seconds_per_day;
               }},
      place.data);
}

double running_share(const model::Pump& pump, double from_s, double to_s) {
  if (!pump.runs.empty()) {
    return covered_s(pump.runs, from_s, to_s) / (to_s - from_s);
  }
  if (!pump.hours_a_day) {
    return 1.0;
  }
  const double half_s = 0.5 * std::clamp(in_seconds(*pump.hours_a_day), 0.0, seconds_per_day);
  const double noon_s = 0.5 * seconds_per_day;
  const double runs_s = std::min(to_s, noon_s + half_s) - std::max(from_s, noon_s - half_s);
  return std::max(runs_s, 0.0) / (to_s - from_s);
}

double drinking_hours(const model::Trough& trough) {
  return drinking_s(trough, 0.0, seconds_per_day) / seconds_per_hour;
}

double drinking_hours(const model::Place& place) {
  return std::visit(
      Overload{[](const model::Trough& trough) { return drinking_hours(trough); },
               [](const AnyOf<Spring, Creek, Pond, Tank, Outlet, Tee> auto&) { return 24.0; }},
      place.data);
}

}  // namespace leat::solver
