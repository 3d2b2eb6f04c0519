#include "render/commands/size/size_columns.h"

#include "render/words/size.h"

namespace leat::render {

namespace {

std::vector<SizedPartRow> part_rows(const SizedRunRow& row) {
  std::vector<SizedPartRow> parts;
  for (std::size_t i = 0; i < row.run.parts.size(); ++i) {
    parts.push_back({row.farm, row.run, i});
  }
  return parts;
}

}  // namespace

std::vector<SizedRunRow> sized_run_rows(const model::Farm& farm, const solver::SizePlan& plan) {
  std::vector<SizedRunRow> rows;
  for (const solver::SizedRun& run : plan.runs) {
    rows.push_back({farm, run});
  }
  return rows;
}

std::vector<SizedPartRow> sized_part_rows(const model::Farm& farm, const solver::SizePlan& plan) {
  std::vector<SizedPartRow> rows;
  for (const SizedRunRow& run : sized_run_rows(farm, plan)) {
    for (const SizedPartRow& part : part_rows(run)) {
      rows.push_back(part);
    }
  }
  return rows;
}

std::vector<StoreRuleRow> store_rule_rows(const solver::SizePlan& plan) {
  std::vector<StoreRuleRow> rows;
  for (const solver::StoreRule& rule : plan.stores) {
    rows.push_back({plan, rule});
  }
  return rows;
}

std::vector<PlaceRow> needing_place_rows(const solver::SizePlan& plan) {
  std::vector<PlaceRow> rows;
  for (const PlaceRow& row : place_rows(plan.laid, plan.answer)) {
    if (row.answer.need_m3_s) {
      rows.push_back(row);
    }
  }
  return rows;
}

const Columns<SizedPartRow>& sized_part_columns() {
  using Part = Column<SizedPartRow>;
  static const Columns<SizedPartRow> columns = {
      Part::value("size", [](const SizedPartRow& row) { return row.part().size.text; }),
      Part::number(
          "length_m", scale::length, [](const SizedPartRow& row) { return row.part().length_m; }),
      Part::number(
          "cost",
          scale::money,
          [](const SizedPartRow& row) { return row.part().cost; },
          "of what must be bought of it, 0 where all of it lies in store; null where the "
          "file has no prices of pipe"),
  };
  return columns;
}

const Columns<SizedRunRow>& sized_run_columns() {
  using Run = Column<SizedRunRow>;
  static const Columns<SizedRunRow> columns = {
      Run::value(
          "pipe",
          [](const SizedRunRow& row) { return row.farm.pipes[row.run.pipe].name; },
          "marked `size: choose`"),
      Run::list("parts",
                sized_part_columns(),
                part_rows,
                "from its `from` end, the widest first: {keys}"),
  };
  return columns;
}

const Columns<StoreRuleRow>& store_rule_columns() {
  using Rule = Column<StoreRuleRow>;
  static const Columns<StoreRuleRow> columns = {
      Rule::value("place", [](const StoreRuleRow& row) { return row.place().name; }),
      Rule::number(
          "volume_m3",
          scale::volume,
          [](const StoreRuleRow& row) { return row.rule.volume_m3; },
          "null: no volume does it"),
      Rule::value("rule", [](const StoreRuleRow& row) { return rule_words(row.rule); }),
      Rule::value(
          "source",
          [](const StoreRuleRow& row) { return source_word(row.rule.source); },
          "\"balance\", \"USDA\", \"Ohio\", \"practice\", \"season\""),
      Rule::value(
          "least",
          [](const StoreRuleRow& row) { return row.rule.is_least; },
          "true: asks for most in usual times, the one to go by"),
      Rule::number(
          "holds_m3",
          scale::volume,
          [](const StoreRuleRow& row) { return si_of(model::volume_held_by(row.place())); },
          "as the file says, or null"),
      Rule::value(
          "too_small",
          [](const StoreRuleRow& row) { return row.rule.is_too_small; },
          "that is less than the rule to go by asks for"),
  };
  return columns;
}

const Columns<PlaceRow>& needing_place_columns() {
  using Place = Column<PlaceRow>;
  static const Columns<PlaceRow> columns = {
      column_of(place_columns(), "name"),
      Place::number("delivered_L_s", scale::flow, in_answer(&solver::PlaceAnswer::delivered_m3_s)),
      Place::number("need_L_s",
                    scale::flow,
                    in_answer(&solver::PlaceAnswer::need_m3_s),
                    "what it gets, what it needs"),
  };
  return columns;
}

}  // namespace leat::render
