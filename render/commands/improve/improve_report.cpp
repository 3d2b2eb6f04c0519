#include "render/commands/improve/improve_report.h"

#include <algorithm>
#include <optional>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "render/commands/improve/improve_columns.h"
#include "render/commands/solve/answer_json.h"
#include "render/document/text_table.h"
#include "render/words/cautions.h"
#include "render/words/compare.h"
#include "render/words/finding_sentence.h"
#include "render/words/improve.h"
#include "render/words/number_text.h"
#include "render/words/table_cells.h"
#include "solver/findings/states.h"

namespace leat::render {

namespace {

using Row = std::vector<std::string>;
using solver::SolvedChange;

constexpr std::size_t most_rows = 12;
constexpr std::size_t most_sentences = 5;
constexpr std::size_t most_small_changes = 20;
/// What is done is cut to what fits beside the figures.
constexpr int widest_table = 100;
constexpr int widest_words = 72;
constexpr int narrowest_words = 24;
constexpr int indent = 4;

/// "+0.81", "-0.02", "0".
std::string gain_text(double gain_m3_s, model::UnitSystem units) {
  const std::string text = flow_number_text(cubic_metres_per_second(gain_m3_s), units);
  const bool is_more = text.find_first_of("123456789") != std::string::npos && gain_m3_s > 0.0;
  return (is_more ? "+" : "") + text;
}

std::string met_text(const SolvedChange& change) {
  if (!change.met_before || !change.met_after) {
    return "-";
  }
  return fmt::format("{} to {}", share_words(*change.met_before), share_words(*change.met_after));
}

/// "2 cautions", "danger", "-".
std::string flags_cell(const SolvedChange& change) {
  const auto dangers = std::count_if(
      change.new_flags.begin(), change.new_flags.end(), [](const solver::Finding& flag) {
        return flag.severity == solver::Severity::Danger;
      });
  const auto cautions = static_cast<std::ptrdiff_t>(change.new_flags.size()) - dangers;
  std::string text;
  if (dangers > 0) {
    text = dangers == 1 ? "danger" : fmt::format("{} dangers", dangers);
  } else if (cautions > 0) {
    text = cautions == 1 ? "caution" : fmt::format("{} cautions", cautions);
  }
  return text.empty() ? "-" : text;
}

std::string capital(std::string sentence) {
  if (!sentence.empty() && sentence[0] >= 'a' && sentence[0] <= 'z') {
    sentence[0] = static_cast<char>(sentence[0] - 'a' + 'A');
  }
  return sentence;
}

bool is_wide(const solver::ImprovePlan& plan) {
  return plan.answer.load_case == solver::LoadCase::Wide;
}

std::string opening_text(const model::Farm& farm,
                         const solver::ImprovePlan& plan,
                         const TableOptions& options,
                         const Terminal& terminal) {
  const solver::PlaceAnswer& water = plan.answer.places[plan.place];
  const std::string& name = farm.places[plan.place].name;
  const std::string gets = solver::spoken_flow(water.delivered_m3_s, options.units);
  std::string text = is_wide(plan)
                         ? fmt::format("With every float wide open {} gets {}", name, gets)
                         : fmt::format("To help {}: it gets {}", name, gets);
  if (water.need_m3_s) {
    text += fmt::format("{} needs {}",
                        is_wide(plan) ? "; it" : " and",
                        solver::spoken_flow(*water.need_m3_s, options.units));
  }
  return wrapped(text + '.', text_width(terminal), 0);
}

std::vector<std::size_t> shown_changes(const solver::ImprovePlan& plan,
                                       const TableOptions& options) {
  std::vector<std::size_t> shown;
  for (std::size_t i = 0; i < plan.changes.size(); ++i) {
    const bool is_all = options.detail == Detail::Verbose;
    if (is_all || (plan.changes[i].helps && shown.size() < most_rows)) {
      shown.push_back(i);
    }
  }
  return shown;
}

int widest_line(const std::string& text) {
  int widest = 0;
  std::size_t begin = 0;
  while (begin < text.size()) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    widest = std::max(widest, display_width(std::string_view(text).substr(begin, end - begin)));
    begin = end + 1;
  }
  return widest;
}

/// The table, and how wide its words came out.
struct ChangesTable {
  std::string text;
  int words_width = narrowest_words;
};

ChangesTable changes_table(const model::Farm& farm,
                           const solver::ImprovePlan& plan,
                           const std::vector<std::size_t>& shown,
                           const TableOptions& options) {
  const auto is_any = [&](const auto& holds) {
    return std::any_of(
        shown.begin(), shown.end(), [&](std::size_t i) { return holds(plan.changes[i]); });
  };
  const bool has_costs = is_any([](const SolvedChange& change) { return change.cost.has_value(); });
  // Where all have their need before and after, how much of it is met tells nothing.
  const bool has_met = is_any([](const SolvedChange& change) {
    return change.met_before && change.met_after &&
           (*change.met_before < 1.0 || *change.met_after < 1.0);
  });
  constexpr int name_width = 12;
  std::vector<Heading> columns = {
      {"", Align::Right},
      {fmt::format("gains in {}", flow_unit(options.units)), Align::Left},
      {cut_to_width(farm.places[plan.place].name, name_width), Align::Right},
      {"all", Align::Right}};
  if (has_met) {
    columns.push_back({"needs met", Align::Right});
  }
  columns.push_back({"new", Align::Left});
  if (has_costs) {
    columns.push_back({"cost", Align::Right});
  }
  std::vector<Row> rows;
  for (const std::size_t i : shown) {
    const SolvedChange& change = plan.changes[i];
    rows.push_back({fmt::format("{}", i + 1),
                    "",
                    gain_text(change.gain_m3_s, options.units),
                    gain_text(change.total_gain_m3_s, options.units)});
    if (has_met) {
      rows.back().push_back(met_text(change));
    }
    rows.back().push_back(flags_cell(change));
    if (has_costs) {
      rows.back().push_back(money_cell(change.cost, options.units));
    }
  }
  std::vector<std::string> words;
  for (const std::size_t i : shown) {
    words.push_back(action_words(plan.changes[i].actions.front(), options.units));
  }
  ChangesTable table;
  for (table.words_width = widest_words; table.words_width >= narrowest_words;
       --table.words_width) {
    for (std::size_t row = 0; row < rows.size(); ++row) {
      rows[row][1] = cut_to_width(words[row], table.words_width);
    }
    table.text = table_text(columns, rows);
    if (widest_line(table.text) <= widest_table) {
      break;
    }
  }
  return table;
}

/// A caution in a few words; dangers and troughs that go short are told in full.
std::string caution_words(const solver::Finding& flag, model::UnitSystem units) {
  if (flag.severity == solver::Severity::Danger || solver::is_short(flag.code)) {
    return sentence_of(flag, units);
  }
  if (flag.code == solver::Code::SpareExceeded) {
    return fmt::format("more is taken out of {} than it can spare", flag.where);
  }
  if (flag.code == solver::Code::Collapse) {
    return fmt::format("{} may be sucked flat", flag.where);
  }
  if (flag.code == solver::Code::AirStays) {
    return fmt::format("air stays in {}", flag.where);
  }
  if (flag.code == solver::Code::Backwards) {
    return fmt::format("{} runs backwards", flag.where);
  }
  if (flag.code == solver::Code::SuctionAtTee) {
    return fmt::format("{} comes under suction", flag.where);
  }
  std::string code = solver::word_of(flag.code);
  std::replace(code.begin(), code.end(), '-', ' ');
  return fmt::format("{} at {}", code, flag.where);
}

std::string flags_words(const SolvedChange& change, model::UnitSystem units) {
  std::string text;
  for (const solver::Finding& flag : change.new_flags) {
    text += fmt::format(" New {}: {}.", solver::word_of(flag.severity), caution_words(flag, units));
  }
  return text;
}

/// What holds the place back, where nothing helps.
std::string what_holds_back(const solver::ImprovePlan& plan,
                            model::UnitSystem units,
                            const Terminal& terminal) {
  return plan.held_back_by
             ? wrapped(fmt::format("Why: {}.", sentence_of(*plan.held_back_by, units)),
                       text_width(terminal),
                       0)
             : "";
}

/// Dangers and cautions of the farm as it is, which other commands tell.
std::string other_findings(const solver::ImprovePlan& plan, const Terminal& terminal) {
  std::size_t dangers = 0;
  std::size_t cautions = 0;
  for (const solver::Finding& flag : plan.flags) {
    const bool is_short = solver::is_short(flag.code);
    dangers += flag.severity == solver::Severity::Danger ? 1 : 0;
    cautions += flag.severity == solver::Severity::Caution && !is_short ? 1 : 0;
  }
  if (dangers + cautions == 0) {
    return "";
  }
  const auto counted = [](std::size_t count, const char* word) {
    return count == 0 ? std::string() : fmt::format("{} {}{}", count, word, count == 1 ? "" : "s");
  };
  return wrapped(fmt::format("Also, the farm as it is has {}{}{}: leat solve tells of {}.",
                             counted(dangers, "danger"),
                             dangers > 0 && cautions > 0 ? " and " : "",
                             counted(cautions, "caution"),
                             dangers + cautions == 1 ? "it" : "them"),
                 text_width(terminal),
                 0);
}

/// The first few in full, and any that raise a new danger.
std::string sentences(const model::Farm& farm,
                      const solver::ImprovePlan& plan,
                      const std::vector<std::size_t>& shown,
                      int words_width,
                      const TableOptions& options,
                      const Terminal& terminal) {
  std::string text;
  std::size_t told = 0;
  for (const std::size_t i : shown) {
    const SolvedChange& change = plan.changes[i];
    // What the table had to cut short is always told.
    const bool is_cut =
        display_width(action_words(change.actions.front(), options.units)) > words_width;
    const bool has_more = !change.gets.empty() || !change.new_flags.empty() || is_cut;
    if (has_more && (told < most_sentences || is_cut)) {
      ++told;
      text += wrapped(fmt::format("{:>2}  {}.{}",
                                  i + 1,
                                  capital(change_words(farm, change, options.units)),
                                  flags_words(change, options.units)),
                      text_width(terminal),
                      indent);
    }
  }
  return text.empty() ? text : '\n' + text;
}

/// Where nothing helps, whether that is for another trough's sake.
template <class Among>
const char* for_whose_sake(const solver::ImprovePlan& plan, const Among& among) {
  constexpr double least_gain_m3_s = 1e-7;
  const bool would_rob =
      std::any_of(plan.changes.begin(), plan.changes.end(), [&](const SolvedChange& change) {
        return among(change) && change.gain_m3_s > least_gain_m3_s && change.leaves_another_short;
      });
  return would_rob ? " without another going short for it" : "";
}

/// Which valve to set, and how far: the best setting, or that there is none.
std::string valve_text(const model::Farm& farm,
                       const solver::ImprovePlan& plan,
                       const TableOptions& options,
                       const Terminal& terminal) {
  for (const SolvedChange& change : plan.changes) {
    if (change.kind == solver::ChangeKind::ValveSet && change.helps) {
      return wrapped(fmt::format("Valves: {}.{}",
                                 change_words(farm, change, options.units),
                                 flags_words(change, options.units)),
                     text_width(terminal),
                     indent);
    }
  }
  return wrapped(fmt::format("Valves: no valve set part shut gives {} more{}.",
                             farm.places[plan.place].name,
                             for_whose_sake(plan,
                                            [](const SolvedChange& change) {
                                              return change.kind == solver::ChangeKind::ValveSet;
                                            })),
                 text_width(terminal),
                 indent);
}

std::string pair_text(const model::Farm& farm,
                      const solver::ImprovePlan& plan,
                      const TableOptions& options,
                      const Terminal& terminal) {
  if (!plan.pair) {
    return wrapped("Pairs: no two changes together do better than the best one.",
                   text_width(terminal),
                   indent);
  }
  const SolvedChange& pair = *plan.pair;
  const bool is_met =
      !plan.nothing_starves && plan.changes.front().met_after.value_or(0.0) >= solver::met_limit;
  std::string text =
      fmt::format("{}: {}, and {}: {} {}, all {}",
                  is_met ? "One change is enough; the pair that brings most" : "Best pair",
                  action_words(pair.actions[0], options.units),
                  action_words(pair.actions[1], options.units),
                  farm.places[plan.place].name,
                  gain_text(pair.gain_m3_s, options.units),
                  gain_text(pair.total_gain_m3_s, options.units));
  text += fmt::format(" {}", flow_unit(options.units));
  if (pair.met_before && pair.met_after && (*pair.met_before < 1.0 || *pair.met_after < 1.0)) {
    text += fmt::format(", needs met {}", met_text(pair));
  }
  if (pair.cost) {
    text += fmt::format(", cost {}", money_cell(pair.cost, options.units));
  }
  return wrapped(text + '.' + flags_words(pair, options.units), text_width(terminal), indent);
}

std::string small_changes_table(const model::Farm& farm,
                                const solver::ImprovePlan& plan,
                                const TableOptions& options) {
  if (plan.small_changes.empty()) {
    return "";
  }
  std::vector<Row> rows;
  for (const solver::SmallChange& change : plan.small_changes) {
    if (rows.size() < most_small_changes || options.detail == Detail::Verbose) {
      rows.push_back({solver::name_of(farm, change.input),
                      small_change_words(change, options.units),
                      gain_text(change.gain_m3_s, options.units)});
    }
  }
  return '\n' + table_text({{"to first order", Align::Left},
                            {"made", Align::Left},
                            {fmt::format("{}, {}",
                                         cut_to_width(farm.places[plan.place].name, widest_name),
                                         flow_unit(options.units)),
                             Align::Right}},
                           rows);
}

}  // namespace

