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

  /// Flows at every end, pressures at two tees.
  std::vector<ReadingSpot> spots(const model::Farm& farm) {
    std::vector<ReadingSpot> found;
    std::vector<std::size_t> tees;
    for (std::size_t i = 0; i < farm.places.size(); ++i) {
      const model::PlaceData& data = farm.places[i].data;
      if (std::holds_alternative<model::Tee>(data)) {
        tees.push_back(i);
      } else if (std::holds_alternative<model::Trough>(data) ||
                 std::holds_alternative<model::Outlet>(data) ||
                 std::holds_alternative<model::Pond>(data)) {
        found.push_back({i, std::nullopt, Kind::Flow, std::nullopt});
      }
    }
    for (int i = 0; i < 2 && !tees.empty(); ++i) {
      const std::size_t chosen = pick(tees.size());
      found.push_back({tees[chosen], std::nullopt, Kind::Pressure, std::nullopt});
      tees.erase(tees.begin() + static_cast<std::ptrdiff_t>(chosen));
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

}  // namespace

std::optional<HiddenCause> hidden_cause(std::uint64_t seed, std::size_t most_places) {
  HiddenCause hidden;
  hidden.farm = random_farm(seed, FarmKind::Prototype);
  if (hidden.farm.places.size() > most_places) {
    return std::nullopt;
  }
  Hider hider(seed);
  hidden.spots = hider.spots(hidden.farm);
  solver::ReadingModel model(hidden.farm, hidden.spots, solver::LoadCase::Wide);
  if (!model.is_solved() || hidden.spots.size() < 3) {
    return std::nullopt;
  }
  const std::vector<FitSite> sites = solver::fit_sites(hidden.farm, std::nullopt);
  for (int i = 0; i < sizes_tried; ++i) {
    hidden.site = hider.site(sites);
    hidden.size = hider.size(hidden.site);
    const auto readings = model.with(hidden.site, hidden.size);
    if (!readings || !moves(model.as_filed(), *readings, hidden.spots)) {
      continue;
    }
    // A hole above the grade line takes air, which is another matter than a leak.
    const bool leak = hidden.site.kind == solver::CauseKind::LeakAtTee;
    hidden.told_size = leak ? model.last_leak_m3_s() : hidden.size;
    if (leak && hidden.told_size < 1e-9) {
      continue;
    }
    for (std::size_t k = 0; k < readings->size(); ++k) {
      const double error = error_of(hidden.spots[k], (*readings)[k]);
      hidden.given.push_back({(*readings)[k] + error * hider.normal(), error});
    }
    return hidden;
  }
  return std::nullopt;
}

}  // namespace leat::tests
