#include "render/words/season_words.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <variant>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "render/commands/season/season_columns.h"
#include "render/words/number_text.h"
#include "render/words/table_cells.h"

namespace leat::render {

namespace {

constexpr int hours_of_day = 24;
/// An hour's need counts as met, and a trough as dry, from these shares on; common practice, no
/// source. Wider than "starved" and "dry" of OUTPUT.md: an hour blurs its two ends.
constexpr double works = 0.95;
constexpr double is_dry = 0.10;

double overlap(double a_from, double a_to, double b_from, double b_to) {
  return std::max(0.0, std::min(a_to, b_to) - std::max(a_from, b_from));
}

/// Whether stock drink in an hour of the day: the trough's clock ranges; else `within` around noon.
bool drinks_in(const model::Trough& trough, int hour) {
  const double from = hour;
  const double to = hour + 1;
  const auto hours_in = [&](double begin, double end) {
    return end > begin ? overlap(from, to, begin, end)
                       : overlap(from, to, begin, hours_of_day) + overlap(from, to, 0.0, end);
  };
  if (trough.drinks.empty()) {
    const double half = in_hours(trough.within) / 2.0;
    return overlap(from, to, 12.0 - half, 12.0 + half) > 1e-9;
  }
  return std::any_of(
      trough.drinks.begin(), trough.drinks.end(), [&](const model::ClockRange& range) {
        return hours_in(in_hours(range.from), in_hours(range.to)) > 1e-9;
      });
}

/// The hours of a day as a trough sees them: where it first works, then goes short, and, where it
/// does, works again.
struct DayCourse {
  int works_from = 0;
  int short_from = 0;
  int least_from = 0;  // hour of least water after it
  double least = 1.0;
  int again_from = hours_of_day;  // 24: not before the day is over
};

std::optional<DayCourse> course_of(const model::Trough* trough, const std::vector<double>& met) {
  if (met.size() != static_cast<std::size_t>(hours_of_day)) {
    return std::nullopt;
  }
  std::optional<DayCourse> course;
  enum class Looking { Works, Short, Again } looking = Looking::Works;
  for (int hour = 0; hour < hours_of_day; ++hour) {
    const double share = met[static_cast<std::size_t>(hour)];
    if (!std::isfinite(share) || (trough != nullptr && !drinks_in(*trough, hour))) {
      continue;
    }
    if (looking == Looking::Works && share >= works) {
      course = DayCourse{};
      course->works_from = hour;
      looking = Looking::Short;
    } else if (looking == Looking::Short && share < works) {
      course->short_from = hour;
      course->least_from = hour;
      course->least = share;
      looking = Looking::Again;
    } else if (looking == Looking::Again && share < works) {
      const bool reaches_dry = course->least > is_dry && share <= is_dry;
      if (reaches_dry || (course->least > is_dry && share < course->least)) {
        course->least_from = hour;
      }
      course->least = std::min(course->least, share);
      course->again_from = hours_of_day;
    } else if (looking == Looking::Again && course->again_from == hours_of_day) {
      course->again_from = hour;
    }
  }
  return looking == Looking::Again ? course : std::nullopt;
}

bool is_short(const solver::TroughSeason& trough) {
  return trough.first_dry.has_value();
}

}  // namespace

std::string step_words(double step_s) {
  constexpr std::array<std::pair<double, const char*>, 3> unit_s = {
      {{86400.0, "day"}, {3600.0, "h"}, {60.0, "min"}}};
  for (const auto& [size_s, word] : unit_s) {
    const double count = step_s / size_s;
    if (count >= 1.0 && std::abs(count - std::round(count)) < 1e-9) {
      const bool many_days = size_s == 86400.0 && count > 1.5;
      return fmt::format("{} {}{}", decimal_text(count, 0), word, many_days ? "s" : "");
    }
  }
  return solver::spoken_time(step_s);
}

std::string joined_names(const std::vector<std::string>& names) {
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) {
    text += i == 0 ? "" : i + 1 == names.size() ? " and " : ", ";
    text += names[i];
  }
  return text;
}

