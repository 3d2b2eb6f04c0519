#include "render/commands/solve/spread_columns.h"

#include <cstddef>

namespace leat::render {

namespace {

Columns<PlaceSpreadRow> spread_place_columns() {
  using Place = Column<PlaceSpreadRow>;
  return {
      Place::value(
          "name",
          [](const PlaceSpreadRow& row) { return row.place.name; },
          "every place in the file's order"),
      Place::number(
          "low_L_s", scale::flow, [](const PlaceSpreadRow& row) { return row.spread.low_m3_s; }),
      Place::number("likely_L_s",
                    scale::flow,
                    [](const PlaceSpreadRow& row) { return row.spread.likely_m3_s; }),
      Place::number(
          "high_L_s",
          scale::flow,
          [](const PlaceSpreadRow& row) { return row.spread.high_m3_s; },
          "5th, 50th and 95th percentile of what `delivered_L_s` may be; a spring's is negative"),
      Place::number(
          "chance_short",
          scale::ratio,
          [](const PlaceSpreadRow& row) { return row.spread.chance_short; },
          "share of draws below 0.995 of the need as drawn; null without a need"),
      Place::number("need_L_s",
                    scale::flow,
                    in_answer(&solver::PlaceAnswer::need_m3_s),
                    "as written, or null")
          .only_in_json(),
  };
}

Columns<SummitSpreadRow> spread_summit_columns() {
  using Summit = Column<SummitSpreadRow>;
  return {
      Summit::value(
          "pipe",
          [](const SummitSpreadRow& row) { return row.farm.pipes.at(row.spread.pipe).name; }),
      Summit::number(
          "at_m", scale::length, [](const SummitSpreadRow& row) { return row.spread.at_m; }),
      Summit::number(
          "chance_parts",
          scale::ratio,
          [](const SummitSpreadRow& row) { return row.spread.chance_parts; },
          "where; the share of draws in which it parts"),
  };
}

Columns<solver::Cause> spread_cause_columns() {
  using solver::Cause;
  return {
      Column<Cause>::value(
          "input",
          &Cause::input,
          "\"level of north\", \"levels along main\", \"length of main\", \"roughness of main\", "
          "\"fittings of main\", \"seat of north\", \"yield of upper\", \"need of north\", \"end "
          "of "
          "to pond\", \"air pressure\""),
      Column<Cause>::number("share",
                            scale::ratio,
                            &Cause::share,
                            "of the variance it explains by itself; below 1 % left out"),
  };
}

}  // namespace

std::vector<PlaceSpreadRow> place_spread_rows(const model::Farm& farm,
                                              const solver::Spread& spread) {
  std::vector<PlaceSpreadRow> rows;
  for (std::size_t i = 0; i < spread.places.size(); ++i) {
    rows.push_back({farm.places.at(i), spread.answer.places.at(i), spread.places[i]});
  }
  return rows;
}

std::vector<SummitSpreadRow> summit_spread_rows(const model::Farm& farm,
                                                const std::vector<solver::SummitSpread>& summits) {
  std::vector<SummitSpreadRow> rows;
  for (const solver::SummitSpread& summit : summits) {
    rows.push_back({farm, summit});
  }
  return rows;
}

const Columns<PlaceSpreadRow>& place_spread_columns() {
  static const Columns<PlaceSpreadRow> columns = spread_place_columns();
  return columns;
}

const Columns<SummitSpreadRow>& summit_spread_columns() {
  static const Columns<SummitSpreadRow> columns = spread_summit_columns();
  return columns;
}

const Columns<solver::Cause>& cause_columns() {
  static const Columns<solver::Cause> columns = spread_cause_columns();
  return columns;
}

}  // namespace leat::render
