#include "solver/compare/compare_words.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <utility>
#include <variant>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "model/quantity/spoken_amount.h"
#include "solver/findings/states.h"

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

std::optional<std::size_t> place_named(const model::Farm& farm, const std::string& name) {
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    if (farm.places[i].name == name) {
      return i;
    }
  }
  return std::nullopt;
}

/// Whether water is wanted at the place: a trough, an outlet, a pond.
bool wants_water(const model::Place& place) {
  return std::holds_alternative<model::Trough>(place.data) ||
         std::holds_alternative<model::Outlet>(place.data) ||
         std::holds_alternative<model::Pond>(place.data);
}

/// As render/words/quoted.h, which these sentences will move beside.
std::string quoted(const std::string& name) {
  return '\'' + name + '\'';
}

std::string count_words(int count, const char* one, const char* many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
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
            const ComparedFarm& compared,
            std::string first_label,
            model::UnitSystem units)
      : first_farm_(first_farm),
        first_(first),
        farm_(farm),
        here_(compared),
        label_(std::move(first_label)),
        units_(units) {}

  [[nodiscard]] std::vector<std::string> sentences() {
    whole();
    places();
    ponds();
    lifting();
    starting();
    pipe();
    flags();
    if (told_.empty()) {
      told_.push_back(fmt::format("nothing differs from {} that leat can tell", label_));
    }
    return std::move(told_);
  }

 private:
  void whole();
  void places();
  void place(const model::Place& here, std::size_t index, std::size_t there);
  void dry(const std::string& name, std::size_t index, std::size_t there);
  void ponds();
  void lifting();
  void starting();
  void pipe();
  void flags();
  [[nodiscard]] std::string met_words(const PlaceAnswer& answer) const;

  const model::Farm& first_farm_;
  const ComparedFarm& first_;
  const model::Farm& farm_;
  const ComparedFarm& here_;
  std::string label_;
  model::UnitSystem units_;
  std::vector<std::string> told_;
};

void Differing::whole() {
  if (differs(here_.flow_m3_s, first_.flow_m3_s, same_flow_share)) {
    told_.push_back(fmt::format("{} reach troughs, outlets and ponds instead of {}",
                                spoken_flow(here_.flow_m3_s, units_),
                                spoken_flow(first_.flow_m3_s, units_)));
  }
  if (here_.met && first_.met && share_words(*here_.met) != share_words(*first_.met)) {
    told_.push_back(fmt::format(
        "{} of all needs is met instead of {}", share_words(*here_.met), share_words(*first_.met)));
  }
  if (here_.dry_h && first_.dry_h && std::abs(*here_.dry_h - *first_.dry_h) > same_hours) {
    told_.push_back(fmt::format(
        "{:.0f} hours dry, all troughs together, instead of {:.0f}", *here_.dry_h, *first_.dry_h));
  }
}

std::string Differing::met_words(const PlaceAnswer& answer) const {
  if (!answer.met) {
    return "";
  }
  return *answer.met >= met_limit ? ", all it needs"
                                  : fmt::format(", {} of its need", share_words(*answer.met));
}

void Differing::place(const model::Place& here, std::size_t index, std::size_t there) {
  const PlaceAnswer& now = here_.answer.places[index];
  const PlaceAnswer& before = first_.answer.places[there];
  const double got_m3_s = water_got_m3_s(here, now);
  const double got_before_m3_s = water_got_m3_s(first_farm_.places[there], before);
  if (differs(got_m3_s, got_before_m3_s, same_flow_share)) {
    told_.push_back(fmt::format("{} gets {} instead of {}{}",
                                quoted(here.name),
                                spoken_flow(got_m3_s, units_),
                                spoken_flow(got_before_m3_s, units_),
                                met_words(now)));
  }
  dry(here.name, index, there);
}

void Differing::dry(const std::string& name, std::size_t index, std::size_t there) {
  if (!here_.season || !first_.season) {
    return;
  }
  const auto now = first_dry_of(here_, index);
  const auto before = first_dry_of(first_, there);
  if (now == before) {
    return;
  }
  if (!now) {
    told_.push_back(fmt::format(
        "{} never goes short; in {} it does on {}", quoted(name), label_, date_text(*before)));
  } else if (!before) {
    told_.push_back(fmt::format(
        "{} goes short on {}; in {} it never does", quoted(name), date_text(*now), label_));
  } else {
    const int days = day_number(*now) - day_number(*before);
    told_.push_back(fmt::format("{} first goes short on {}, {} {}",
                                quoted(name),
                                date_text(*now),
                                count_words(std::abs(days), "day", "days"),
                                days > 0 ? "later" : "earlier"));
  }
}

void Differing::places() {
  std::size_t untold = 0;
  for (std::size_t i = 0; i < farm_.places.size(); ++i) {
    const model::Place& here = farm_.places[i];
    if (!wants_water(here)) {
      continue;
    }
    if (told_.size() >= most_places_told) {
      ++untold;
      continue;
    }
    const auto there = place_named(first_farm_, here.name);
    if (there && wants_water(first_farm_.places[*there])) {
      place(here, i, *there);
    } else {
      const PlaceAnswer& now = here_.answer.places[i];
      told_.push_back(fmt::format("{} is not in {}; here it gets {}{}",
                                  quoted(here.name),
                                  label_,
                                  spoken_flow(water_got_m3_s(here, now), units_),
                                  met_words(now)));
    }
  }
  for (const model::Place& before : first_farm_.places) {
    if (wants_water(before) && !place_named(farm_, before.name)) {
      told_.push_back(fmt::format("{} is not here", quoted(before.name)));
    }
  }
  if (untold > 0) {
    told_.push_back(fmt::format("{} more places are not compared here", untold));
  }
}

