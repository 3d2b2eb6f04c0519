// Random farms with one hidden cause: how often a fit finds it, and how often its interval holds.
// LEAT_FARMS=500 runs the whole; without it a few farms.
#include <algorithm>
#include <cstdint>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

#include "tests/support/farms_asked.h"
#include "tests/support/hidden_cause.h"

namespace leat::tests {

namespace {

using solver::FitEntry;
using solver::FitSite;

constexpr std::size_t most_places = 40;

bool same_place(const FitSite& a, const FitSite& b) {
  const bool water = a.kind == solver::CauseKind::WaterColder;
  return water || b.kind == solver::CauseKind::WaterColder
             ? a.kind == b.kind
             : a.at_pipe == b.at_pipe && a.index == b.index;
}

struct Counts {
  int farms = 0;
  int first_or_second = 0;  // the right place, by itself
  int not_told_apart = 0;   // beside these: the fit says that it is alike one of the first two
  int sized = 0;            // the very cause is listed
  int held = 0;             // and its interval holds the truth
};

void count(const HiddenCause& hidden, Counts& counts) {
  const solver::FitResult result =
      solver::fit_readings(hidden.farm, hidden.spots, hidden.given, solver::LoadCase::Wide);
  ++counts.farms;
  std::vector<FitSite> places;
  std::size_t rank = 0;
  std::size_t entry_of = result.entries.size();
  for (std::size_t i = 0; i < result.entries.size(); ++i) {
    const FitSite& site = result.entries[i].causes.front().site;
    if (std::none_of(places.begin(), places.end(), [&](const FitSite& one) {
          return same_place(one, site);
        })) {
      places.push_back(site);
    }
    if (rank == 0 && same_place(site, hidden.site)) {
      rank = places.size();
      entry_of = i;
    }
    for (const solver::FittedCause& cause : result.entries[i].causes) {
      if (cause.site.kind == hidden.site.kind && same_place(cause.site, hidden.site) &&
          cause.site.at_m == hidden.site.at_m) {
        ++counts.sized;
        const double slack = 1e-6 * (1.0 + hidden.told_size);
        counts.held +=
            cause.low <= hidden.told_size + slack && hidden.told_size <= cause.high + slack ? 1 : 0;
      }
    }
  }
  if (rank == 1 || rank == 2) {
    ++counts.first_or_second;
  } else if (entry_of < result.entries.size()) {
    const std::vector<std::size_t>& alike = result.entries[entry_of].alike;
    counts.not_told_apart +=
        std::any_of(alike.begin(), alike.end(), [](std::size_t other) { return other < 2; }) ? 1
                                                                                             : 0;
  }
}

}  // namespace

TEST_CASE("a hidden cause is found where it sits, or among those no reading tells from it",
          "[law][fit]") {
  const int farms =
      farms_asked_by_name() ? static_cast<int>(std::min<std::uint64_t>(farms_asked(), 500)) : 24;
  Counts counts;
  for (std::uint64_t seed = 1; counts.farms < farms; ++seed) {
    if (const auto hidden = hidden_cause(seed, most_places)) {
      count(*hidden, counts);
    }
  }
  if (farms_asked_by_name()) {
    WARN(counts.farms << " farms: first or second " << counts.first_or_second
                      << ", else not told apart " << counts.not_told_apart << "; sized "
                      << counts.sized << ", interval holds " << counts.held);
  }
  const double all = counts.farms;
  // Small runs are allowed their scatter; what 500 farms gave stands in METHOD.md.
  const double slack = farms >= 500 ? 0.0 : 0.12;
  CHECK((counts.first_or_second + counts.not_told_apart) / all > 0.90 - slack);
  CHECK(counts.first_or_second / all > 0.75 - slack);
  CHECK(static_cast<double>(counts.held) / counts.sized > 0.92 - slack);
  CHECK(static_cast<double>(counts.held) / counts.sized < 0.985 + slack);
}

}  // namespace leat::tests
