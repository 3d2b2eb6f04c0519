#include "render/commands/compare/compare_report.h"

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <utility>
#include <variant>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "render/commands/compare/compare_columns.h"
#include "render/commands/solve/answer_json.h"
#include "render/document/text_table.h"
#include "render/words/cautions.h"
#include "render/words/compare.h"
#include "render/words/finding_sentence.h"
#include "render/words/number_text.h"
#include "render/words/table_cells.h"

namespace leat::render {

namespace {

using Row = std::vector<std::string>;
using solver::ComparedFarm;

/// Columns a farm's figures may take where four stand side by side.
constexpr int widest_label = 16;

/// The figures of one line of the table, for each farm; empty where it has none.
class Rows {
 public:
  explicit Rows(const CompareView& view) : view_(view) {}

  template <class Cell>
  void add(const std::string& heading, const Cell& cell) {
    Row row = {heading};
    bool says_something = false;
    for (std::size_t i = 0; i < view_.files.size(); ++i) {
      row.push_back(cell(*view_.files[i].farm, view_.comparison->farms[i]));
      says_something = says_something || !row.back().empty();
    }
    if (says_something) {
      for (std::string& text : row) {
        text = text.empty() ? "-" : text;
      }
      rows_.push_back(std::move(row));
    }
  }

  [[nodiscard]] const std::vector<Row>& all() const { return rows_; }

