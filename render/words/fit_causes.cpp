#include "render/words/fit_causes.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"

namespace leat::render {

namespace {

/// That the readings alone are off is told from this chance on.
constexpr double least_chance_of_reading_errors = 0.05;

/// A plain number with two or three figures.
std::string plain_figure(double value) {
  const double size = std::abs(value);
  return fmt::format("{:.{}f}", value, size < 0.995 ? 2 : (size < 9.95 ? 1 : 0));
}

std::string spoken_size(const model::Farm& farm,
                        const solver::FitAnswer& answer,
                        const solver::FittedCause& cause,
                        double size,
                        model::UnitSystem units) {
  switch (cause.site.kind) {
    case solver::CauseKind::BlockedScreen:
    case solver::CauseKind::KinkedPipe:
      return fmt::format("K {}", plain_figure(size));
    case solver::CauseKind::SiltedPipe:
    case solver::CauseKind::ValveNotOpen:
      return fmt::format("{:.0f} %", size * 100.0);
    case solver::CauseKind::TrappedAir:
      return solver::spoken_length(size, units);
    case solver::CauseKind::LevelWrong:
    case solver::CauseKind::PipeEndWrong:
      return solver::spoken_length(std::abs(size), units) + (size < 0.0 ? " lower" : " higher");
    case solver::CauseKind::WaterColder:
      return units == model::UnitSystem::Us ? fmt::format("{:.0f} F", size * 1.8)
                                            : fmt::format("{:.0f} C", size);
    case solver::CauseKind::SpringWeaker:
    case solver::CauseKind::LeakAtTee:
      return solver::spoken_flow(solver::told_size(farm, answer, cause, size), units);
  }
  return "";
}

/// What is supposed, without its size: "the screen or foot valve at the start of main is blocked".
std::string supposed(const model::Farm& farm,
                     const solver::FitSite& site,
                     const std::string& size) {
  const std::string where = where_of(farm, site);
  switch (site.kind) {
    case solver::CauseKind::BlockedScreen:
      return fmt::format(
          "a screen or foot valve blocked to an extra {} at the start of {}", size, where);
    case solver::CauseKind::KinkedPipe:
      return fmt::format("a kink or a lodged stone worth an extra {} somewhere in {}", size, where);
    case solver::CauseKind::SiltedPipe:
      return fmt::format("{} of the bore of {} lost to silt, scale or slime", size, where);
    case solver::CauseKind::TrappedAir:
      return fmt::format("a pocket of air {} high behind the high point of {}", size, where);
    case solver::CauseKind::ValveNotOpen:
      return fmt::format("the valve of {} standing {} open", where, size);
    case solver::CauseKind::LevelWrong:
      return fmt::format("{} standing {} than the file says", where, size);
    case solver::CauseKind::PipeEndWrong:
      return fmt::format("the end of {} standing {} than the file says", where, size);
    case solver::CauseKind::WaterColder:
      return fmt::format("water {} colder than the file says", size);
    case solver::CauseKind::SpringWeaker:
      return fmt::format("{} yielding {} less than the file says", where, size);
    case solver::CauseKind::LeakAtTee:
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

/// The other pipes or places where the same thing, of its own size there, may sit.
std::string elsewhere_words(const model::Farm& farm,
                            const solver::FitEntry& entry,
                            const solver::Alternative& alternative) {
  std::vector<std::string> others;
  for (const std::size_t cause : alternative.elsewhere) {
    others.push_back(where_of(farm, entry.causes[cause].site));
  }
  return others.empty() ? "" : fmt::format(" (or the like at {})", joined_by_or(others));
}

/// How likely an entry is, and which others the readings do not tell from it.
std::string likely_words(const solver::FitAnswer& answer, const solver::FitEntry& entry) {
  std::string text = fmt::format(": {} likely", spoken_chance(entry.chance));
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

}  // namespace

std::string_view name_of(solver::CauseKind kind) {
  switch (kind) {
    case solver::CauseKind::BlockedScreen:
      return "blocked screen";
    case solver::CauseKind::KinkedPipe:
      return "kinked pipe";
    case solver::CauseKind::SiltedPipe:
      return "silted pipe";
    case solver::CauseKind::TrappedAir:
      return "trapped air";
    case solver::CauseKind::ValveNotOpen:
      return "valve not fully open";
    case solver::CauseKind::LevelWrong:
      return "level surveyed wrong";
    case solver::CauseKind::PipeEndWrong:
      return "pipe end surveyed wrong";
    case solver::CauseKind::WaterColder:
      return "water colder";
    case solver::CauseKind::SpringWeaker:
      return "spring weaker";
    case solver::CauseKind::LeakAtTee:
      return "leak";
  }
  return "";
}

std::string names_of(const solver::FitEntry& entry) {
  std::vector<std::string> names;
  for (const solver::Alternative& alternative : solver::alternatives_of(entry)) {
    names.emplace_back(name_of(entry.causes[alternative.cause].site.kind));
  }
  return joined_by_or(names);
}

std::vector<std::string> places_of(const model::Farm& farm, const solver::FitEntry& entry) {
  std::vector<std::string> places;
  for (const std::size_t cause : solver::distinct_spots(entry)) {
    places.push_back(where_of(farm, entry.causes[cause].site));
  }
  return places;
}

std::string where_of(const model::Farm& farm, const solver::FitSite& site) {
  if (site.kind == solver::CauseKind::WaterColder) {
    return "water";
  }
  return site.at_pipe ? farm.pipes[site.index].name : farm.places[site.index].name;
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

std::string EntrySentence::text() const {
  std::string all;
  for (std::size_t i = 0; i < alternatives.size(); ++i) {
    all += (i == 0 ? "" : ", or ") + alternatives[i];
  }
  return all + likely;
}

EntrySentence sentence_of_entry(const model::Farm& farm,
                                const solver::FitAnswer& answer,
                                std::size_t index,
                                model::UnitSystem units) {
  const solver::FitEntry& entry = answer.result.entries[index];
  const auto size = [&](const solver::FittedCause& cause, double value) {
    return spoken_size(farm, answer, cause, value, units);
  };
  EntrySentence sentence;
  for (const solver::Alternative& alternative : solver::alternatives_of(entry)) {
    const solver::FittedCause& cause = entry.causes[alternative.cause];
    std::string text = supposed(farm, cause.site, size(cause, cause.size));
    if (alternative.cause == 0) {
      const std::string low = size(cause, cause.low);
      const std::string high = size(cause, cause.high);
      text += low != high ? fmt::format(" ({} to {})", low, high) : "";
      text = (entry.line ? fmt::format("somewhere in the line from {} to {}: ",
                                       farm.places[entry.line->from].name,
                                       farm.places[entry.line->to].name)
                         : "") +
             text;
    }
    sentence.alternatives.push_back(text + elsewhere_words(farm, entry, alternative));
  }
  sentence.likely = likely_words(answer, entry);
  return sentence;
}

std::string fit_verdict(const solver::FitAnswer& answer) {
  const solver::FitResult& result = answer.result;
  switch (result.verdict) {
    case solver::FitVerdict::NothingGiven:
      return "The file holds no measurement: there is nothing to explain.";
    case solver::FitVerdict::Agrees:
      return "The readings agree with the file within their errors: there is nothing to explain.";
    case solver::FitVerdict::Unexplained:
      return "No single cause explains the readings. Two things may be wrong at once, or a reading "
             "or a figure of the file is; what comes nearest is listed, and is not to be trusted.";
    case solver::FitVerdict::Explained:
      break;
  }
  if (answer.given.size() == 1) {
    return "One reading cannot say which: each of these alone would explain it.";
  }
  const solver::FitEntry& first = result.entries.front();
  std::string text = "Several causes explain the readings.";
  if (result.one_stands_out) {
    text = fmt::format("One {} explains the readings far better than the others.",
                       first.line ? "line" : (first.causes.size() > 1 ? "place" : "cause"));
  }
  if (result.chance_of_reading_errors > least_chance_of_reading_errors) {
    text += fmt::format(" It may be the readings alone: {} likely.",
                        spoken_chance(result.chance_of_reading_errors));
  }
  return text;
}

}  // namespace leat::render