std::string season_verdict(const model::Farm& farm, const solver::SeasonAnswer& answer) {
  struct Short {
    std::string name;
    model::Date from;
    std::optional<double> met;
  };
  std::vector<Short> shorts;
  std::size_t with_need = 0;
  for (const solver::TroughSeason& trough : answer.troughs) {
    const SeasonCell all = cell_of(trough);
    with_need += all.need_m3 > 0.0 || all.met ? 1U : 0U;
    if (is_short(trough)) {
      shorts.push_back({farm.places.at(trough.place).name, *trough.first_dry, all.met});
    }
  }
  if (shorts.empty()) {
    return with_need == 0 ? "No trough of this farm has a need to be met."
                          : "Every trough has enough, all season.";
  }
  std::stable_sort(shorts.begin(), shorts.end(), [](const Short& a, const Short& b) {
    return a.met.value_or(1.0) < b.met.value_or(1.0);
  });
  constexpr std::size_t most = 4;
  std::vector<std::string> told;
  for (std::size_t i = 0; i < std::min(most, shorts.size()); ++i) {
    told.push_back(fmt::format("{} from {}{}",
                               shorts[i].name,
                               model::date_text(shorts[i].from),
                               shorts[i].met ? fmt::format(" ({} % of its need over the season)",
                                                           percent_text(shorts[i].met))
                                             : ""));
  }
  if (shorts.size() > most) {
    told.push_back(fmt::format("{} more", shorts.size() - most));
  }
  std::string text = fmt::format("Short of water: {}.", joined_names(told));
  if (shorts.size() < with_need) {
    text += with_need - shorts.size() == 1 ? " The other trough has enough, all season."
                                           : " The other troughs have enough, all season.";
  }
  return text;
}

std::string clock_words(int hour, model::UnitSystem units) {
  if (units == model::UnitSystem::Metric) {
    return fmt::format("{}:00", hour);
  }
  if (hour % hours_of_day == 0) {
    return "midnight";
  }
  if (hour == 12) {
    return "noon";
  }
  return hour < 12 ? fmt::format("{} am", hour) : fmt::format("{} pm", hour - 12);
}

const solver::MonthAtTrough* worst_month(const solver::TroughSeason& trough) {
  constexpr double told_apart = 1e-6;  // of months alike the first is told
  const solver::MonthAtTrough* worst = nullptr;
  for (const solver::MonthAtTrough& month : trough.months) {
    if (month.met && (worst == nullptr || *month.met < *worst->met - told_apart)) {
      worst = &month;
    }
  }
  return worst;
}

std::string day_pattern(const model::Farm& farm,
                        const solver::TroughSeason& trough,
                        model::UnitSystem units) {
  const auto* const known = std::get_if<model::Trough>(&farm.places.at(trough.place).data);
  std::optional<DayCourse> course;
  const solver::MonthAtTrough* shown = nullptr;
  const std::size_t count = std::min(trough.months.size(), trough.met_by_hour.size());
  for (std::size_t i = 0; i < count; ++i) {
    const solver::MonthAtTrough& month = trough.months[i];
    const bool is_worse = shown == nullptr || month.met.value_or(1.0) < shown->met.value_or(1.0);
    if (const auto found = course_of(known, trough.met_by_hour[i]); found && is_worse) {
      course = found;
      shown = &month;
    }
  }
  if (!course) {
    return "";
  }
  const bool in_the_morning = course->works_from < 11 && course->short_from >= 9;
  std::string text = fmt::format(
      "{} in {}: {}, ",
      farm.places.at(trough.place).name,
      model::name_of(shown->month),
      in_the_morning ? "works in the morning"
                     : fmt::format("has enough from {}", clock_words(course->works_from, units)));
  if (course->least <= is_dry) {
    // The hour that is dry throughout: by its start the trough is empty.
    text += fmt::format("dry by {}", clock_words(course->least_from, units));
    if (course->short_from < course->least_from) {
      text += fmt::format(", short from {}", clock_words(course->short_from, units));
    }
  } else {
    text += fmt::format("short from {}: down to {} % of what stock want by {}",
                        clock_words(course->short_from, units),
                        percent_text(course->least),
                        clock_words(course->least_from, units));
  }
  if (course->again_from < hours_of_day) {
    text += fmt::format("; enough again from {}", clock_words(course->again_from, units));
  }
  return text + ".";
}

std::string filled_words(const solver::SeasonAnswer& answer, const solver::PondSeason& pond) {
  if (!pond.filled_on) {
    return "never full in this season";
  }
  const int days = model::day_number(*pond.filled_on) - model::day_number(answer.from);
  if (days <= 0) {
    return "full from the first day";
  }
  return fmt::format("full on {}, {} day{} after the start",
                     model::date_text(*pond.filled_on),
                     days,
                     days == 1 ? "" : "s");
}

}  // namespace leat::render
