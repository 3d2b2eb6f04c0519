#include "render/commands/improve/improve_columns.h"

#include <string>

#include "render/commands/solve/answer_columns.h"
#include "render/words/improve.h"

namespace leat::render {

namespace {

using solver::SolvedChange;

constexpr int money_decimals = 2;

/// "starved at north; fast at main".
std::string flags_cell_of(const Json& flags) {
  std::string text;
  for (const Json& flag : flags) {
    text += (text.empty() ? "" : "; ") + flag.at("code").get<std::string>() + " at " +
            flag.at("where").get<std::string>();
  }
  return text;
}

/// What is done of both.
std::vector<std::string> pair_words(const PairRow& row) {
  std::vector<std::string> words;
  for (const solver::Action& action : row.pair.actions) {
    words.push_back(action_words(action, row.units));
  }
  return words;
}

/// What a change or a pair brings; `change` finds it in the row.
template <class Row, class Change>
void add_gains(Columns<Row>& columns, Change change) {
  using Gain = Column<Row>;
  columns.push_back(Gain::number(
      "gain_L_s", scale::flow, [change](const Row& row) { return change(row).gain_m3_s; }));
  columns.push_back(Gain::number("met_before",
                                 scale::share.with_decimals(usual_csv_decimals),
                                 [change](const Row& row) { return change(row).met_before; }));
  columns.push_back(Gain::number("met_after",
                                 scale::share.with_decimals(usual_csv_decimals),
                                 [change](const Row& row) { return change(row).met_after; }));
  columns.push_back(Gain::list("new_flags", flag_columns(), [change](const Row& row) {
                      return flag_rows(change(row).new_flags, row.units);
                    }).in_csv_as(flags_cell_of));
  columns.push_back(Gain::number(
      "cost",
      scale::money.with_decimals(money_decimals),
      [change](const Row& row) { return change(row).cost; },
      "told below"));
  columns.push_back(Gain::number(
                        "all_gain_L_s",
                        scale::flow,
                        [change](const Row& row) { return change(row).total_gain_m3_s; },
                        "what all troughs, outlets and ponds gain together")
                        .only_in_json());
}

}  // namespace

std::vector<RankedChangeRow> ranked_change_rows(const model::Farm& farm,
                                                const solver::ImprovePlan& plan,
                                                model::UnitSystem units) {
  std::vector<RankedChangeRow> rows;
  for (const SolvedChange& change : plan.changes) {
    rows.push_back({farm, change, rows.size() + 1, units});
  }
  return rows;
}

std::vector<SmallChangeRow> small_change_rows(const model::Farm& farm,
                                              const solver::ImprovePlan& plan,
                                              model::UnitSystem units) {
  std::vector<SmallChangeRow> rows;
  for (const solver::SmallChange& change : plan.small_changes) {
    rows.push_back({farm, change, units});
  }
  return rows;
}

const Columns<RankedChangeRow>& ranked_change_columns() {
  static const Columns<RankedChangeRow> columns = [] {
    using Change = Column<RankedChangeRow>;
    Columns<RankedChangeRow> all = {
        Change::value("rank", &RankedChangeRow::rank, "from 1"),
        Change::value(
            "change",
            [](const RankedChangeRow& row) {
              return change_words(row.farm, row.change, row.units);
            },
            "a sentence without a full stop; of a valve, a seat or hours with what each "
            "place then gets"),
        Change::value(
            "where",
            [](const RankedChangeRow& row) { return row.change.where; },
            "the pipe or place that is changed"),
    };
    add_gains(all, [](const RankedChangeRow& row) -> const SolvedChange& { return row.change; });
    return all;
  }();
  return columns;
}

const Columns<PairRow>& pair_columns() {
  static const Columns<PairRow> columns = [] {
    Columns<PairRow> all = {Column<PairRow>::value("changes", pair_words, "two texts")};
    add_gains(all, [](const PairRow& row) -> const SolvedChange& { return row.pair; });
    return all;
  }();
  return columns;
}

const Columns<SmallChangeRow>& small_change_columns() {
  using Change = Column<SmallChangeRow>;
  static const Columns<SmallChangeRow> columns = {
      Change::value(
          "input",
          [](const SmallChangeRow& row) { return solver::name_of(row.farm, row.change.input); }),
      Change::value(
          "by",
          [](const SmallChangeRow& row) { return small_change_words(row.change, row.units); },
          "\"1 ft higher\", \"10 % more\", the next size"),
      Change::number(
          "gain_L_s",
          scale::flow,
          [](const SmallChangeRow& row) { return row.change.gain_m3_s; },
          "to first order"),
  };
  return columns;
}

}  // namespace leat::render
