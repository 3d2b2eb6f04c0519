#include "solver/fit/fit_entry.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace leat::solver {

namespace {

/// Readings nearer than this, all together, are one [standard errors].
constexpr double told_apart = 1.0;
constexpr double least_chance_listed = 0.005;
constexpr std::size_t most_entries = 12;
/// Causes, the likeliest first, that an entry may be gathered around.
constexpr std::size_t leads_tried = 24;

/// Whether two causes at two spots would be read alike whatever their size: at the best one and at
/// both ends of the interval. Of a level that is higher and a loss the ends are the other way
/// round.
bool alike_at_every_size(const FittedCause& a,
                         const FittedCause& b,
                         const std::vector<GivenReading>& given) {
  const auto near = [&](const std::vector<double>& one, const std::vector<double>& other) {
    return !one.empty() && !other.empty() && readings_apart(one, other, given) < told_apart;
  };
  return near(a.computed, b.computed) &&
         ((near(a.computed_low, b.computed_low) && near(a.computed_high, b.computed_high)) ||
          (near(a.computed_low, b.computed_high) && near(a.computed_high, b.computed_low)));
}

/// How far apart causes of one entry may sit; Cause: each is an entry of its own.
enum class Reach { Cause, Spot, Line };

class Gatherer {
 public:
  Gatherer(const model::Farm& farm,
           const std::vector<FittedCause>& causes,
           const std::vector<GivenReading>& given,
           Reach reach)
      : causes_(causes), given_(given), lines_(farm), reach_(reach), left_(causes.size()) {
    std::iota(left_.begin(), left_.end(), std::size_t{0});
    std::stable_sort(left_.begin(), left_.end(), [&](std::size_t a, std::size_t b) {
      return causes_[a].chance > causes_[b].chance;
    });
  }

  std::vector<FitEntry> gather() {
    std::vector<FitEntry> entries;
    while (!left_.empty() && entries.size() < most_entries) {
      const Group group = likeliest_group();
      if (entries.size() >= 2 && group.chance < least_chance_listed) {
        break;
      }
      entries.push_back(entry_of(group));
      std::erase_if(left_, [&](std::size_t cause) {
        return std::find(group.causes.begin(), group.causes.end(), cause) != group.causes.end();
      });
    }
    std::stable_sort(entries.begin(), entries.end(), [](const FitEntry& a, const FitEntry& b) {
      return a.chance > b.chance;
    });
    return entries;
  }

 private:
  struct Group {
    std::vector<std::size_t> causes;
    double chance = 0.0;
    std::optional<std::size_t> line;
  };

  [[nodiscard]] std::vector<std::size_t> lines_of(const FitSite& site) const {
    if (site.kind == CauseKind::WaterColder) {
      return {};
    }
    if (site.at_pipe) {
      return {lines_.line_of_pipe(site.index)};
    }
    const std::span<const std::size_t> lines = lines_.lines_at(site.index);
    return {lines.begin(), lines.end()};
  }

  /// The lead and those after it, of its line or its spot, that the readings do not tell from it.
  [[nodiscard]] Group around(std::size_t rank, std::optional<std::size_t> line) const {
    const FittedCause& lead = causes_[left_[rank]];
    Group group{{left_[rank]}, lead.chance, line};
    for (std::size_t i = rank + 1; i < left_.size(); ++i) {
      const FittedCause& other = causes_[left_[i]];
      bool joins = false;
      if (same_spot(lead.site, other.site)) {
        joins = reach_ != Reach::Cause &&
                readings_apart(lead.computed, other.computed, given_) < told_apart;
      } else if (line) {
        const std::vector<std::size_t> lines = lines_of(other.site);
        joins = std::find(lines.begin(), lines.end(), *line) != lines.end() &&
                alike_at_every_size(lead, other, given_);
      }
      if (joins) {
        group.causes.push_back(left_[i]);
        group.chance += other.chance;
      }
    }
    return group;
  }

