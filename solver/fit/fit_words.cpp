#include "solver/fit/fit_words.h"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"

namespace leat::solver {

namespace {

using Kind = model::Measurement::Kind;

constexpr std::size_t most_looks = 4;

/// A plain number with two or three figures.
std::string figure(double value) {
  const double size = std::abs(value);
  return fmt::format("{:.{}f}", value, size < 0.995 ? 2 : (size < 9.95 ? 1 : 0));
}

std::string spoken_size(const model::Farm& farm,
                        const FitAnswer& answer,
                        const FittedCause& cause,
                        double size,
                        model::UnitSystem units) {
  switch (cause.site.kind) {
    case CauseKind::BlockedScreen:
    case CauseKind::KinkedPipe:
      return fmt::format("K {}", figure(size));
    case CauseKind::SiltedPipe:
    case CauseKind::ValveNotOpen:
      return fmt::format("{:.0f} %", size * 100.0);
    case CauseKind::TrappedAir:
      return spoken_length(size, units);
    case CauseKind::LevelWrong:
    case CauseKind::PipeEndWrong:
      return spoken_length(std::abs(size), units) + (size < 0.0 ? " lower" : " higher");
    case CauseKind::WaterColder:
      return units == model::UnitSystem::Us ? fmt::format("{:.0f} F", size * 1.8)
                                            : fmt::format("{:.0f} C", size);
    case CauseKind::SpringWeaker:
    case CauseKind::LeakAtTee:
      return spoken_flow(size_in_json(farm, answer, cause, size) * 1e-3, units);
  }
  return "";
}

/// What is supposed, without its size: "the screen or foot valve at the start of main is blocked".
std::string supposed(const model::Farm& farm, const FitSite& site, const std::string& size) {
  const std::string where = where_of(farm, site);
  switch (site.kind) {
    case CauseKind::BlockedScreen:
      return fmt::format(
          "a screen or foot valve blocked to an extra {} at the start of {}", size, where);
    case CauseKind::KinkedPipe:
      return fmt::format("a kink or a lodged stone worth an extra {} somewhere in {}", size, where);
    case CauseKind::SiltedPipe:
      return fmt::format("{} of the bore of {} lost to silt, scale or slime", size, where);
    case CauseKind::TrappedAir:
      return fmt::format("a pocket of air {} high behind the high point of {}", size, where);
    case CauseKind::ValveNotOpen:
      return fmt::format("the valve of {} standing {} open", where, size);
    case CauseKind::LevelWrong:
      return fmt::format("{} standing {} than the file says", where, size);
    case CauseKind::PipeEndWrong:
      return fmt::format("the end of {} standing {} than the file says", where, size);
    case CauseKind::WaterColder:
      return fmt::format("water {} colder than the file says", size);
    case CauseKind::SpringWeaker:
      return fmt::format("{} yielding {} less than the file says", where, size);
    case CauseKind::LeakAtTee:
      return fmt::format("a leak of {} at {}", size, where);
  }
  return "";
}

/// "a, b or c".
std::string joined_by_or(const std::vector<std::string>& texts) {
  std::string text;
  for (std::size_t i = 0; i < texts.size(); ++i) {
    text += i == 0 ? "" : (i + 1 == texts.size() ? " or " : ", ");
    text += texts[i];
  }
  return text;
}

bool first_of_its_kind(const FitEntry& entry, std::size_t index) {
  const CauseKind kind = entry.causes[index].site.kind;
  return std::none_of(entry.causes.begin(),
                      entry.causes.begin() + static_cast<std::ptrdiff_t>(index),
                      [kind](const FittedCause& cause) { return cause.site.kind == kind; });
}

/// The other pipes or places of a line where the same thing, of its own size there, may sit.
std::string elsewhere(const model::Farm& farm, const FitEntry& entry, std::size_t index) {
  std::vector<std::string> others;
  std::vector<FitSite> told{entry.causes[index].site};
  for (std::size_t i = index + 1; i < entry.causes.size(); ++i) {
    const FitSite& site = entry.causes[i].site;
    const bool is_told = std::any_of(
        told.begin(), told.end(), [&](const FitSite& one) { return same_spot(one, site); });
    if (site.kind == told.front().kind && !is_told) {
      told.push_back(site);
      others.push_back(where_of(farm, site));
    }
  }
  return others.empty() ? "" : fmt::format(" (or the like at {})", joined_by_or(others));
}

std::string sentence_of(const model::Farm& farm,
                        const FitAnswer& answer,
                        std::size_t index,
                        model::UnitSystem units) {
  const FitEntry& entry = answer.result.entries[index];
  const FittedCause& lead = entry.causes.front();
  const auto size = [&](const FittedCause& cause, double value) {
    return spoken_size(farm, answer, cause, value, units);
  };
  std::string text = entry.line ? fmt::format("somewhere in the line from {} to {}: ",
                                              farm.places[entry.line->from].name,
                                              farm.places[entry.line->to].name)
                                : "";
  text += supposed(farm, lead.site, size(lead, lead.size));
  const std::string low = size(lead, lead.low);
  const std::string high = size(lead, lead.high);
  if (low != high) {
    text += fmt::format(" ({} to {})", low, high);
  }
  text += elsewhere(farm, entry, 0);
  for (std::size_t i = 1; i < entry.causes.size(); ++i) {
    const FittedCause& cause = entry.causes[i];
    if (first_of_its_kind(entry, i)) {
      text +=
          ", or " + supposed(farm, cause.site, size(cause, cause.size)) + elsewhere(farm, entry, i);
    }
  }
  text += fmt::format(": {} likely", spoken_chance(entry.chance));
  if (!entry.alike.empty()) {
    text += fmt::format("; {} not tell it from number{} ",
                        answer.given.size() == 1 ? "this reading does" : "these readings do",
                        entry.alike.size() == 1 ? "" : "s");
    for (std::size_t i = 0; i < entry.alike.size(); ++i) {
      text += fmt::format("{}{}", i == 0 ? "" : ", ", entry.alike[i] + 1);
    }
  }
  return text;
}

std::string spot_name(const model::Farm& farm, const ReadingSpot& spot) {
  const model::Place& place = farm.places[spot.place];
  if (spot.kind == Kind::Pressure) {
    return fmt::format("the pressure at {}", place.name);
  }
  if (std::holds_alternative<model::Spring>(place.data)) {
    return fmt::format("all the water that {} gives", place.name);
  }
  return fmt::format("the flow at {}", place.name);
}

std::string look_at(const model::Farm& farm, const FitSite& site) {
  const std::string where = where_of(farm, site);
  switch (site.kind) {
    case CauseKind::BlockedScreen:
      return fmt::format("the screen at the start of {}", where);
    case CauseKind::KinkedPipe:
    case CauseKind::SiltedPipe:
      return fmt::format("{} along its length", where);
    case CauseKind::TrappedAir:
      return fmt::format("the high point of {} (bleed it)", where);
    case CauseKind::ValveNotOpen:
      return fmt::format("the valve of {}", where);
    case CauseKind::LevelWrong:
      return fmt::format("the level of {}", where);
    case CauseKind::PipeEndWrong:
      return fmt::format("the level at which {} ends", where);
    case CauseKind::WaterColder:
      return "the water's temperature";
    case CauseKind::SpringWeaker:
      return fmt::format("the yield of {}", where);
    case CauseKind::LeakAtTee:
      return fmt::format("{} for a leak", where);
  }
  return "";
}

/// What a gauge is to show: below the air's pressure the suction, and no more of it than water
/// bears before it parts, which the readings as computed do not know.
std::string gauge_to_see(double gauge_Pa, const SteadyAnswer& answer, model::UnitSystem units) {
  constexpr double least_suction_Pa = 100.0;
  const double most_suction_Pa = answer.air_pressure_Pa - answer.vapour_pressure_Pa;
  if (gauge_Pa > -least_suction_Pa) {
    return "about " + spoken_pressure(gauge_Pa, units);
  }
  if (most_suction_Pa > 0.0 && -gauge_Pa >= most_suction_Pa) {
    return fmt::format("all the suction water bears, {}, as it parts there,",
                       spoken_pressure(most_suction_Pa, units));
  }
  return fmt::format("about {} of suction", spoken_pressure(-gauge_Pa, units));
}

/// Which of the listed it is: "number 2", or where in a row that stands for several spots.
std::string which_of(const model::Farm& farm,
                     const FitResult& result,
                     const TellingReading& telling,
                     const ExpectedReading& one) {
  const auto of_its_entry = std::count_if(
      telling.expected.begin(), telling.expected.end(), [&](const ExpectedReading& other) {
        return other.entry == one.entry;
      });
  const std::string number = fmt::format("number {}", one.entry + 1);
  if (of_its_entry == 1) {
    return number;
  }
  const std::string where = where_of(farm, result.entries[one.entry].causes[one.cause].site);
  const bool is_all = static_cast<std::size_t>(of_its_entry) == telling.expected.size();
  return is_all ? "at " + where : number + " at " + where;
}

std::string reading_to_take(const model::Farm& farm,
                            const FitAnswer& answer,
                            model::UnitSystem units) {
  const FitResult& result = answer.result;
  const TellingReading& telling = result.next.front();
  std::vector<std::pair<std::string, std::string>> told;  // what is read, and of which it is so
  for (const ExpectedReading& one : telling.expected) {
    const std::string reading =
        telling.spot.kind == Kind::Pressure
            ? gauge_to_see(one.value, answer.answer, units)
            : "about " + spoken_reading(telling.spot.kind, one.value, units);
    const std::string which = which_of(farm, result, telling, one);
    const auto same = std::find_if(
        told.begin(), told.end(), [&](const auto& known) { return known.first == reading; });
    if (same == told.end()) {
      told.emplace_back(reading, which);
    } else {
      same->second += " or " + which;
    }
  }
  std::string text = fmt::format("measure {}", spot_name(farm, telling.spot));
  bool has_suction = false;
  for (std::size_t i = 0; i < told.size(); ++i) {
    has_suction = has_suction || told[i].first.find("suction") != std::string::npos;
    text += fmt::format("{}{} if it is {}", i == 0 ? ": " : ", ", told[i].first, told[i].second);
  }
  return has_suction ? text + "; that takes a gauge that reads suction too" : text;
}

std::string next_of(const model::Farm& farm, const FitAnswer& answer, model::UnitSystem units) {
  const FitResult& result = answer.result;
  if (result.verdict == FitVerdict::NothingGiven) {
    return "measure the flow at each trough, outlet and pond end with a bucket and a watch, three "
           "times each, and write it under 'measured'";
  }
  if (result.verdict == FitVerdict::Agrees) {
    return "no more is needed, as the readings and the file agree";
  }
  if (result.entries.empty()) {
    return "measure again, then the pressure at a tee halfway: more than one thing may be wrong";
  }
  std::string text;
  if (!result.next.empty()) {
    return reading_to_take(farm, answer, units);
  }
  std::vector<std::string> looks;
  for (const FitEntry& entry : result.entries) {
    if (!looks.empty() && (entry.chance <= 0.03 || looks.size() >= most_looks)) {
      break;
    }
    for (std::size_t i = 0; i < entry.causes.size() && looks.size() < most_looks; ++i) {
      if (i == 0 || !same_spot(entry.causes.front().site, entry.causes[i].site)) {
        const std::string look = look_at(farm, entry.causes[i].site);
        if (std::find(looks.begin(), looks.end(), look) == looks.end()) {
          looks.push_back(look);
        }
      }
    }
  }
  text =
      looks.size() > 1 ? "no other flow or pressure here tells them apart: look at " : "look at ";
  for (std::size_t i = 0; i < looks.size(); ++i) {
    text += (i == 0 ? "" : ", then ") + looks[i];
  }
  const FitSite& likeliest = result.entries.front().causes.front().site;
  if (likeliest.at_pipe) {
    text += fmt::format("; a gauge let into {} halfway shows on which side of it the head is lost",
                        where_of(farm, likeliest));
  }
  return text;
}

std::string verdict_of(const FitAnswer& answer) {
  const FitResult& result = answer.result;
  switch (result.verdict) {
    case FitVerdict::NothingGiven:
      return "The file holds no measurement: there is nothing to explain.";
    case FitVerdict::Agrees:
      return "The readings agree with the file within their errors: there is nothing to explain.";
    case FitVerdict::Unexplained:
      return "No single cause explains the readings. Two things may be wrong at once, or a reading "
             "or a figure of the file is; what comes nearest is listed, and is not to be trusted.";
    case FitVerdict::Explained:
      break;
  }
  if (answer.given.size() == 1) {
    return "One reading cannot say which: each of these alone would explain it.";
  }
  const FitEntry& first = result.entries.front();
  std::string text = "Several causes explain the readings.";
  if (first.chance > 0.8 && first.alike.empty()) {
    text = fmt::format("One {} explains the readings far better than the others.",
                       first.line ? "line" : (first.causes.size() > 1 ? "place" : "cause"));
  }
  if (result.chance_of_reading_errors > 0.05) {
    text += fmt::format(" It may be the readings alone: {} likely.",
                        spoken_chance(result.chance_of_reading_errors));
  }
  return text;
}

}  // namespace

std::string_view name_of(CauseKind kind) {
  switch (kind) {
    case CauseKind::BlockedScreen:
      return "blocked screen";
    case CauseKind::KinkedPipe:
      return "kinked pipe";
    case CauseKind::SiltedPipe:
      return "silted pipe";
    case CauseKind::TrappedAir:
      return "trapped air";
    case CauseKind::ValveNotOpen:
      return "valve not fully open";
    case CauseKind::LevelWrong:
      return "level surveyed wrong";
    case CauseKind::PipeEndWrong:
      return "pipe end surveyed wrong";
    case CauseKind::WaterColder:
      return "water colder";
    case CauseKind::SpringWeaker:
      return "spring weaker";
    case CauseKind::LeakAtTee:
      return "leak";
  }
  return "";
}

std::string names_of(const FitEntry& entry) {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < entry.causes.size(); ++i) {
    if (first_of_its_kind(entry, i)) {
      names.emplace_back(name_of(entry.causes[i].site.kind));
    }
  }
  return joined_by_or(names);
}

