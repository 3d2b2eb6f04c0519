#include "render/commands/size/size_report.h"

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "render/commands/solve/answer_json.h"
#include "render/commands/solve/csv_report.h"
#include "render/document/json_text.h"
#include "render/document/text_table.h"
#include "render/words/cautions.h"
#include "render/words/findings_text.h"
#include "render/words/number_text.h"
#include "render/words/season_words.h"
#include "render/words/size.h"

namespace leat::render {

namespace {

using Row = std::vector<std::string>;

constexpr int money_decimals = 2;

std::string money_text(const std::optional<double>& money) {
  return money ? decimal_text(*money, money_decimals) : "-";
}

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
    text += fmt::format(" No choice costs less than {}.", money_text(plan.bound));
  }
  return text;
}

std::string parts_table(const model::Farm& farm,
                        const solver::SizePlan& plan,
                        const TableOptions& options) {
  std::vector<Row> rows;
  for (const solver::SizedRun& run : plan.runs) {
    for (std::size_t i = 0; i < run.parts.size(); ++i) {
      const solver::SizedPart& part = run.parts[i];
      const std::string place = run.parts.size() == 1 ? "" : i == 0 ? "from its start" : "then";
      rows.push_back({i == 0 ? farm.pipes[run.pipe].name : "",
                      part.size.text,
                      length_number_text(metres(part.length_m), options.units),
                      money_text(part.cost),
                      place});
    }
  }
  rows.push_back({"all", "", "", money_text(plan.cost), ""});
  return table_text({{"lay", Align::Left},
                     {"size", Align::Left},
                     {std::string(length_unit(options.units)), Align::Right},
                     {"to pay", Align::Right},
                     {"", Align::Left}},
                    rows);
}

std::string gets_table(const solver::SizePlan& plan, const TableOptions& options) {
  std::vector<Row> rows;
  for (std::size_t i = 0; i < plan.answer.places.size(); ++i) {
    const solver::PlaceAnswer& water = plan.answer.places[i];
    if (!water.need_m3_s) {
      continue;
    }
    rows.push_back({plan.laid.places[i].name,
                    flow_number_text(cubic_metres_per_second(water.delivered_m3_s), options.units),
                    flow_number_text(cubic_metres_per_second(*water.need_m3_s), options.units)});
  }
  if (rows.empty()) {
    return "";
  }
  return '\n' + table_text({{fmt::format("water, {}", flow_unit(options.units)), Align::Left},
                            {"gets", Align::Right},
                            {"needs", Align::Right}},
                           rows);
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

/// What troughs and tanks must hold: each rule a line, the one to go by marked.
std::string stores_table(const solver::SizePlan& plan,
                         const TableOptions& options,
                         const Terminal& terminal) {
  if (plan.stores.empty()) {
    return "";
  }
  std::vector<Row> rows;
  std::size_t before = plan.laid.places.size();
  for (const solver::StoreRule& rule : plan.stores) {
    const model::Place& place = plan.laid.places[rule.place];
    rows.push_back(
        {rule.place == before ? "" : place.name,
         rule.volume_m3 ? volume_number_text(cubic_metres(*rule.volume_m3), options.units)
                        : "no size",
         rule.held_m3 ? volume_number_text(cubic_metres(*rule.held_m3), options.units) : "",
         rule.is_too_small ? "too small"
         : rule.is_least   ? "go by this"
                           : "",
         rule_words(rule),
         std::string(source_word(rule.source))});
    before = rule.place;
  }
  const bool has_no_size =
      std::any_of(plan.stores.begin(), plan.stores.end(), [](const solver::StoreRule& rule) {
        return !rule.volume_m3;
      });
  const std::string standing_in =
      names_where(plan, [](const solver::StoreRule& rule) { return rule.stands_in_for_water; });
  return '\n' +
         table_text({{fmt::format("to hold, {}", volume_unit(options.units)), Align::Left},
                     {"least", Align::Right},
                     {"holds", Align::Right},
                     {"", Align::Left},
                     {"by the rule", Align::Left},
                     {"of", Align::Left}},
                    rows) +
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
  constexpr int length_decimals = 4;
  std::string text = csv_line({"pipe", "size", "length_m", "cost"});
  for (const solver::SizedRun& run : plan.runs) {
    for (const solver::SizedPart& part : run.parts) {
      text += csv_line({farm.pipes[run.pipe].name,
                        part.size.text,
                        cell_text(part.length_m, length_decimals),
                        cell_text(part.cost, length_decimals)});
    }
  }
  return text;
}

std::string size_json(const model::Farm& farm,
                      const solver::SizePlan& plan,
                      model::UnitSystem units) {
  Json object;
  object["format"] = 1;
  object["command"] = "size";
  object["farm"] = farm.name;
  object["runs"] = Json::array();
  for (const solver::SizedRun& run : plan.runs) {
    Json row;
    row["pipe"] = farm.pipes[run.pipe].name;
    row["parts"] = Json::array();
    for (const solver::SizedPart& part : run.parts) {
      Json piece;
      piece["size"] = part.size.text;
      piece["length_m"] = json_number(part.length_m);
      piece["cost"] = json_number(part.cost);
      row["parts"].push_back(piece);
    }
    object["runs"].push_back(row);
  }
  object["cost"] = json_number(plan.cost);
  object["bound"] = json_number(plan.bound);
  object["method"] = word_of(plan.method);
  object["stores"] = Json::array();
  for (const solver::StoreRule& rule : plan.stores) {
    Json row;
    row["place"] = plan.laid.places[rule.place].name;
    row["volume_m3"] = json_number(rule.volume_m3);
    row["rule"] = rule_words(rule);
    row["source"] = source_word(rule.source);
    row["least"] = rule.is_least;
    object["stores"].push_back(row);
  }
  object["flags"] = flag_list(plan.answer.flags, units);
  return json_text(object);
}

}  // namespace leat::render