  [[nodiscard]] Group likeliest_group() const {
    Group best;
    for (std::size_t rank = 0; rank < std::min(left_.size(), leads_tried); ++rank) {
      std::vector<std::optional<std::size_t>> places;
      if (reach_ == Reach::Line) {
        for (const std::size_t line : lines_of(causes_[left_[rank]].site)) {
          places.emplace_back(line);
        }
      }
      if (places.empty()) {
        places.emplace_back();
      }
      for (const std::optional<std::size_t>& place : places) {
        Group group = around(rank, place);
        if (best.causes.empty() || group.chance > best.chance) {
          best = std::move(group);
        }
      }
    }
    return best;
  }

  [[nodiscard]] FitEntry entry_of(const Group& group) const {
    FitEntry entry;
    entry.chance = group.chance;
    for (const std::size_t cause : group.causes) {
      entry.causes.push_back(causes_[cause]);
      if (group.line && !same_spot(entry.causes.front().site, causes_[cause].site)) {
        entry.line = lines_[*group.line];
      }
    }
    return entry;
  }

  const std::vector<FittedCause>& causes_;
  const std::vector<GivenReading>& given_;
  UnbranchedLines lines_;
  Reach reach_;
  std::vector<std::size_t> left_;  // causes of no entry yet, the likeliest first
};

/// Causes of the entry from `first` on that sit at no spot of those told, each spot once.
template <class Counts>
std::vector<std::size_t> new_spots(const FitEntry& entry,
                                   std::size_t first,
                                   std::vector<FitSite> told,
                                   const Counts& counts) {
  std::vector<std::size_t> found;
  for (std::size_t i = first; i < entry.causes.size(); ++i) {
    const FitSite& site = entry.causes[i].site;
    const bool is_told = std::any_of(
        told.begin(), told.end(), [&](const FitSite& one) { return same_spot(one, site); });
    if (counts(site) && !is_told) {
      told.push_back(site);
      found.push_back(i);
    }
  }
  return found;
}

}  // namespace

std::vector<Alternative> alternatives_of(const FitEntry& entry) {
  std::vector<Alternative> alternatives;
  for (std::size_t i = 0; i < entry.causes.size(); ++i) {
    const FitSite& site = entry.causes[i].site;
    const bool is_known =
        std::any_of(alternatives.begin(), alternatives.end(), [&](const Alternative& known) {
          return entry.causes[known.cause].site.kind == site.kind;
        });
    if (!is_known) {
      alternatives.push_back({i, new_spots(entry, i + 1, {site}, [&site](const FitSite& other) {
                                return other.kind == site.kind;
                              })});
    }
  }
  return alternatives;
}

std::vector<std::size_t> distinct_spots(const FitEntry& entry) {
  return new_spots(entry, 0, {}, [](const FitSite&) { return true; });
}

bool same_spot(const FitSite& a, const FitSite& b) {
  return a.kind != CauseKind::WaterColder && b.kind != CauseKind::WaterColder &&
         a.at_pipe == b.at_pipe && a.index == b.index;
}

double readings_apart(const std::vector<double>& a,
                      const std::vector<double>& b,
                      const std::vector<GivenReading>& given) {
  double sum = 0.0;
  for (std::size_t i = 0; i < given.size(); ++i) {
    const double off = (a[i] - b[i]) / given[i].error;
    sum += off * off;
  }
  return std::sqrt(sum);
}

std::vector<FitEntry> gathered(const model::Farm& farm,
                               const std::vector<FittedCause>& causes,
                               const std::vector<GivenReading>& given) {
  // One reading tells nothing apart: its answer is a list of single places, never one row.
  const bool one_reading = given.size() == 1;
  std::vector<FitEntry> entries =
      Gatherer(farm, causes, given, one_reading ? Reach::Spot : Reach::Line).gather();
  if (one_reading && entries.size() == 1) {
    entries = Gatherer(farm, causes, given, Reach::Cause).gather();
  }
  for (std::size_t i = 0; i < entries.size(); ++i) {
    for (std::size_t k = 0; k < entries.size(); ++k) {
      if (i != k && readings_apart(entries[i].causes.front().computed,
                                   entries[k].causes.front().computed,
                                   given) < told_apart) {
        entries[i].alike.push_back(k);
      }
    }
  }
  return entries;
}

}  // namespace leat::solver
