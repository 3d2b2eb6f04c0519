#include "tests/support/hidden_cause.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numbers>
#include <random>

namespace leat::tests {

namespace {

using solver::FitSite;
using solver::ReadingSpot;
using Kind = model::Measurement::Kind;

constexpr double noise_share = 0.03;
/// A reading near nothing still has an error: 0.006 L/min, 10 Pa.
constexpr double least_flow_error_m3_s = 1e-7;
constexpr double least_pressure_error_Pa = 10.0;
constexpr double moved_errors = 3.0;
constexpr int sizes_tried = 20;

ReadingSpot pressure_at(std::size_t tee) {
  return {tee, std::nullopt, Kind::Pressure, std::nullopt};
}

/// Flows at every end.
std::vector<ReadingSpot> flows(const model::Farm& farm) {
  std::vector<ReadingSpot> found;
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    const model::PlaceData& data = farm.places[i].data;
    if (std::holds_alternative<model::Trough>(data) ||
        std::holds_alternative<model::Outlet>(data) || std::holds_alternative<model::Pond>(data)) {
      found.push_back({i, std::nullopt, Kind::Flow, std::nullopt});
    }
  }
  return found;
}

class Hider {
 public:
  explicit Hider(std::uint64_t seed) : random_(seed * 104729 + 5) {}

  // The standard's distributions differ between libraries; these do not.
  double between(double low, double high) {
    return low + (high - low) * static_cast<double>(random_() >> 11) * 0x1.0p-53;
  }
  std::size_t pick(std::size_t count) {
    return std::min(count - 1, static_cast<std::size_t>(between(0.0, static_cast<double>(count))));
  }
  double normal() {
    const double radius = std::sqrt(-2.0 * std::log(1.0 - between(0.0, 1.0)));
    return radius * std::cos(2.0 * std::numbers::pi * between(0.0, 1.0));
  }

  /// A tee where nothing is read yet.
  std::optional<std::size_t> tee(const model::Farm& farm, const std::vector<ReadingSpot>& read) {
    std::vector<std::size_t> tees;
    for (std::size_t i = 0; i < farm.places.size(); ++i) {
      const bool is_read = std::any_of(
          read.begin(), read.end(), [i](const ReadingSpot& one) { return one.place == i; });
      if (std::holds_alternative<model::Tee>(farm.places[i].data) && !is_read) {
        tees.push_back(i);
      }
    }
    return tees.empty() ? std::nullopt : std::optional(tees[pick(tees.size())]);
  }

  /// Flows at every end, pressures at two tees.
  std::vector<ReadingSpot> spots(const model::Farm& farm) {
    std::vector<ReadingSpot> found = flows(farm);
    for (int i = 0; i < 2; ++i) {
      if (const auto chosen = tee(farm, found)) {
        found.push_back(pressure_at(*chosen));
      }
    }
    return found;
  }

  /// A cause as likely as the fit holds it to be beforehand.
  FitSite site(const std::vector<FitSite>& sites) {
    double sum = 0.0;
    for (const FitSite& one : sites) {
      sum += one.weight;
    }
    double left = between(0.0, sum);
    for (const FitSite& one : sites) {
      left -= one.weight;
      if (left < 0.0) {
        return one;
      }
    }
    return sites.back();
  }

  double size(const FitSite& site) {
    const double scaled = solver::on_scale(site, site.usual) + site.usual_spread * normal();
    return std::clamp(solver::off_scale(site, scaled), site.least, site.most);
  }