std::string improve_table(const model::Farm& farm,
                          const solver::ImprovePlan& plan,
                          const TableOptions& options,
                          const Terminal& terminal) {
  const int width = text_width(terminal);
  std::string text = answer_heading(farm, plan.answer, options, terminal);
  for (const solver::ImproveNote& note : plan.notes) {
    text += wrapped(capital(improve_note(note)) + '.', width, 0);
  }
  text += opening_text(farm, plan, options, terminal);
  const std::vector<std::size_t> shown = shown_changes(plan, options);
  if (shown.empty()) {
    text += wrapped(fmt::format("None of the {} single changes solved gives {} more{}.",
                                plan.changes.size(),
                                farm.places[plan.place].name,
                                for_whose_sake(plan, [](const SolvedChange&) { return true; })),
                    width,
                    0) +
            what_holds_back(plan, options.units, terminal);
  } else {
    const ChangesTable table = changes_table(farm, plan, shown, options);
    text += '\n' + table.text;
    const auto helping = static_cast<std::size_t>(
        std::count_if(plan.changes.begin(), plan.changes.end(), [](const SolvedChange& change) {
          return change.helps;
        }));
    const std::size_t listed = std::min(shown.size(), helping);
    text +=
        wrapped(fmt::format("{} single changes solved, {} of them {}{}. Gains are {}.",
                            plan.changes.size(),
                            helping,
                            helping == 1 ? "helps" : "help",
                            listed < helping
                                ? fmt::format(" (the best {} listed; --verbose lists all)", listed)
                                : "",
                            is_wide(plan) ? "with every float wide open"
                                          : "over the hours in which stock drink now"),
                width,
                0);
    if (std::any_of(shown.begin(), shown.end(), [&](std::size_t i) {
          return plan.changes[i].leaves_another_short;
        })) {
      text += wrapped(
          "What makes another go short that had its need counts for no more than that one keeps.",
          width,
          0);
    }
    text += sentences(farm, plan, shown, table.words_width, options, terminal);
  }
  text +=
      '\n' + pair_text(farm, plan, options, terminal) + valve_text(farm, plan, options, terminal);
  for (const solver::AirLoss& air : plan.air) {
    text +=
        wrapped(fmt::format("Air: {}.", air_words(farm, plan, air, options.units)), width, indent);
  }
  text += small_changes_table(farm, plan, options);
  text += other_findings(plan, terminal);
  return text + '\n' + cautions_text(farm, plan.answer, terminal);
}

std::string improve_json(const model::Farm& farm,
                         const solver::ImprovePlan& plan,
                         model::UnitSystem units) {
  Json object;
  object["format"] = 1;
  object["command"] = "improve";
  object["farm"] = farm.name;
  object["changes"] = json_rows(ranked_change_columns(), ranked_change_rows(farm, plan, units));
  object["pair"] = plan.pair ? json_row(pair_columns(), PairRow{*plan.pair, units}) : Json(nullptr);
  if (plan.small_changes_asked) {
    object["sensitivities"] =
        json_rows(small_change_columns(), small_change_rows(farm, plan, units));
  }
  object["flags"] = flag_list(plan.flags, units);
  return json_text(object);
}

std::string improve_csv(const model::Farm& farm,
                        const solver::ImprovePlan& plan,
                        model::UnitSystem units) {
  return csv_text(ranked_change_columns(), ranked_change_rows(farm, plan, units));
}

}  // namespace leat::render
