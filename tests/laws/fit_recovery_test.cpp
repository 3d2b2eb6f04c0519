// Random farms with one hidden cause: how often a fit finds it, and how often its interval holds.
// LEAT_FARMS=500 runs the whole and tells what was counted; without it a few farms.
#include <algorithm>
#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "render/words/fit_causes.h"
#include "tests/support/farms_asked.h"
#include "tests/support/hidden_cause.h"

namespace leat::tests {

namespace {

using solver::FitEntry;
using solver::FitResult;
using solver::FitSite;

constexpr std::size_t most_places = 40;

/// The very pipe or place of the file.
bool at_one_spot(const FitSite& a, const FitSite& b) {
  const bool water = a.kind == solver::CauseKind::WaterColder;
  return water || b.kind == solver::CauseKind::WaterColder
             ? a.kind == b.kind
             : a.at_pipe == b.at_pipe && a.index == b.index;
}

bool has_spot(const FitEntry& entry, const FitSite& site) {
  return std::any_of(entry.causes.begin(), entry.causes.end(), [&](const auto& cause) {
    return at_one_spot(cause.site, site);
  });
}

std::size_t spots_of(const FitEntry& entry) {
  std::set<std::pair<bool, std::size_t>> spots;
  for (const solver::FittedCause& cause : entry.causes) {
    spots.emplace(cause.site.at_pipe, cause.site.index);
  }
  return spots.size();
}

/// Whether everything an entry names lies on pipes that follow one another without a fork, or at
/// the places where these pipes begin and end. Walked here by itself, from pipe to pipe.
bool lies_on_one_line(const model::Farm& farm, const FitEntry& entry) {
  if (spots_of(entry) == 1) {
    return true;
  }
  const auto pipes_at = [&](std::size_t place) {
    std::vector<std::size_t> pipes;
    for (std::size_t i = 0; i < farm.pipes.size(); ++i) {
      if (farm.pipes[i].from == place || farm.pipes[i].to == place) {
        pipes.push_back(i);
      }
    }
    return pipes;
  };
  for (std::size_t first = 0; first < farm.pipes.size(); ++first) {
    std::set<std::size_t> pipes{first};
    std::set<std::size_t> places;
    for (std::vector<std::size_t> open{first}; !open.empty();) {
      const model::Pipe& pipe = farm.pipes[open.back()];
      open.pop_back();
      for (const std::size_t place : {pipe.from, pipe.to}) {
        places.insert(place);
        if (pipes_at(place).size() != 2) {
          continue;
        }
        for (const std::size_t next : pipes_at(place)) {
          if (pipes.insert(next).second) {
            open.push_back(next);
          }
        }
      }
    }
    if (std::all_of(entry.causes.begin(), entry.causes.end(), [&](const auto& cause) {
          return (cause.site.at_pipe ? pipes : places).count(cause.site.index) > 0;
        })) {
      return true;
    }
  }
  return false;
}

struct KindCounts {
  int farms = 0;
  int found = 0;
};

struct Counts {
  int farms = 0;
  int found = 0;           // an entry that names the very pipe or place is first or second
  int at_the_lead = 0;     // the likeliest cause of one of these two is at the very pipe or place
  int not_told_apart = 0;  // not found, but the fit says that it is alike one of the first two
  int sized = 0;           // the very cause is listed
  int held = 0;            // and its interval holds the truth
  std::size_t spots = 0;   // pipes and places that the first entries name
  std::size_t most_spots = 0;
  int entries = 0;
  int across_forks = 0;  // entries that name more than one line
  std::map<std::string, KindCounts> by_kind;
};

void count_size(const HiddenCause& hidden, const FitEntry& entry, Counts& counts) {
  for (const solver::FittedCause& cause : entry.causes) {
    if (cause.site.kind == hidden.site.kind && at_one_spot(cause.site, hidden.site) &&
        cause.site.at_m == hidden.site.at_m) {
      ++counts.sized;
      const double slack = 1e-6 * (1.0 + hidden.told_size);
      counts.held +=
          cause.low <= hidden.told_size + slack && hidden.told_size <= cause.high + slack ? 1 : 0;
    }
  }
}

void count(const HiddenCause& hidden, Counts& counts) {
  const FitResult result =
      solver::fit_readings(hidden.farm, hidden.spots, hidden.given, solver::LoadCase::Wide);
  ++counts.farms;
  KindCounts& kind = counts.by_kind[std::string(render::name_of(hidden.site.kind))];
  ++kind.farms;
  const std::vector<FitEntry>& entries = result.entries;
  std::size_t entry_of = entries.size();
  bool at_the_lead = false;
  for (std::size_t i = 0; i < entries.size(); ++i) {
    if (has_spot(entries[i], hidden.site)) {
      entry_of = std::min(entry_of, i);
      at_the_lead =
          at_the_lead || (i < 2 && at_one_spot(entries[i].causes.front().site, hidden.site));
    }
    count_size(hidden, entries[i], counts);
    counts.across_forks += lies_on_one_line(hidden.farm, entries[i]) ? 0 : 1;
  }
  counts.at_the_lead += at_the_lead ? 1 : 0;
  if (!entries.empty()) {
    ++counts.entries;
    counts.spots += spots_of(entries.front());
    counts.most_spots = std::max(counts.most_spots, spots_of(entries.front()));
  }
  if (entry_of < 2) {
    ++counts.found;
    ++kind.found;
  } else if (entry_of < entries.size()) {
    const std::vector<std::size_t>& alike = entries[entry_of].alike;
    counts.not_told_apart +=
        std::any_of(alike.begin(), alike.end(), [](std::size_t other) { return other < 2; }) ? 1
                                                                                             : 0;
  }
}

std::string told(const Counts& counts) {
  std::string text = fmt::format(
      "{} farms: named first or second {} (as the likeliest cause there {}), else not told apart "
      "{}; the first entry names {:.2f} pipes and places in the mean, {} at most; sized {}, "
      "interval holds {}\n",
      counts.farms,
      counts.found,
      counts.at_the_lead,
      counts.not_told_apart,
      static_cast<double>(counts.spots) / counts.entries,
      counts.most_spots,
      counts.sized,
      counts.held);
  for (const auto& [kind, of_kind] : counts.by_kind) {
    text += fmt::format("{}: {} of {}\n", kind, of_kind.found, of_kind.farms);
  }
  return text;
}

using Hide = std::optional<HiddenCause> (*)(std::uint64_t seed, std::size_t most_places);

/// Farms hidden in one way, fitted. Tells what was counted where the farms were asked for by name.
Counts counted(Hide hide, int farms) {
  Counts counts;
  for (std::uint64_t seed = 1; counts.farms < farms; ++seed) {
    if (const auto hidden = hide(seed, most_places)) {
      count(*hidden, counts);
    }
  }
  if (farms_asked_by_name()) {
    WARN(told(counts));
  }
  return counts;
}

int farms_to_fit(int usually) {
  return farms_asked_by_name() ? static_cast<int>(std::min<std::uint64_t>(farms_asked(), 500))
                               : usually;
}

/// Small runs are allowed their scatter; what 500 farms gave stands in METHOD.md.
void check(const Counts& counts) {
  const double all = counts.farms;
  const double slack = counts.farms >= 500 ? 0.0 : (counts.farms >= 20 ? 0.12 : 0.25);
  CHECK(counts.found / all >= 0.90 - slack);
  CHECK(counts.at_the_lead / all > 0.75 - slack);
  CHECK(counts.across_forks == 0);
  CHECK(static_cast<double>(counts.spots) / counts.entries < 3.0 + 5.0 * slack);
  CHECK(static_cast<double>(counts.held) / counts.sized > 0.92 - slack);
  CHECK(static_cast<double>(counts.held) / counts.sized < 0.98 + slack);
}

}  // namespace

TEST_CASE("a hidden cause is named first or second on one line that no reading tells apart",
          "[law][fit]") {
  check(counted(hidden_cause, farms_to_fit(24)));
}

TEST_CASE("a hidden cause is named first or second where the gauge is put as fit advises",
          "[law][fit]") {
  check(counted(hidden_cause_read_as_advised, farms_to_fit(8)));
}

}  // namespace leat::tests
