#include "solver/compare/differences.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace leat::solver {

namespace {

/// More places than this are counted, not named.
constexpr std::size_t most_places_told = 12;
/// Levels closer than this are told as the same [m].
constexpr double same_level_m = 0.02;
constexpr double same_hours = 1.0;
constexpr double same_volume_share = 0.02;
constexpr double same_length_m = 0.05;

bool differs(double here, double there, double share) {
  return std::abs(here - there) > share * std::max(std::abs(here), std::abs(there));
}

/// Lengths of pipe by what it is.
std::map<std::string, double> pipe_by_size(const model::Farm& farm) {
  std::map<std::string, double> lengths_m;
  for (const model::Pipe& pipe : farm.pipes) {
    lengths_m[pipe.size.text] += in_metres(pipe.length);
  }
  return lengths_m;
}

const PondSeason* pond_season(const ComparedFarm& compared, std::size_t place) {
  if (compared.season) {
    for (const PondSeason& pond : compared.season->ponds) {
      if (pond.place == place) {
        return &pond;
      }
    }
  }
  return nullptr;
}

/// What one farm has that the first has not, and the other way about.
class Differing {
 public:
  Differing(const model::Farm& first_farm,
            const ComparedFarm& first,
            const model::Farm& farm,
            const ComparedFarm& compared)
      : first_farm_(first_farm), first_(first), farm_(farm), here_(compared) {}

  [[nodiscard]] std::vector<DifferingThing> find() {
    whole();
    places();
    ponds();
    lifting();
    starting();
    pipe();
    flags();
    if (found_.empty()) {
      found_.emplace_back(NothingDiffers{});
    }
    return std::move(found_);
  }

 private:
  void whole();
  void places();
  void place(const model::Place& here, std::size_t index, std::size_t there);
  void ponds();
  void lifting();
  void starting();
  void pipe();
  void flags();
  void flags_of_one(const std::vector<Finding>& some,
                    const std::vector<Finding>& others,
                    bool is_here);

