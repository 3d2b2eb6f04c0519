#include "solver/fit/next_step.h"

#include <algorithm>

#include "solver/fit/fit.h"

namespace leat::solver {

namespace {

constexpr std::size_t most_looks = 4;
constexpr double least_chance_looked_at = 0.03;
/// Suction below this reads as nothing [Pa].
constexpr double least_suction_Pa = 100.0;

/// Below the air's pressure a gauge shows suction, and no more of it than water bears before it
/// parts, which the readings as computed do not know.
void bound_suction(const SteadyAnswer& answer, ExpectedReading& expected) {
  const double most_suction_Pa = answer.air_pressure_Pa - answer.vapour_pressure_Pa;
  if (expected.value > -least_suction_Pa) {
    return;
  }
  expected.shows = Shows::Suction;
  if (most_suction_Pa > 0.0 && -expected.value >= most_suction_Pa) {
    expected.shows = Shows::MostSuction;
    expected.value = -most_suction_Pa;
  }
}

TakeReading reading_to_take(const FitAnswer& answer) {
  TakeReading step{answer.result.next.front()};
  if (step.reading.spot.kind == model::Measurement::Kind::Pressure) {
    for (ExpectedReading& expected : step.reading.expected) {
      bound_suction(answer.answer, expected);
    }
  }
  return step;
}

/// Whether looking at both is one look: kinks and silt are both found along the pipe.
bool is_one_look(const FitSite& a, const FitSite& b) {
  const auto lies_along = [](CauseKind kind) {
    return kind == CauseKind::KinkedPipe || kind == CauseKind::SiltedPipe;
  };
  return a.at_pipe == b.at_pipe && a.index == b.index &&
         (a.kind == b.kind || (lies_along(a.kind) && lies_along(b.kind)));
}

LookAt places_to_look_at(const FitResult& result) {
  LookAt step;
  for (const FitEntry& entry : result.entries) {
    if (!step.sites.empty() &&
        (entry.chance <= least_chance_looked_at || step.sites.size() >= most_looks)) {
      break;
    }
    for (std::size_t i = 0; i < entry.causes.size() && step.sites.size() < most_looks; ++i) {
      const FitSite& site = entry.causes[i].site;
      const bool is_known =
          (i > 0 && same_spot(entry.causes.front().site, site)) ||
          std::any_of(step.sites.begin(), step.sites.end(), [&](const FitSite& known) {
            return is_one_look(known, site);
          });
      if (!is_known) {
        step.sites.push_back(site);
      }
    }
  }
  const FitSite& likeliest = result.entries.front().causes.front().site;
  if (likeliest.at_pipe) {
    step.halved = likeliest.index;
  }
  return step;
}

}  // namespace

NextStep next_step(const FitAnswer& answer) {
  const FitResult& result = answer.result;
  if (result.verdict == FitVerdict::NothingGiven) {
    return MeasureFlows{};
  }
  if (result.verdict == FitVerdict::Agrees) {
    return NothingMore{};
  }
  if (result.entries.empty()) {
    return MeasureAgain{};
  }
  if (!result.next.empty()) {
    return reading_to_take(answer);
  }
  return places_to_look_at(result);
}

}  // namespace leat::solver