void Differing::ponds() {
  for (std::size_t i = 0; i < farm_.places.size(); ++i) {
    const auto there = place_named(first_farm_, farm_.places[i].name);
    const PondSeason* const now = pond_season(here_, i);
    const PondSeason* const before = there ? pond_season(first_, *there) : nullptr;
    if (now == nullptr || before == nullptr ||
        std::abs(now->lowest_m - before->lowest_m) < same_level_m) {
      continue;
    }
    told_.push_back(fmt::format("{} stands at {} at its lowest instead of {}",
                                quoted(farm_.places[i].name),
                                spoken_level(now->lowest_m, units_),
                                spoken_level(before->lowest_m, units_)));
  }
}

void Differing::lifting() {
  if (here_.energy_kWh && first_.energy_kWh &&
      differs(*here_.energy_kWh, *first_.energy_kWh, same_volume_share)) {
    told_.push_back(fmt::format(
        "pumping takes {:.0f} kWh instead of {:.0f}", *here_.energy_kWh, *first_.energy_kWh));
  }
  if (here_.wasted_m3 && first_.wasted_m3 &&
      differs(*here_.wasted_m3, *first_.wasted_m3, same_volume_share)) {
    told_.push_back(fmt::format("rams let {} run to waste instead of {}",
                                spoken_volume(*here_.wasted_m3, units_),
                                spoken_volume(*first_.wasted_m3, units_)));
  }
}

void Differing::starting() {
  if (here_.starting && first_.starting &&
      (here_.starting->need != first_.starting->need ||
       differs(here_.starting->water_m3, first_.starting->water_m3, same_volume_share))) {
    told_.push_back(fmt::format("to start its line: {}; in {}: {}",
                                starting_words(*here_.starting, units_),
                                label_,
                                starting_words(*first_.starting, units_)));
  }
  if (!(here_.parts == first_.parts)) {
    told_.push_back(fmt::format("moving parts to look after: {}; in {}: {}",
                                parts_words(here_.parts),
                                label_,
                                parts_words(first_.parts)));
  }
}

void Differing::pipe() {
  std::map<std::string, double> more_m = pipe_by_size(farm_);
  for (const auto& [size, length_m] : pipe_by_size(first_farm_)) {
    more_m[size] -= length_m;
  }
  std::vector<std::string> changes;
  for (const auto& [size, length_m] : more_m) {
    if (std::abs(length_m) > same_length_m) {
      changes.push_back(fmt::format("{} {} of {}",
                                    spoken_length(std::abs(length_m), units_),
                                    length_m > 0.0 ? "more" : "less",
                                    size));
    }
  }
  if (!changes.empty()) {
    told_.push_back(fmt::format("pipe: {}", fmt::join(changes, ", ")));
  } else if (!told_.empty()) {
    told_.emplace_back("the same pipe is enough");
  }
}

void Differing::flags() {
  const auto lacking = [this](const std::vector<Finding>& some,
                              const std::vector<Finding>& others,
                              const char* what) {
    for (const Finding& flag : some) {
      const bool same = std::any_of(others.begin(), others.end(), [&flag](const Finding& other) {
        return other.code == flag.code && other.where == flag.where &&
               other.severity == flag.severity;
      });
      if (flag.severity != Severity::Note && !same) {
        told_.push_back(fmt::format("{} {}: {} at {}",
                                    what,
                                    word_of(flag.severity),
                                    word_of(flag.code),
                                    quoted(flag.where)));
      }
    }
  };
  lacking(first_.flags, here_.flags, "no more");
  lacking(here_.flags, first_.flags, "new");
}

}  // namespace

std::string share_words(double share) {
  const double percent = share < met_limit ? std::floor(share * 100.0) : 100.0;
  return fmt::format("{:.0f} %", percent);
}

std::string parts_words(const MovingParts& parts) {
  std::vector<std::string> words;
  const auto add = [&words](int count, const char* one, const char* many) {
    if (count > 0) {
      words.push_back(count_words(count, one, many));
    }
  };
  add(parts.floats, "float", "floats");
  add(parts.foot_valves, "foot valve", "foot valves");
  add(parts.checks, "check", "checks");
  add(parts.regulators, "regulator", "regulators");
  add(parts.rams, "ram", "rams");
  add(parts.pumps, "pump", "pumps");
  return words.empty() ? "none" : fmt::format("{}", fmt::join(words, ", "));
}

std::string starting_words(const StartingEffort& effort, model::UnitSystem units) {
  switch (effort.need) {
    case PrimeNeed::FillsItself:
      return "fills itself";
    case PrimeNeed::ByHand:
      return fmt::format("by hand, {}", spoken_volume(effort.water_m3, units));
    case PrimeNeed::CannotHold:
      return "cannot hold";
  }
  return "";
}

std::vector<Difference> differences(const std::vector<const model::Farm*>& farms,
                                    const Comparison& comparison,
                                    const std::string& first,
                                    model::UnitSystem units) {
  std::vector<Difference> all;
  const auto solved = [&comparison](std::size_t farm) {
    return comparison.farms.at(farm).answer.converged;
  };
  for (std::size_t i = 1; i < farms.size() && solved(0); ++i) {
    if (!solved(i)) {
      continue;
    }
    Differing differing(
        *farms[0], comparison.farms[0], *farms[i], comparison.farms[i], first, units);
    for (std::string& text : differing.sentences()) {
      all.push_back({i, std::move(text)});
    }
  }
  return all;
}

}  // namespace leat::solver