 private:
  std::mt19937_64 random_;
};

double error_of(const ReadingSpot& spot, double value) {
  const double least = spot.kind == Kind::Flow ? least_flow_error_m3_s : least_pressure_error_Pa;
  return std::max(least, noise_share * std::abs(value));
}

/// Whether any reading lies far from that of the farm as filed.
bool moves(const std::vector<double>& before,
           const std::vector<double>& after,
           const std::vector<ReadingSpot>& spots) {
  for (std::size_t i = 0; i < before.size(); ++i) {
    if (std::abs(after[i] - before[i]) > moved_errors * error_of(spots[i], after[i])) {
      return true;
    }
  }
  return false;
}

/// Reads, with noise, the spots that have no reading yet.
void read_spots(const std::vector<double>& readings, Hider& hider, HiddenCause& hidden) {
  for (std::size_t k = hidden.given.size(); k < readings.size(); ++k) {
    const double error = error_of(hidden.spots[k], readings[k]);
    hidden.given.push_back({readings[k] + error * hider.normal(), error});
  }
}

/// Draws a cause and its size; its readings, none where there are none or a hole does not leak.
std::optional<std::vector<double>> hide(const std::vector<FitSite>& sites,
                                        Hider& hider,
                                        solver::ReadingModel& model,
                                        HiddenCause& hidden) {
  hidden.site = hider.site(sites);
  hidden.size = hider.size(hidden.site);
  auto readings = model.with(hidden.site, hidden.size);
  // A hole above the grade line takes air, which is another matter than a leak.
  const bool leak = hidden.site.kind == solver::CauseKind::LeakAtTee;
  hidden.told_size = leak ? model.last_leak_m3_s() : hidden.size;
  if (readings && leak && hidden.told_size < 1e-9) {
    readings.reset();
  }
  return readings;
}

/// The tee whose pressure fit finds most telling, else one drawn.
std::optional<std::size_t> advised_tee(const HiddenCause& hidden, Hider& hider) {
  const solver::FitResult so_far =
      solver::fit_readings(hidden.farm, hidden.spots, hidden.given, solver::LoadCase::Wide);
  for (const solver::TellingReading& telling : so_far.next) {
    if (telling.spot.kind == Kind::Pressure) {
      return telling.spot.place;
    }
  }
  return hider.tee(hidden.farm, hidden.spots);
}

/// Reads the flows, and then two pressures, each where fit advises. False where nothing moved.
bool read_as_advised(Hider& hider, HiddenCause& hidden) {
  const std::size_t ends = hidden.spots.size();
  bool moved = false;
  for (std::size_t count = ends; count <= ends + 2; ++count) {
    solver::ReadingModel model(hidden.farm, hidden.spots, solver::LoadCase::Wide);
    const auto now = model.with(hidden.site, hidden.size);
    if (!now) {
      return false;
    }
    read_spots(*now, hider, hidden);
    moved = moves(model.as_filed(), *now, hidden.spots);
    if (count < ends + 2) {
      if (const auto tee = advised_tee(hidden, hider)) {
        hidden.spots.push_back(pressure_at(*tee));
      }
    }
  }
  return moved;
}

enum class Tees { Drawn, Advised };

std::optional<HiddenCause> hide_and_read(std::uint64_t seed, std::size_t most_places, Tees tees) {
  HiddenCause hidden;
  hidden.farm = random_farm(seed, FarmKind::Prototype);
  if (hidden.farm.places.size() > most_places) {
    return std::nullopt;
  }
  Hider hider(seed);
  const std::vector<ReadingSpot> spots =
      tees == Tees::Drawn ? hider.spots(hidden.farm) : flows(hidden.farm);
  solver::ReadingModel model(hidden.farm, spots, solver::LoadCase::Wide);
  if (!model.is_solved() || spots.size() < (tees == Tees::Drawn ? 3U : 1U)) {
    return std::nullopt;
  }
  const std::vector<FitSite> sites = solver::fit_sites(hidden.farm, std::nullopt);
  for (int i = 0; i < sizes_tried; ++i) {
    const auto readings = hide(sites, hider, model, hidden);
    if (!readings) {
      continue;
    }
    hidden.spots = spots;
    hidden.given.clear();
    if (tees == Tees::Drawn && moves(model.as_filed(), *readings, spots)) {
      read_spots(*readings, hider, hidden);
      return hidden;
    }
    if (tees == Tees::Advised && read_as_advised(hider, hidden) && hidden.spots.size() >= 3) {
      return hidden;
    }
  }
  return std::nullopt;
}

}  // namespace

std::optional<HiddenCause> hidden_cause(std::uint64_t seed, std::size_t most_places) {
  return hide_and_read(seed, most_places, Tees::Drawn);
}

std::optional<HiddenCause> hidden_cause_read_as_advised(std::uint64_t seed,
                                                        std::size_t most_places) {
  return hide_and_read(seed, most_places, Tees::Advised);
}

}  // namespace leat::tests
