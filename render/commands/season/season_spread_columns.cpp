#include "render/commands/season/season_spread_columns.h"

#include <array>
#include <string>
#include <utility>

namespace leat::render {

namespace {

using solver::EarlyLikelyLate;
using solver::LowLikelyHigh;

constexpr std::array<std::pair<const char*, double LowLikelyHigh::*>, 3> low_to_high = {
    {{"low_", &LowLikelyHigh::low},
     {"likely_", &LowLikelyHigh::likely},
     {"high_", &LowLikelyHigh::high}}};
constexpr std::array<std::pair<const char*, std::optional<model::Date> EarlyLikelyLate::*>, 3>
    early_to_late = {{{"early_", &EarlyLikelyLate::early},
                      {"likely_", &EarlyLikelyLate::likely},
                      {"late_", &EarlyLikelyLate::late}}};

/// Three columns of a figure: low_X, likely_X, high_X. The last carries the sentence.
template <class Row, class Find>
void add_figures(Columns<Row>& columns,
                 const std::string& key,
                 Scale scale,
                 Find find,  // gives std::optional<LowLikelyHigh>
                 const std::string& meaning) {
  for (const auto& [word, which] : low_to_high) {
    columns.push_back(Column<Row>::number(
        word + key,
        scale,
        [find, which = which](const Row& row) {
          const std::optional<LowLikelyHigh> found = find(row);
          return found ? std::optional((*found).*which) : std::nullopt;
        },
        which == &LowLikelyHigh::high ? meaning : ""));
  }
}

/// Three columns of a day: early_X, likely_X, late_X. The last carries the sentence.
template <class Row, class Find>
void add_days(Columns<Row>& columns,
              const std::string& key,
              Find find,  // gives EarlyLikelyLate
              const std::string& meaning) {
  for (const auto& [word, which] : early_to_late) {
    columns.push_back(Column<Row>::text_or_null(
        word + key,
        [find, which = which](const Row& row) {
          const std::optional<model::Date> day = find(row).*which;
          return day ? model::date_text(*day) : std::string();
        },
        which == &EarlyLikelyLate::late ? meaning : ""));
  }
}

template <class Answer>
Column<SeasonRow<Answer>> place_name_column() {
  return Column<SeasonRow<Answer>>::value(
      "name",
      [](const SeasonRow<Answer>& row) { return row.farm.places.at(row.answer.place).name; },
      "as in the file");
}

Columns<TroughSpreadRow> made_trough_columns() {
  Columns<TroughSpreadRow> columns{place_name_column<solver::TroughSpread>()};
  add_figures(
      columns,
      "m3",
      scale::volume,
      [](const TroughSpreadRow& row) { return std::optional(row.answer.got_m3); },
      "5th, 50th and 95th percentile of what it gets over the season");
  add_figures(
      columns,
      "met",
      scale::share,
      in_answer(&solver::TroughSpread::met),
      "share of its need as drawn, what one month has to spare making up for no other; null "
      "without a need");
  columns.push_back(Column<TroughSpreadRow>::number(
      "chance_short",
      scale::ratio,
      in_answer(&solver::TroughSpread::chance_short),
      "share of draws with a day below 0.995 of the need; null without a need"));
  add_days(columns,
           "first_dry",
           in_answer(&solver::TroughSpread::first_short),
           "the day by which a twentieth, half, all but a twentieth of the draws have gone short; "
           "null where so many never do");
  add_figures(
      columns,
      "dry_h",
      scale::hours,
      [](const TroughSpreadRow& row) { return std::optional(row.answer.dry_h); },
      "hours short in all months");
  return columns;
}

Columns<StoreSpreadRow> made_tank_columns() {
  Columns<StoreSpreadRow> columns{place_name_column<solver::StoreSpread>()};
  add_figures(
      columns,
      "lowest_m",
      scale::level,
      [](const StoreSpreadRow& row) { return std::optional(row.answer.lowest_m); },
      "lowest level, read off the store's own wall: how far its level itself may be off is "
      "not in it");
  columns.push_back(Column<StoreSpreadRow>::number(
      "chance_empty",
      scale::ratio,
      in_answer(&solver::StoreSpread::chance_empty),
      "share of draws that bring it within 2 cm of its lowest mouth, or of its bottom where "
      "nothing "
      "leaves it"));
  return columns;
}

Columns<StoreSpreadRow> made_pond_columns() {
  Columns<StoreSpreadRow> columns = made_tank_columns();
  add_days(columns,
           "filled_on",
           in_answer(&solver::StoreSpread::filled),
           "first day full, as first_dry");
  return columns;
}

}  // namespace

const Columns<TroughSpreadRow>& trough_spread_columns() {
  static const Columns<TroughSpreadRow> columns = made_trough_columns();
  return columns;
}

const Columns<StoreSpreadRow>& tank_spread_columns() {
  static const Columns<StoreSpreadRow> columns = made_tank_columns();
  return columns;
}

const Columns<StoreSpreadRow>& pond_spread_columns() {
  static const Columns<StoreSpreadRow> columns = made_pond_columns();
  return columns;
}

const Columns<BreakSpreadRow>& break_spread_columns() {
  static const Columns<BreakSpreadRow> columns = {
      Column<BreakSpreadRow>::value(
          "pipe",
          [](const BreakSpreadRow& row) { return row.farm.pipes.at(row.answer.pipe).name; },
          "the one leaving the spring"),
      Column<BreakSpreadRow>::number("chance_breaks",
                                     scale::ratio,
                                     in_answer(&solver::BreakSpread::chance_breaks),
                                     "share of draws in which it draws air"),
  };
  return columns;
}

}  // namespace leat::render
