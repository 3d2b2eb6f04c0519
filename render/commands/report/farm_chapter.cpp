#include <algorithm>
#include <array>
#include <optional>

#include <fmt/format.h>

#include "model/keys/measured.h"
#include "render/commands/read/place_reading.h"
#include "render/commands/report/chapters.h"
#include "render/commands/solve/table_report.h"
#include "render/words/number_text.h"
#include "render/words/season_words.h"

namespace leat::render::report {

namespace {

/// "2 springs, 1 pond, 5 pipes, 430 m in all".
std::string what_it_has(const Subject& subject) {
  constexpr std::array<std::string_view, 7> kinds = {
      "spring", "creek", "pond", "tank", "trough", "outlet", "tee"};
  std::vector<std::string> parts;
  for (const std::string_view kind : kinds) {
    const auto count = static_cast<std::size_t>(std::count_if(
        subject.farm.places.begin(), subject.farm.places.end(), [kind](const model::Place& place) {
          return kind == kind_word(place);
        }));
    if (count > 0) {
      parts.push_back(counted(count, kind));
    }
  }
  if (!subject.farm.pumps.empty()) {
    parts.push_back(counted(subject.farm.pumps.size(), "pump"));
  }
  if (!subject.farm.rams.empty()) {
    parts.push_back(counted(subject.farm.rams.size(), "ram"));
  }
  Length all = metres(0.0);
  for (const model::Pipe& pipe : subject.farm.pipes) {
    all = all + pipe.length;
  }
  parts.push_back(fmt::format("{} ({} {} in all)",
                              counted(subject.farm.pipes.size(), "pipe"),
                              length_number_text(all, subject.units),
                              length_unit(subject.units)));
  return joined_names(parts);
}

std::string site_words(const Subject& subject) {
  const model::Site& site = subject.farm.site;
  const auto [coldest, warmest] =
      std::minmax_element(site.water.by_month.begin(), site.water.by_month.end());
  const std::string water =
      site.water.varies ? fmt::format("{} to {} {} by month",
                                      temperature_number_text(*coldest, subject.units),
                                      temperature_number_text(*warmest, subject.units),
                                      temperature_unit(subject.units))
                        : fmt::format("{} {}",
                                      temperature_number_text(site.water.at({}), subject.units),
                                      temperature_unit(subject.units));
  const bool is_us = subject.units == model::UnitSystem::Us;
  return fmt::format("{} {} above the sea; air pressure {} {}{}; water {}",
                     decimal_text(is_us ? in_feet(site.altitude) : in_metres(site.altitude), 0),
                     length_unit(subject.units),
                     pressure_number_text(air_pressure_of(site), subject.units),
                     pressure_unit(subject.units),
                     site.air_pressure ? "" : " (standard air)",
                     water);
}

std::string days_measured(const model::Farm& farm) {
  std::optional<model::Date> first;
  std::optional<model::Date> last;
  for (const model::Measurement& each : farm.measured) {
    if (each.on) {
      first = first ? std::min(*first, *each.on) : *each.on;
      last = last ? std::max(*last, *each.on) : *each.on;
    }
  }
  if (!first) {
    return farm.measured.empty() ? "no measurement stands in the file" : "on days not said";
  }
  return *first == *last
             ? model::date_text(*first)
             : fmt::format("{} to {}", model::date_text(*first), model::date_text(*last));
}

/// The least a reader must know who reads no further.
std::string in_short(const Subject& subject) {
  std::vector<solver::Finding> flags = subject.answer.flags;
  std::string season;
  if (subject.season != nullptr) {
    flags.insert(flags.end(), subject.season->flags.begin(), subject.season->flags.end());
    season = ' ' + season_verdict(subject.farm, *subject.season);
  }
  const auto count_of = [&flags](solver::Severity severity) {
    return static_cast<std::size_t>(
        std::count_if(flags.begin(), flags.end(), [severity](const auto& flag) {
          return flag.severity == severity;
        }));
  };
  const std::size_t dangers = count_of(solver::Severity::Danger);
  const std::size_t cautions = count_of(solver::Severity::Caution);
  if (dangers + cautions == 0) {
    return std::string(nothing_amiss) + season;
  }
  return fmt::format(
      "{} and {} are flagged.{}", counted(dangers, "danger"), counted(cautions, "caution"), season);
}

}  // namespace

Chapter farm_chapter(const Subject& subject) {
  const model::Farm& farm = subject.farm;
  const std::string unsaid = "not said in the file";
  Facts facts;
  facts.rows = {{"In short", in_short(subject)},
                {"Farm", farm.name},
                {"Report of", subject.date},
                {"What it has", what_it_has(subject)},
                {"Levels are above", farm.datum.value_or(unsaid)},
                {"Measured by", farm.surveyed_by.value_or(unsaid)},
                {"Levels taken with",
                 farm.surveyed_with == model::Instrument::Unsaid
                     ? unsaid
                     : std::string(model::word_of(farm.surveyed_with))},
                {"Flows and pressures measured", days_measured(farm)},
                {"Site", site_words(subject)},
                {"Computed for", case_text(farm, subject.answer)},
                {"Figures", units_text(farm, subject.units)}};
  return {"farm", "The farm", {facts}};
}

}  // namespace leat::render::report
