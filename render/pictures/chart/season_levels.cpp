#include "render/pictures/chart/season_levels.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <variant>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "render/document/text_table.h"
#include "render/pictures/chart/profile_lines.h"
#include "render/words/number_text.h"
#include "render/words/season_words.h"

namespace leat::render {

namespace {

constexpr std::string_view water_colour = "#1c5d99";
constexpr double strip_height = 92.0;
constexpr double strip_gap = 14.0;

/// One store to draw.
struct Store {
  std::string title;
  const std::vector<solver::DatedLevel>* levels = nullptr;
  std::optional<double> brim_m;  // drawn as a dashed line
  const char* brim_word = "";
  std::optional<double> floor_m;  // the strip reaches down to it
};

std::optional<double> brim_m(const model::Place& place) {
  const std::optional<Elevation> brim = model::brim_of(place);
  return brim ? std::optional(in_metres(*brim)) : std::nullopt;
}

std::vector<Store> stores_of(const model::Farm& farm,
                             const solver::SeasonAnswer& answer,
                             model::UnitSystem units) {
  constexpr int widest = 40;
  std::vector<Store> stores;
  for (const solver::PondSeason& pond : answer.ponds) {
    const model::Place& place = farm.places.at(pond.place);
    stores.push_back({fmt::format("{}, {}: lowest {} on {}; {}",
                                  cut_to_width(place.name, widest),
                                  length_unit(units),
                                  solver::spoken_level(pond.lowest_m, units),
                                  model::date_text(pond.lowest_on),
                                  filled_words(answer, pond)),
                      &pond.levels,
                      brim_m(place),
                      "spills",
                      std::nullopt});
  }
  for (const solver::TankSeason& tank : answer.tanks) {
    const model::Place& place = farm.places.at(tank.place);
    stores.push_back({fmt::format("{}, {}: lowest {} on {}{}",
                                  cut_to_width(place.name, widest),
                                  length_unit(units),
                                  solver::spoken_level(tank.lowest_m, units),
                                  model::date_text(tank.lowest_on),
                                  tank.days_alone ? fmt::format("; full, it carries {} days alone",
                                                                significant_text(*tank.days_alone))
                                                  : ""),
                      &tank.levels,
                      brim_m(place),
                      "full",
                      in_metres(model::level_of(place, std::nullopt))});
  }
  stores.erase(
      std::remove_if(
          stores.begin(), stores.end(), [](const Store& store) { return store.levels->empty(); }),
      stores.end());
  return stores;
}

class Strip {
 public:
  Strip(const Store& store, model::UnitSystem units, double top) : store_(store), units_(units) {
    bottom_ = top + strip_height;
    top_ = top;
    low_ = high_ = shown(store.levels->front().level_m);
    for (const solver::DatedLevel& level : *store.levels) {
      take(level.level_m);
    }
    for (const std::optional<double>& mark : {store.brim_m, store.floor_m}) {
      if (mark) {
        take(*mark);
      }
    }
    const double least_span = shown_length(0.1, units);
    if (high_ - low_ < least_span) {
      const double middle = (high_ + low_) / 2.0;
      low_ = middle - least_span / 2.0;
      high_ = middle + least_span / 2.0;
    }
  }

  void draw(ChartSheet& sheet, const SeasonLayout& layout) const {
    for (std::size_t i = 0; i <= layout.columns.size(); ++i) {
      const double x = layout.column_left(i);
      sheet.rule(x, top_, x, bottom_);
    }
    draw_ticks(sheet);
    if (store_.brim_m) {
      const double y = y_of(shown(*store_.brim_m));
      sheet.line(
          {{SeasonLayout::left, y}, {SeasonLayout::right, y}}, 1.0, ChartSheet::grey, "dt (6,4)");
      sheet.write(SeasonLayout::right + 8.0, y, store_.brim_word);
    }
    Polyline points;
    for (const solver::DatedLevel& level : *store_.levels) {
      points.push_back({layout.x_of(level.on), y_of(shown(level.level_m))});
    }
    if (points.size() == 1) {
      points.push_back({points.front().x + 2.0, points.front().y});
    }
    sheet.line(points, 2.4, water_colour);
  }

 private:
  [[nodiscard]] double shown(double level_m) const { return shown_length(level_m, units_); }

  void take(double level_m) {
    low_ = std::min(low_, shown(level_m));
    high_ = std::max(high_, shown(level_m));
  }

  [[nodiscard]] double y_of(double level) const {
    constexpr double inset = 6.0;
    return bottom_ - inset - (strip_height - 2.0 * inset) * (level - low_) / (high_ - low_);
  }

  void draw_ticks(ChartSheet& sheet) const {
    constexpr double about = 4.0;
    const double step = round_step((high_ - low_) / about);
    const int decimals = step < 1.0 ? static_cast<int>(std::ceil(-std::log10(step) - 1e-9)) : 0;
    for (double n = std::ceil(low_ / step - 1e-9); n * step <= high_ + 1e-9; n += 1.0) {
      const double y = y_of(n * step);
      sheet.rule(SeasonLayout::left, y, SeasonLayout::right, y);
      sheet.write(SeasonLayout::left - 12.0,
                  y,
                  decimal_text(n * step, decimals),
                  TextSide::Right,
                  ChartSheet::text_size - 1.0,
                  ChartSheet::grey);
    }
  }

  const Store& store_;
  model::UnitSystem units_;
  double top_ = 0.0;
  double bottom_ = 0.0;
  double low_ = 0.0;
  double high_ = 0.0;
};

}  // namespace

double draw_levels(ChartSheet& sheet,
                   const SeasonLayout& layout,
                   const model::Farm& farm,
                   const solver::SeasonAnswer& answer,
                   model::UnitSystem units,
                   double top) {
  constexpr std::size_t most = 6;
  const std::vector<Store> stores = stores_of(farm, answer, units);
  if (stores.empty() || layout.columns.empty()) {
    return 0.0;
  }
  double y = top;
  for (std::size_t i = 0; i < std::min(most, stores.size()); ++i) {
    sheet.write(14.0, y + ChartSheet::line_height / 2.0, stores[i].title);
    y += ChartSheet::line_height + 4.0;
    Strip(stores[i], units, y).draw(sheet, layout);
    y += strip_height + strip_gap;
  }
  y += write_columns(sheet, layout, y - strip_gap + 4.0 + ChartSheet::line_height / 2.0);
  if (stores.size() > most) {
    y += ChartSheet::line_height;
    sheet.write(14.0,
                y - ChartSheet::line_height / 2.0,
                fmt::format("{} more: leat season --csv=levels", stores.size() - most));
  }
  return y - top;
}

}  // namespace leat::render