std::vector<std::string> places_of(const model::Farm& farm, const FitEntry& entry) {
  std::vector<std::string> places;
  std::vector<FitSite> told;
  for (const FittedCause& cause : entry.causes) {
    const bool is_told = std::any_of(
        told.begin(), told.end(), [&](const FitSite& one) { return same_spot(one, cause.site); });
    if (!is_told) {
      told.push_back(cause.site);
      places.push_back(where_of(farm, cause.site));
    }
  }
  return places;
}

std::string where_of(const model::Farm& farm, const FitSite& site) {
  if (site.kind == CauseKind::WaterColder) {
    return "water";
  }
  return site.at_pipe ? farm.pipes[site.index].name : farm.places[site.index].name;
}

std::string_view unit_of(CauseKind kind) {
  switch (kind) {
    case CauseKind::BlockedScreen:
    case CauseKind::KinkedPipe:
    case CauseKind::SiltedPipe:
    case CauseKind::ValveNotOpen:
      return "";
    case CauseKind::TrappedAir:
    case CauseKind::LevelWrong:
    case CauseKind::PipeEndWrong:
      return "m";
    case CauseKind::WaterColder:
      return "C";
    case CauseKind::SpringWeaker:
    case CauseKind::LeakAtTee:
      return "L/s";
  }
  return "";
}

