#include "render/words/weather.h"

#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "model/quantity/quantity.h"

namespace leat::render {

namespace {

using solver::EvaporationMethod;

constexpr double mm_per_inch = 25.4;

std::string depth_a_day(double mm_per_day, model::UnitSystem units) {
  return units == model::UnitSystem::Us ? fmt::format("{:.3g} in", mm_per_day / mm_per_inch)
                                        : fmt::format("{:.3g} mm", mm_per_day);
}

std::string days_text(int days) {
  return days == 1 ? "1 day" : fmt::format("{} days", days);
}

/// "on 3 of 184 days ", or nothing where it is every day.
std::string on_days(const solver::DayCount& count) {
  return count.days == count.of ? std::string()
                                : fmt::format("on {} of {} ", count.days, days_text(count.of));
}

std::string method_text(EvaporationMethod method, double pan_coefficient) {
  switch (method) {
    case EvaporationMethod::Pan:
      return fmt::format("what the pan loses times {:g}", pan_coefficient);
    case EvaporationMethod::PenmanMonteith:
      return "1.05 times the reference of FAO-56 Penman-Monteith (of sun, wind and humidity, "
             "what "
             "is not told is guessed as FAO-56 says)";
    case EvaporationMethod::Hargreaves:
      return "1.05 times the reference of Hargreaves (FAO-56 equation 52), from temperatures and "
             "latitude alone";
    case EvaporationMethod::Nothing:
      break;
  }
  return "left out, as nothing tells of it";
}

}  // namespace

std::string note_text(const solver::EvaporationLeftOut& note, model::UnitSystem) {
  return note.lacks_latitude_alone
             ? "Evaporation is left out: it needs the site's latitude besides the temperatures, "
               "or "
               "the evaporation of a pan."
             : "Evaporation is left out: give weather the evaporation of a pan, or tmin and tmax "
               "and the site its latitude.";
}

std::string note_text(const solver::EvaporationReckoned& note, model::UnitSystem) {
  std::vector<std::string> parts;
  for (std::size_t i = 0; i < note.days_by_method.size(); ++i) {
    const int days = note.days_by_method[i];
    if (days > 0) {
      const std::string how = method_text(static_cast<EvaporationMethod>(i), note.pan_coefficient);
      parts.push_back(days == note.days ? how : fmt::format("on {} {}", days_text(days), how));
    }
  }
  return fmt::format("Evaporation of ponds is {}.", fmt::join(parts, "; "));
}

std::string note_text(const solver::RainUntold& note, model::UnitSystem) {
  return fmt::format("Rain: {}nothing tells of it; none is counted.", on_days(note.days));
}

std::string note_text(const solver::WeatherBridged& note, model::UnitSystem) {
  return fmt::format(
      "Weather: {}what was not measured is taken as the straight line between the "
      "days around it (gaps of at most {} days).",
      on_days(note.days),
      note.widest_days);
}

std::string note_text(const solver::StormsByMonth& note, model::UnitSystem) {
  return fmt::format(
      "Runoff: {}the month's rain falls in equal rains, one on each of its rain days, evenly "
      "spaced; unequal rains run off more.",
      on_days(note.days));
}

std::string note_text(const solver::RunoffUncounted& note, model::UnitSystem) {
  return fmt::format(
      "Runoff: {}only the month's rain is known, so none is counted: add 'rain "
      "days' by month, or rain by the day.",
      on_days(note.days));
}

std::string note_text(const solver::WarmthUntold& note, model::UnitSystem) {
  return fmt::format(
      "What stock drink: {}no air temperature is known; a summer day's amount is taken.",
      on_days(note.days));
}

std::string note_text(const solver::PondWithoutShape& note, model::UnitSystem) {
  return fmt::format(
      "{} has no 'shape': its surface is taken as written, whatever seeps, runs in or is "
      "drunk.",
      note.pond);
}

std::string note_text(const solver::SeepageLeftOut& note, model::UnitSystem) {
  return fmt::format("Seepage of {} is left out: give it a rate or its soil.", note.pond);
}

std::string note_text(const solver::SeepageOfSoil& note, model::UnitSystem units) {
  return fmt::format(
      "Seepage of {}: {} a day, the middle of what {} lets through "
      "({} to {}); the true one may lie anywhere between.",
      note.pond,
      depth_a_day(note.middle_mm_day, units),
      note.soil,
      depth_a_day(note.low_mm_day, units),
      depth_a_day(note.high_mm_day, units));
}

std::string note_text(const solver::BedLoses& note, model::UnitSystem units) {
  const bool is_us = units == model::UnitSystem::Us;
  return fmt::format(
      "{}: {} a day through its bed is {}; a sound pond loses up to {}. Have the bed looked at "
      "before more water is led there.",
      note.pond,
      is_us ? fmt::format("{:.1f} in", in_feet(metres(note.a_day_m)) * 12.0)
            : fmt::format("{:.0f} mm", 1e3 * note.a_day_m),
      note.is_leak ? "a leak" : "much",
      is_us ? "1/4 in" : "6 mm");
}

}  // namespace leat::render