 private:
  const CompareView& view_;
  std::vector<Row> rows_;
};

/// Names of the places that all the farms' `wanted` holds, each once, in the farms' order.
template <class Wanted>
std::vector<std::string> names_of(const CompareView& view, const Wanted& wanted) {
  std::vector<std::string> names;
  for (const ComparedFile& file : view.files) {
    for (const model::Place& place : file.farm->places) {
      if (wanted(place) && std::find(names.begin(), names.end(), place.name) == names.end()) {
        names.push_back(place.name);
      }
    }
  }
  return names;
}

std::string whole_number(std::optional<double> value) {
  return value ? decimal_text(*value, 0) : "";
}

void add_flow_rows(const CompareView& view, Rows& rows) {
  const model::UnitSystem units = view.units;
  rows.add(fmt::format("water got, {}", flow_unit(units)),
           [units](const model::Farm&, const ComparedFarm& found) {
             return flow_number_text(cubic_metres_per_second(found.flow_m3_s), units);
           });
  rows.add("needs met", [](const model::Farm&, const ComparedFarm& found) {
    return found.met ? share_words(*found.met) : "";
  });
  for (const std::string& name : names_of(view, model::is_point_of_use)) {
    rows.add("  " + name, [&](const model::Farm& farm, const ComparedFarm& found) -> std::string {
      const auto place = model::place_named(farm, name);
      if (!place || !model::is_point_of_use(farm.places[*place])) {
        return "";
      }
      const solver::PlaceAnswer& answer = found.answer.places[*place];
      const std::string flow = flow_number_text(
          cubic_metres_per_second(solver::water_got_m3_s(farm.places[*place], answer)), units);
      return answer.met ? fmt::format("{}, {:>5}", flow, share_words(*answer.met)) : flow;
    });
  }
}

void add_season_rows(const CompareView& view, Rows& rows) {
  rows.add("hours dry, all troughs",
           [](const model::Farm&, const ComparedFarm& found) { return whole_number(found.dry_h); });
  for (const std::string& name : names_of(view, model::takes_from_pipes)) {
    rows.add("  " + name + " first short",
             [&](const model::Farm& farm, const ComparedFarm& found) -> std::string {
               const auto place = model::place_named(farm, name);
               if (!place || !found.season) {
                 return "";
               }
               const auto first = solver::first_dry_of(found, *place);
               return first ? model::date_text(*first) : "never";
             });
  }
  for (const std::string& name : names_of(view, model::is_pond)) {
    rows.add(fmt::format("{} lowest, {}", name, length_unit(view.units)),
             [&](const model::Farm& farm, const ComparedFarm& found) -> std::string {
               const auto place = model::place_named(farm, name);
               if (place && lowest_of_pond_m(found, *place)) {
                 return level_cell(lowest_of_pond_m(found, *place), view.units);
               }
               return "";
             });
  }
}

bool any_has(const CompareView& view, int solver::MovingParts::*part) {
  return std::any_of(view.comparison->farms.begin(),
                     view.comparison->farms.end(),
                     [part](const ComparedFarm& found) { return found.parts.*part > 0; });
}

void add_keeping_rows(const CompareView& view, Rows& rows) {
  using solver::MovingParts;
  if (any_has(view, &MovingParts::pumps)) {
    rows.add("energy, kWh", [](const model::Farm&, const ComparedFarm& found) {
      return whole_number(found.energy_kWh);
    });
  }
  if (any_has(view, &MovingParts::rams)) {
    rows.add(fmt::format("wasted by rams, {}", volume_unit(view.units)),
             [&view](const model::Farm&, const ComparedFarm& found) {
               return found.wasted_m3
                          ? volume_number_text(cubic_metres(*found.wasted_m3), view.units)
                          : "";
             });
  }
  rows.add("to start the line", [&view](const model::Farm&, const ComparedFarm& found) {
    return found.starting ? starting_words(*found.starting, view.units) : "";
  });
  static constexpr std::pair<const char*, int MovingParts::*> parts[] = {
      {"floats", &MovingParts::floats},
      {"foot valves", &MovingParts::foot_valves},
      {"checks", &MovingParts::checks},
      {"regulators", &MovingParts::regulators},
      {"rams", &MovingParts::rams},
      {"pumps", &MovingParts::pumps}};
  for (const auto& [word, part] : parts) {
    if (any_has(view, part)) {
      rows.add(word, [part = part](const model::Farm&, const ComparedFarm& found) {
        return fmt::format("{}", found.parts.*part);
      });
    }
  }
}

void add_flag_rows(Rows& rows) {
  using solver::Severity;
  for (const Severity severity : {Severity::Danger, Severity::Caution}) {
    rows.add(severity == Severity::Danger ? "dangers" : "cautions",
             [severity](const model::Farm&, const ComparedFarm& found) {
               return fmt::format("{}",
                                  std::count_if(found.flags.begin(),
                                                found.flags.end(),
                                                [severity](const solver::Finding& flag) {
                                                  return flag.severity == severity;
                                                }));
             });
  }
}

/// The rows turned into one block a farm, where too many stand side by side.
std::string blocks(const CompareView& view, const std::vector<Row>& rows) {
  std::string text;
  for (std::size_t i = 0; i < view.files.size(); ++i) {
    std::vector<Row> own;
    for (const Row& row : rows) {
      own.push_back({row.front(), row[i + 1]});
    }
    const std::string label = cut_to_width(view.files[i].label, widest_text / 2);
    text += (i == 0 ? "" : "\n") + table_text({{"", Align::Left}, {label, Align::Right}}, own);
  }
  return text;
}

std::string side_by_side(const CompareView& view, const std::vector<Row>& rows) {
  std::vector<Heading> columns = {{"", Align::Left}};
  for (const ComparedFile& file : view.files) {
    columns.push_back({cut_to_width(file.label, widest_label), Align::Right});
  }
  return table_text(columns, rows);
}

/// Farms by their labels, the month and the dates.
std::string heading(const CompareView& view, const Terminal& terminal) {
  const solver::Comparison& comparison = *view.comparison;
  std::string text = styled(fmt::format("{} farms side by side", view.files.size()),
                            Style::Heading,
                            terminal.colour) +
                     '\n';
  std::vector<Row> rows;
  for (const ComparedFile& file : view.files) {
    text += cut_to_width(fmt::format("  {}: {} ({})", file.label, file.farm->name, file.file),
                         text_width(terminal)) +
            '\n';
  }
  std::string what = comparison.month
                         ? fmt::format("flows in {}", model::name_of(*comparison.month))
                         : std::string("flows");
  what += ", each trough taking at most its need";
  const auto& season = comparison.farms.front().season;
  what += season ? fmt::format("; the rest from {} to {}",
                               model::date_text(season->from),
                               model::date_text(season->to))
                 : std::string();
  return text + wrapped(what, text_width(terminal), 0) + '\n';
}

std::string differences_text(const CompareView& view,
                             const std::vector<solver::Difference>& differences,
                             const Terminal& terminal) {
  constexpr int indent = 4;
  std::string text;
  std::size_t farm = 0;
  for (const solver::Difference& difference : differences) {
    if (difference.farm != farm) {
      farm = difference.farm;
      text += fmt::format("\n{} against {}:\n", view.files[farm].label, view.files.front().label);
    }
    text += wrapped("  " + difference_words(difference, view.files.front().label, view.units),
                    text_width(terminal),
                    indent);
  }
  return text;
}

Style style_of(solver::Severity severity) {
  return severity == solver::Severity::Danger ? Style::Danger : Style::Caution;
}

/// A finding's sentence and the farms it holds for.
struct ToldOf {
  solver::Severity severity = solver::Severity::Note;
  std::string sentence;
  std::vector<std::string> labels;
};

/// Cautions and dangers, each once, with the farms it holds for.
std::string flags_text(const CompareView& view, const Terminal& terminal) {
  constexpr int indent = 9;
  std::vector<ToldOf> told;
  for (std::size_t i = 0; i < view.files.size(); ++i) {
    for (const solver::Finding& flag : view.comparison->farms[i].flags) {
      if (flag.severity == solver::Severity::Note) {
        continue;
      }
      std::string sentence = sentence_of(flag, view.units);
      const auto same = std::find_if(told.begin(), told.end(), [&](const ToldOf& one) {
        return one.sentence == sentence && one.severity == flag.severity;
      });
      if (same == told.end()) {
        told.push_back({flag.severity, std::move(sentence), {view.files[i].label}});
      } else {
        same->labels.push_back(view.files[i].label);
      }
    }
  }
  std::stable_sort(told.begin(), told.end(), [](const ToldOf& a, const ToldOf& b) {
    return a.severity < b.severity;
  });
  std::string text = told.empty() ? "\nNothing amiss that leat checks.\n" : "\n";
  for (const auto& [severity, sentence, labels] : told) {
    const std::string_view word = solver::word_of(severity);
    const std::string lines =
        wrapped(fmt::format("{:<{}}{}: {}", word, indent, fmt::join(labels, ", "), sentence),
                text_width(terminal),
                indent);
    text += styled(word, style_of(severity), terminal.colour) + lines.substr(word.size());
  }
  return text;
}

/// What to mind on any of the farms.
std::string all_cautions(const CompareView& view, const Terminal& terminal) {
  std::vector<std::string> all;
  for (std::size_t i = 0; i < view.files.size(); ++i) {
    for (std::string& caution :
         cautions_for(*view.files[i].farm, view.comparison->farms[i].answer)) {
      const auto same = std::find(all.begin(), all.end(), caution);
      if (same != all.end()) {
        all.erase(same);  // told where the last farm tells it: the last of all stays last
      }
      all.push_back(std::move(caution));
    }
  }
  return styled(wrapped(fmt::format("Mind: {}", fmt::join(all, " ")), text_width(terminal), 0),
                Style::Dim,
                terminal.colour);
}

std::vector<solver::Difference> differences_of(const CompareView& view) {
  std::vector<const model::Farm*> farms;
  for (const ComparedFile& file : view.files) {
    farms.push_back(file.farm);
  }
  return solver::differences(farms, *view.comparison);
}

/// The name all the farms share; null where they have several.
Json common_name(const CompareView& view) {
  const std::string& name = view.files.front().farm->name;
  const bool shared = std::all_of(view.files.begin(), view.files.end(), [&name](const auto& file) {
    return file.farm->name == name;
  });
  return shared ? Json(name) : Json(nullptr);
}

}  // namespace

std::vector<std::string> labels_of(const std::vector<std::string>& files) {
  std::vector<std::string> labels;
  std::set<std::string> met;
  for (const std::string& file : files) {
    const std::size_t slash = file.rfind('/');
    std::string label = slash == std::string::npos ? file : file.substr(slash + 1);
    for (const std::string_view ending : {".yaml", ".yml"}) {
      if (label.size() > ending.size() && label.ends_with(ending)) {
        label.resize(label.size() - ending.size());
      }
    }
    met.insert(cut_to_width(label, widest_label));
    labels.push_back(std::move(label));
  }
  if (met.size() == files.size()) {
    return labels;
  }
  for (std::size_t i = 0; i < labels.size(); ++i) {
    labels[i] = fmt::format("farm {}", i + 1);
  }
  return labels;
}

std::string compare_table(const CompareView& view, const Terminal& terminal) {
  Rows rows(view);
  add_flow_rows(view, rows);
  add_season_rows(view, rows);
  add_keeping_rows(view, rows);
  add_flag_rows(rows);
  return heading(view, terminal) +
         (view.files.size() <= most_columns ? side_by_side(view, rows.all())
                                            : blocks(view, rows.all())) +
         differences_text(view, differences_of(view), terminal) + flags_text(view, terminal) +
         '\n' + all_cautions(view, terminal);
}

std::string compare_json(const CompareView& view) {
  Json object;
  object["format"] = 1;
  object["command"] = "compare";
  object["farm"] = common_name(view);
  object["farms"] = json_rows(compared_farm_columns(), compared_farm_rows(view));
  std::vector<solver::Finding> all;
  for (const ComparedFarm& found : view.comparison->farms) {
    all.insert(all.end(), found.flags.begin(), found.flags.end());
  }
  object["differences"] = Json::array();
  for (const solver::Difference& difference : differences_of(view)) {
    object["differences"].push_back(
        fmt::format("{}: {}",
                    view.files[difference.farm].label,
                    difference_words(difference, view.files.front().label, view.units)));
  }
  Json flags = Json::array();
  for (const Json& flag : flag_list(all, view.units)) {
    const auto same = [&flag](const Json& told) {
      return told["code"] == flag["code"] && told["where"] == flag["where"] &&
             told["text"] == flag["text"];
    };
    if (std::none_of(flags.begin(), flags.end(), same)) {
      flags.push_back(flag);
    }
  }
  object["flags"] = std::move(flags);
  return json_text(object);
}

std::string compare_csv(const CompareView& view) {
  return csv_text(compared_farm_columns(), compared_farm_rows(view));
}

}  // namespace leat::render
