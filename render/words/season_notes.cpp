#include "render/words/season_notes.h"

#include <array>
#include <cstddef>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "render/words/frost.h"
#include "render/words/weather.h"

namespace leat::render {

namespace {

using model::GapRule;
using solver::SeriesKind;

/// "Jan to Mar, Jun": months that follow each other are drawn together.
std::string months_text(const std::array<bool, 12>& months) {
  std::vector<std::string> parts;
  for (std::size_t first = 0; first < months.size(); ++first) {
    if (!months[first]) {
      continue;
    }
    std::size_t last = first;
    while (last + 1 < months.size() && months[last + 1]) {
      ++last;
    }
    parts.push_back(first == last ? std::string(model::month_names[first])
                                  : fmt::format("{} {} {}",
                                                model::month_names[first],
                                                last == first + 1 ? "and" : "to",
                                                model::month_names[last]));
    first = last;
  }
  return fmt::format("{}", fmt::join(parts, ", "));
}

std::string series_text(const solver::SeriesName& series) {
  switch (series.kind) {
    case SeriesKind::Yield:
      return "Yield of " + series.place;
    case SeriesKind::Surface:
      return "Surface of " + series.place;
    case SeriesKind::CreekFlow:
      return "Flow of " + series.place;
    case SeriesKind::SpareWater:
      return "Spare water of " + series.place;
    case SeriesKind::Need:
      return "Need of " + series.place;
    case SeriesKind::WishedFlow:
      return "Wished flow of " + series.place;
    case SeriesKind::Heads:
      return fmt::format("Heads of {} at {}", series.animal, series.place);
    case SeriesKind::WaterTemperature:
      return "Water temperature";
    case SeriesKind::LowestAir:
      return "Lowest air temperature";
    case SeriesKind::HighestAir:
      return "Highest air temperature";
    case SeriesKind::Rain:
      return "Rain";
    case SeriesKind::RainDays:
      return "Days with rain";
    case SeriesKind::PanEvaporation:
      return "Evaporation of the pan";
    case SeriesKind::Wind:
      return "Wind";
    case SeriesKind::Humidity:
      return "Humidity";
    case SeriesKind::Sunshine:
      return "Sunshine";
  }
  return "";
}

std::string note_text(const solver::MonthsFilled& note, model::UnitSystem) {
  const char* taken = note.rule == GapRule::Lower    ? "the lower of the months around them"
                      : note.rule == GapRule::Higher ? "the higher of the months around them"
                                                     : "the straight line between the months given";
  return fmt::format("{}: nothing given for {}; taken as {}.",
                     series_text(note.series),
                     months_text(note.months),
                     taken);
}

std::string note_text(const solver::BeyondRecord& note, model::UnitSystem) {
  return fmt::format(
      "{}: measured from {} to {}; outside these dates each month takes the {} of what was "
      "measured in it.",
      series_text(note.series),
      model::date_text(note.first),
      model::date_text(note.last),
      note.rule == GapRule::Straight ? "mean" : "lowest");
}

std::string note_text(const solver::RecordGap& note, model::UnitSystem) {
  return fmt::format(
      "{}: nothing measured between {} and {}; taken as the straight "
      "line between the two.",
      series_text(note.series),
      model::date_text(note.from),
      model::date_text(note.to));
}

std::string note_text(const solver::PumpAroundNoon& note, model::UnitSystem) {
  return fmt::format("{}: its hours are taken as lying around noon, as the sun's do", note.pump);
}

std::string note_text(const solver::ShortAtAnyYield& note, model::UnitSystem) {
  return fmt::format("{} is short whatever {} yields", note.place, note.spring);
}

std::string note_text(const solver::StoreNote& note, model::UnitSystem) {
  using Taken = solver::StoreNote::Taken;
  switch (note.taken) {
    case Taken::SpillsAtTop:
      return fmt::format("{}: no spill level given: it runs over at the top of its shape",
                         note.place);
    case Taken::BrimFull:
      return fmt::format("{}: its surface stands above where it spills: it begins brim full",
                         note.place);
    case Taken::Empty:
      return fmt::format("{}: its surface stands below its bottom: it begins empty", note.place);
    case Taken::HoldsNothing:
      return fmt::format(
          "{} has no diameter, area or volume: it is taken to hold nothing, so what comes "
          "goes on at once or runs over",
          note.place);
    case Taken::Full:
      return fmt::format("{} settles by itself: it begins full", note.place);
  }
  return note.place;
}

}  // namespace

std::string season_note_text(const solver::SeasonNote& note, model::UnitSystem units) {
  return std::visit([units](const auto& told) { return note_text(told, units); }, note);
}

std::vector<std::string> season_note_texts(const std::vector<solver::SeasonNote>& notes,
                                           model::UnitSystem units) {
  std::vector<std::string> texts;
  for (const solver::SeasonNote& note : notes) {
    texts.push_back(season_note_text(note, units));
  }
  return texts;
}

}  // namespace leat::render
