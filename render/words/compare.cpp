#include "render/words/compare.h"

#include <cmath>
#include <cstdlib>
#include <variant>
#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "model/quantity/spoken_amount.h"
#include "render/words/quoted.h"

namespace leat::render {

namespace {

std::string count_words(int count, const char* one, const char* many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

/// ", all it needs"; empty without a need.
std::string of_need(const std::optional<double>& met) {
  if (!met) {
    return "";
  }
  return *met >= solver::met_limit ? ", all it needs"
                                   : fmt::format(", {} of its need", share_words(*met));
}

class DifferenceWriter {
 public:
  DifferenceWriter(const std::string& first, model::UnitSystem units)
      : first_(first), units_(units) {}

  std::string operator()(const solver::WaterDiffers& water) const {
    return fmt::format("{} reach troughs, outlets and ponds instead of {}",
                       solver::spoken_flow(water.here_m3_s, units_),
                       solver::spoken_flow(water.there_m3_s, units_));
  }
  std::string operator()(const solver::MetDiffers& met) const {
    return fmt::format(
        "{} of all needs is met instead of {}", share_words(met.here), share_words(met.there));
  }
  std::string operator()(const solver::DryHoursDiffer& hours) const {
    return fmt::format(
        "{:.0f} hours dry, all troughs together, instead of {:.0f}", hours.here_h, hours.there_h);
  }
  std::string operator()(const solver::PlaceGets& gets) const {
    return fmt::format("'{}' gets {} instead of {}{}",
                       gets.place,
                       solver::spoken_flow(gets.here_m3_s, units_),
                       solver::spoken_flow(gets.there_m3_s, units_),
                       of_need(gets.met));
  }
  std::string operator()(const solver::FirstDryDay& day) const {
    if (!day.here) {
      return fmt::format(
          "'{}' never goes short; in {} it does on {}", day.place, first_, date_text(*day.there));
    }
    if (!day.there) {
      return fmt::format(
          "'{}' goes short on {}; in {} it never does", day.place, date_text(*day.here), first_);
    }
    const int days = day_number(*day.here) - day_number(*day.there);
    return fmt::format("'{}' first goes short on {}, {} {}",
                       day.place,
                       date_text(*day.here),
                       count_words(std::abs(days), "day", "days"),
                       days > 0 ? "later" : "earlier");
  }
  std::string operator()(const solver::PlaceAdded& added) const {
    return fmt::format("'{}' is not in {}; here it gets {}{}",
                       added.place,
                       first_,
                       solver::spoken_flow(added.here_m3_s, units_),
                       of_need(added.met));
  }
  std::string operator()(const solver::PlaceMissing& missing) const {
    return fmt::format("'{}' is not here", missing.place);
  }
  std::string operator()(const solver::PlacesLeftOut& left) const {
    return fmt::format("{} more places are not compared here", left.count);
  }
  std::string operator()(const solver::LowestLevel& lowest) const {
    return fmt::format("'{}' stands at {} at its lowest instead of {}",
                       lowest.pond,
                       solver::spoken_level(lowest.here_m, units_),
                       solver::spoken_level(lowest.there_m, units_));
  }
  std::string operator()(const solver::EnergyDiffers& energy) const {
    return fmt::format(
        "pumping takes {:.0f} kWh instead of {:.0f}", energy.here_kWh, energy.there_kWh);
  }
  std::string operator()(const solver::WasteDiffers& waste) const {
    return fmt::format("rams let {} run to waste instead of {}",
                       solver::spoken_volume(waste.here_m3, units_),
                       solver::spoken_volume(waste.there_m3, units_));
  }
  std::string operator()(const solver::StartingDiffers& starting) const {
    return fmt::format("to start its line: {}; in {}: {}",
                       starting_words(starting.here, units_),
                       first_,
                       starting_words(starting.there, units_));
  }
  std::string operator()(const solver::PartsDiffer& parts) const {
    return fmt::format("moving parts to look after: {}; in {}: {}",
                       parts_words(parts.here),
                       first_,
                       parts_words(parts.there));
  }
  std::string operator()(const solver::PipeDiffers& pipe) const {
    std::vector<std::string> changes;
    for (const solver::PipeDiffers::Size& size : pipe.sizes) {
      changes.push_back(fmt::format("{} {} of {}",
                                    solver::spoken_length(std::abs(size.more_m), units_),
                                    size.more_m > 0.0 ? "more" : "less",
                                    size.size));
    }
    return fmt::format("pipe: {}", fmt::join(changes, ", "));
  }
  std::string operator()(const solver::SamePipe&) const { return "the same pipe is enough"; }
  std::string operator()(const solver::FlagDiffers& flag) const {
    return fmt::format("{} {}: {} at '{}'",
                       flag.is_here ? "new" : "no more",
                       word_of(flag.severity),
                       solver::word_of(flag.code),
                       flag.where);
  }
  std::string operator()(const solver::NothingDiffers&) const {
    return fmt::format("nothing differs from {} that leat can tell", first_);
  }

 private:
  const std::string& first_;
  model::UnitSystem units_;
};

}  // namespace

std::string difference_words(const solver::Difference& difference,
                             const std::string& first,
                             model::UnitSystem units) {
  return std::visit(DifferenceWriter(first, units), difference.what);
}

std::string parts_words(const solver::MovingParts& parts) {
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

std::string starting_words(const solver::StartingEffort& effort, model::UnitSystem units) {
  switch (effort.need) {
    case solver::PrimeNeed::FillsItself:
      return "fills itself";
    case solver::PrimeNeed::ByHand:
      return fmt::format("by hand, {}", solver::spoken_volume(effort.water_m3, units));
    case solver::PrimeNeed::CannotHold:
      return "cannot hold";
  }
  return "";
}

std::string share_words(double share) {
  return fmt::format("{:.0f} %", solver::percent_met(share));
}

}  // namespace leat::render
