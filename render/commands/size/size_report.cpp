#include "render/commands/size/size_report.h"

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "render/commands/size/size_columns.h"
#include "render/commands/solve/answer_json.h"
#include "render/document/text_table.h"
#include "render/words/cautions.h"
#include "render/words/findings_text.h"
#include "render/words/number_text.h"
#include "render/words/season_words.h"
#include "render/words/size.h"
#include "render/words/table_cells.h"

namespace leat::render {

namespace {

/// How much is known of the choice.
std::string verdict(const solver::SizePlan& plan) {
  if (!plan.meets_needs) {
    return "No size of the list meets every need. These lose nothing of what the best of them "
           "brings.";
  }
  if (plan.method == solver::SizeMethod::Exact) {
    return "Exact: no other choice from the list meets the needs for less.";
  }
  std::string text = "Improved by trying: a good choice, not proved the cheapest.";
  if (plan.bound && plan.cost) {
    text += fmt::format(" No choice costs less than {}.",
                        money_cell(plan.bound, model::UnitSystem::Metric));
  }
  return text;
}

std::string parts_table(const model::Farm& farm,
                        const solver::SizePlan& plan,
                        const TableOptions& options) {
  TextTable table = table_of(
      sized_part_columns(),
      {{"lay",
        "size",
        [](const SizedPartRow& row, model::UnitSystem) {
          return row.index == 0 ? row.farm.pipes[row.run.pipe].name : "";
        }},
       {"size", "size"},
       {std::string(length_unit(options.units)), "length_m"},
       {"to pay", "cost"},
       {"",
        "length_m",
        [](const SizedPartRow& row, model::UnitSystem) {
          return row.run.parts.size() == 1 ? "" : row.index == 0 ? "from its start" : "then";
        },
        Align::Left}},
      sized_part_rows(farm, plan),
      options.units);
  table.rows.push_back({"all", "", "", money_cell(plan.cost, options.units), ""});
  return table_text(table.columns, table.rows);
}

std::string gets_table(const solver::SizePlan& plan, const TableOptions& options) {
  return table_below(table_of(needing_place_columns(),
                              {{fmt::format("water, {}", flow_unit(options.units)), "name"},
                               {"gets", "delivered_L_s"},
                               {"needs", "need_L_s"}},
                              needing_place_rows(plan),
                              options.units));
}

/// Places of the rules that `holds` picks, "a, b and c".
template <class Holds>
std::string names_where(const solver::SizePlan& plan, const Holds& holds) {
  std::vector<std::string> names;
  for (const solver::StoreRule& rule : plan.stores) {
    if (holds(rule)) {
      names.push_back(plan.laid.places[rule.place].name);
    }
  }
  return joined_names(names);
}

/// Each rule a line, the one to go by marked.
TextTable rules_table(const solver::SizePlan& plan, model::UnitSystem units) {
  std::size_t before = plan.laid.places.size();
  return table_of(
      store_rule_columns(),
      {{fmt::format("to hold, {}", volume_unit(units)),
        "place",
        [&before](const StoreRuleRow& row, model::UnitSystem) {
          const bool is_same = row.rule.place == before;
          before = row.rule.place;
          return is_same ? std::string() : row.place().name;
        }},
       {"least",
        "volume_m3",
        [](const StoreRuleRow& row, model::UnitSystem shown_in) {
          return row.rule.volume_m3 ? volume_cell(row.rule.volume_m3, shown_in) : "no size";
        }},
       {"holds",
        "holds_m3",
        [](const StoreRuleRow& row, model::UnitSystem shown_in) {
          return row.rule.held_m3 ? volume_cell(row.rule.held_m3, shown_in) : "";
        }},
       {"",
        "least",
        [](const StoreRuleRow& row, model::UnitSystem) {
          return row.rule.is_too_small ? "too small" : row.rule.is_least ? "go by this" : "";
        }},
       {"by the rule", "rule"},
       {"of", "source"}},
      store_rule_rows(plan),
      units);
}

/// What troughs and tanks must hold, and by which rules.
std::string stores_table(const solver::SizePlan& plan,
                         const TableOptions& options,
                         const Terminal& terminal) {
  if (plan.stores.empty()) {
    return "";
  }
  const TextTable table = rules_table(plan, options.units);
  const bool has_no_size =
      std::any_of(plan.stores.begin(), plan.stores.end(), [](const solver::StoreRule& rule) {
        return !rule.volume_m3;
      });
  const std::string standing_in =
      names_where(plan, [](const solver::StoreRule& rule) { return rule.stands_in_for_water; });
  return '\n' + table_text(table.columns, table.rows) +
         wrapped(
             fmt::format(
                 "Balance: at the flow of the month. Season: the month run hour by hour with this "
                 "one larger and smaller, the others as they are, to 2 %{}. USDA: Livestock "
                 "Watering Data Sheet; Ohio: State University ANR-12 (2003); practice: common "
                 "practice, from memory.",
                 has_no_size ? "; no size: water is short however much it holds" : ""),
             text_width(terminal),
             0) +
         (standing_in.empty()
              ? ""
              : wrapped(fmt::format("So much at {}: in this month less water gets there than is "
                                    "drunk, and what is held at its start must carry the rest. "
                                    "See leat improve before buying one so large.",
                                    standing_in),
                        text_width(terminal),
                        0));
}

/// The findings; where nothing is amiss with the water, what is too small is not passed over.
std::string size_findings(const solver::SizePlan& plan,
                          const TableOptions& options,
                          const Terminal& terminal) {
  const FindingsForm form{options.units, options.detail, plan.answer.load_case};
  const std::string small =
      names_where(plan, [](const solver::StoreRule& rule) { return rule.is_too_small; });
  if (small.empty()) {
    return findings_text(plan.answer.flags, form, terminal);
  }
  const std::string told = fmt::format(
      "Too small by the rule to go by: {}. Nothing else amiss that leat checks.", small);
  return findings_text(plan.answer.flags, form, terminal, told);
}

std::string notes_text(const solver::SizePlan& plan, const Terminal& terminal) {
  std::string text;
  for (const solver::SizeNote& note : plan.notes) {
    std::string sentence = size_note(note) + '.';
    sentence[0] = sentence[0] >= 'a' && sentence[0] <= 'z'
                      ? static_cast<char>(sentence[0] - 'a' + 'A')
                      : sentence[0];
    text += wrapped(sentence, text_width(terminal), 0);
  }
  return text.empty() ? text : '\n' + text;
}

}  // namespace

std::string size_table(const model::Farm& farm,
                       const solver::SizePlan& plan,
                       const TableOptions& options,
                       const Terminal& terminal) {
  const std::string pipes = plan.runs.empty()
                                ? ""
                                : '\n' + wrapped(verdict(plan), text_width(terminal), 0) +
                                      parts_table(farm, plan, options);
  return answer_heading(farm, plan.answer, options, terminal) + pipes + gets_table(plan, options) +
         stores_table(plan, options, terminal) + notes_text(plan, terminal) +
         size_findings(plan, options, terminal) + '\n' +
         cautions_text(plan.laid, plan.answer, terminal);
}

std::string size_csv(const model::Farm& farm, const solver::SizePlan& plan) {
  Columns<SizedPartRow> columns = {Column<SizedPartRow>::value(
      "pipe", [](const SizedPartRow& row) { return row.farm.pipes[row.run.pipe].name; })};
  return csv_text(joined(std::move(columns), sized_part_columns()), sized_part_rows(farm, plan));
}

std::string size_json(const model::Farm& farm,
                      const solver::SizePlan& plan,
                      model::UnitSystem units) {
  Json object;
  object["format"] = 1;
  object["command"] = "size";
  object["farm"] = farm.name;
  object["runs"] = json_rows(sized_run_columns(), sized_run_rows(farm, plan));
  object["cost"] = json_number(plan.cost);
  object["bound"] = json_number(plan.bound);
  object["method"] = word_of(plan.method);
  object["stores"] = json_rows(store_rule_columns(), store_rule_rows(plan));
  object["flags"] = flag_list(plan.answer.flags, units);
  object["places"] = json_rows(needing_place_columns(), needing_place_rows(plan));
  object["notes"] = Json::array();
  for (const solver::SizeNote& note : plan.notes) {
    object["notes"].push_back(size_note(note));
  }
  return json_text(object);
}

}  // namespace leat::render