  const model::Farm& first_farm_;
  const ComparedFarm& first_;
  const model::Farm& farm_;
  const ComparedFarm& here_;
  std::vector<DifferingThing> found_;
};

void Differing::whole() {
  if (differs(here_.flow_m3_s, first_.flow_m3_s, same_flow_share)) {
    found_.emplace_back(WaterDiffers{here_.flow_m3_s, first_.flow_m3_s});
  }
  if (here_.met && first_.met && percent_met(*here_.met) != percent_met(*first_.met)) {
    found_.emplace_back(MetDiffers{*here_.met, *first_.met});
  }
  if (here_.dry_h && first_.dry_h && std::abs(*here_.dry_h - *first_.dry_h) > same_hours) {
    found_.emplace_back(DryHoursDiffer{*here_.dry_h, *first_.dry_h});
  }
}

void Differing::place(const model::Place& here, std::size_t index, std::size_t there) {
  const PlaceAnswer& now = here_.answer.places[index];
  const PlaceAnswer& before = first_.answer.places[there];
  const double got_m3_s = water_got_m3_s(here, now);
  const double got_before_m3_s = water_got_m3_s(first_farm_.places[there], before);
  if (differs(got_m3_s, got_before_m3_s, same_flow_share)) {
    found_.emplace_back(PlaceGets{here.name, got_m3_s, got_before_m3_s, now.met});
  }
  if (!here_.season || !first_.season) {
    return;
  }
  const FirstDryDay days{here.name, first_dry_of(here_, index), first_dry_of(first_, there)};
  if (days.here != days.there) {
    found_.emplace_back(days);
  }
}

void Differing::places() {
  std::size_t untold = 0;
  for (std::size_t i = 0; i < farm_.places.size(); ++i) {
    const model::Place& here = farm_.places[i];
    if (!model::is_point_of_use(here)) {
      continue;
    }
    if (found_.size() >= most_places_told) {
      ++untold;
      continue;
    }
    const auto there = model::place_named(first_farm_, here.name);
    if (there && model::is_point_of_use(first_farm_.places[*there])) {
      place(here, i, *there);
    } else {
      const PlaceAnswer& now = here_.answer.places[i];
      found_.emplace_back(PlaceAdded{here.name, water_got_m3_s(here, now), now.met});
    }
  }
  for (const model::Place& before : first_farm_.places) {
    if (model::is_point_of_use(before) && !model::place_named(farm_, before.name)) {
      found_.emplace_back(PlaceMissing{before.name});
    }
  }
  if (untold > 0) {
    found_.emplace_back(PlacesLeftOut{untold});
  }
}

void Differing::ponds() {
  for (std::size_t i = 0; i < farm_.places.size(); ++i) {
    const auto there = model::place_named(first_farm_, farm_.places[i].name);
    const PondSeason* const now = pond_season(here_, i);
    const PondSeason* const before = there ? pond_season(first_, *there) : nullptr;
    if (now == nullptr || before == nullptr ||
        std::abs(now->lowest_m - before->lowest_m) < same_level_m) {
      continue;
    }
    found_.emplace_back(LowestLevel{farm_.places[i].name, now->lowest_m, before->lowest_m});
  }
}

void Differing::lifting() {
  if (here_.energy_kWh && first_.energy_kWh &&
      differs(*here_.energy_kWh, *first_.energy_kWh, same_volume_share)) {
    found_.emplace_back(EnergyDiffers{*here_.energy_kWh, *first_.energy_kWh});
  }
  if (here_.wasted_m3 && first_.wasted_m3 &&
      differs(*here_.wasted_m3, *first_.wasted_m3, same_volume_share)) {
    found_.emplace_back(WasteDiffers{*here_.wasted_m3, *first_.wasted_m3});
  }
}

void Differing::starting() {
  if (here_.starting && first_.starting &&
      (here_.starting->need != first_.starting->need ||
       differs(here_.starting->water_m3, first_.starting->water_m3, same_volume_share))) {
    found_.emplace_back(StartingDiffers{*here_.starting, *first_.starting});
  }
  if (!(here_.parts == first_.parts)) {
    found_.emplace_back(PartsDiffer{here_.parts, first_.parts});
  }
}

void Differing::pipe() {
  std::map<std::string, double> more_m = pipe_by_size(farm_);
  for (const auto& [size, length_m] : pipe_by_size(first_farm_)) {
    more_m[size] -= length_m;
  }
  PipeDiffers changes;
  for (const auto& [size, length_m] : more_m) {
    if (std::abs(length_m) > same_length_m) {
      changes.sizes.push_back({size, length_m});
    }
  }
  if (!changes.sizes.empty()) {
    found_.emplace_back(std::move(changes));
  } else if (!found_.empty()) {
    found_.emplace_back(SamePipe{});
  }
}

void Differing::flags_of_one(const std::vector<Finding>& some,
                             const std::vector<Finding>& others,
                             bool is_here) {
  for (const Finding& flag : some) {
    const bool same = std::any_of(others.begin(), others.end(), [&flag](const Finding& other) {
      return other.code == flag.code && other.where == flag.where &&
             other.severity == flag.severity;
    });
    if (flag.severity != Severity::Note && !same) {
      found_.emplace_back(FlagDiffers{is_here, flag.severity, flag.code, flag.where});
    }
  }
}

void Differing::flags() {
  flags_of_one(first_.flags, here_.flags, false);
  flags_of_one(here_.flags, first_.flags, true);
}

}  // namespace

std::vector<Difference> differences(const std::vector<const model::Farm*>& farms,
                                    const Comparison& comparison) {
  std::vector<Difference> all;
  const auto solved = [&comparison](std::size_t farm) {
    return comparison.farms.at(farm).answer.converged;
  };
  for (std::size_t i = 1; i < farms.size() && solved(0); ++i) {
    if (!solved(i)) {
      continue;
    }
    Differing differing(*farms[0], comparison.farms[0], *farms[i], comparison.farms[i]);
    for (DifferingThing& thing : differing.find()) {
      all.push_back({i, std::move(thing)});
    }
  }
  return all;
}

}  // namespace leat::solver