double size_in_json(const model::Farm& farm,
                    const FitAnswer& answer,
                    const FittedCause& cause,
                    double size) {
  if (cause.site.kind == CauseKind::LeakAtTee) {
    return size * 1e3;
  }
  if (cause.site.kind == CauseKind::SpringWeaker && !answer.spots.empty()) {
    const auto& spring = std::get<model::Spring>(farm.places[cause.site.index].data);
    return size * in_litres_per_second(spring.yield.at(answer.spots.front().month));
  }
  return size;
}

std::string spoken_chance(double chance) {
  const double percent = chance * 100.0;
  if (percent < 1.0) {
    return "less than 1 %";
  }
  if (percent > 99.0) {
    return "more than 99 %";
  }
  return fmt::format("{:.0f} %", percent);
}

std::string spoken_reading(Kind kind, double value, model::UnitSystem units) {
  switch (kind) {
    case Kind::Flow:
      return spoken_flow(value, units);
    case Kind::Pressure:
      return spoken_pressure(value, units);
    case Kind::Level:
      return spoken_level(value, units);
  }
  return "";
}

void write_fit_sentences(const model::Farm& farm, model::UnitSystem units, FitAnswer& answer) {
  answer.verdict = verdict_of(answer);
  for (std::size_t i = 0; i < answer.result.entries.size(); ++i) {
    answer.sentences.push_back(sentence_of(farm, answer, i, units));
  }
  answer.next = next_of(farm, answer, units);
}

}  // namespace leat::solver
