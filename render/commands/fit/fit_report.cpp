#include "render/commands/fit/fit_report.h"

#include <vector>

#include <fmt/format.h>

#include "render/commands/solve/answer_json.h"
#include "render/commands/solve/csv_report.h"
#include "render/document/json_text.h"
#include "render/document/text_table.h"
#include "render/words/cautions.h"
#include "render/words/fit_causes.h"
#include "render/words/fit_next.h"
#include "render/words/number_text.h"

namespace leat::render {

namespace {

using Kind = model::Measurement::Kind;

std::string_view word_of(Kind kind) {
  switch (kind) {
    case Kind::Flow:
      return "flow";
    case Kind::Pressure:
      return "pressure";
    case Kind::Level:
      return "level";
  }
  return "";
}

/// Unit of a cause's size in JSON; empty for K and shares.
std::string_view json_unit(solver::CauseKind kind) {
  switch (kind) {
    case solver::CauseKind::BlockedScreen:
    case solver::CauseKind::KinkedPipe:
    case solver::CauseKind::SiltedPipe:
    case solver::CauseKind::ValveNotOpen:
      return "";
    case solver::CauseKind::TrappedAir:
    case solver::CauseKind::LevelWrong:
    case solver::CauseKind::PipeEndWrong:
      return "m";
    case solver::CauseKind::WaterColder:
      return "C";
    case solver::CauseKind::SpringWeaker:
    case solver::CauseKind::LeakAtTee:
      return "L/s";
  }
  return "";
}

std::string_view json_unit(Kind kind) {
  switch (kind) {
    case Kind::Flow:
      return "L/s";
    case Kind::Pressure:
      return "kPa";
    case Kind::Level:
      return "m";
  }
  return "";
}

double in_json(Kind kind, double value) {
  return kind == Kind::Flow ? value * 1e3 : (kind == Kind::Pressure ? value * 1e-3 : value);
}

std::string shown(Kind kind, double value, model::UnitSystem units) {
  switch (kind) {
    case Kind::Flow:
      return flow_number_text(cubic_metres_per_second(value), units);
    case Kind::Pressure:
      return pressure_number_text(pascals(value), units);
    case Kind::Level:
      return level_number_text(elevation_metres(value), units);
  }
  return "";
}

/// An error in the unit of its reading; one too small for the reading's decimals by its first
/// figure.
std::string shown_error(Kind kind, double value, model::UnitSystem units) {
  std::string text = shown(kind, value, units);
  if (kind == Kind::Level && text.find_first_of("123456789") == std::string::npos) {
    const double level = units == model::UnitSystem::Us ? in_feet(metres(value)) : value;
    text = fmt::format("{:.1g}", level);
  }
  return text;
}

/// Rows stand behind their number.
constexpr int indent = 4;

/// A row's sentence behind its number; of three alternatives and more each begins a line.
std::string numbered(std::size_t number, const EntrySentence& sentence, int width) {
  const std::vector<std::string>& parts = sentence.alternatives;
  if (parts.size() < 3) {
    return wrapped(fmt::format("{:>2}  {}", number, sentence.text()), width, indent);
  }
  std::string text = wrapped(fmt::format("{:>2}  {},", number, parts.front()), width, indent);
  for (std::size_t i = 1; i < parts.size(); ++i) {
    const std::string& end = i + 1 < parts.size() ? "," : sentence.likely;
    text += wrapped(std::string(indent, ' ') + "or " + parts[i] + end, width, indent + 2);
  }
  return text;
}

std::string_view unit_of(Kind kind, model::UnitSystem units) {
  switch (kind) {
    case Kind::Flow:
      return flow_unit(units);
    case Kind::Pressure:
      return pressure_unit(units);
    case Kind::Level:
      return length_unit(units);
  }
  return "";
}

std::string name_of_spot(const model::Farm& farm, const solver::ReadingSpot& spot) {
  return spot.pipe ? farm.pipes[*spot.pipe].name : farm.places[spot.place].name;
}

std::string heading(const model::Farm& farm,
                    const solver::FitAnswer& answer,
                    const Terminal& terminal) {
  const int width = text_width(terminal);
  const std::string month =
      answer.answer.month ? fmt::format("{}; ", model::name_of(*answer.answer.month)) : "";
  const bool wide = answer.answer.load_case == solver::LoadCase::Wide;
  return styled(cut_to_width(fmt::format("{}: what was measured, and why it differs", farm.name),
                             width),
                Style::Heading,
                terminal.colour) +
         '\n' +
         wrapped(fmt::format("{}{}; +/- is one standard error of the reading",
                             month,
                             wide ? "computed with every float held wide open, as a bucket "
                                    "under it finds it"
                                  : "computed with each trough taking at most its need"),
                 width,
                 0);
}

Json cause_row(const model::Farm& farm, const solver::FitAnswer& answer, std::size_t index) {
  const solver::FitEntry& entry = answer.result.entries[index];
  const solver::FittedCause& lead = entry.causes.front();
  const std::string_view unit = json_unit(lead.site.kind);
  const auto size = [&](double value) {
    return json_number(solver::told_size(farm, answer, lead, value) * (unit == "L/s" ? 1e3 : 1.0));
  };
  Json row;
  row["rank"] = index + 1;
  row["cause"] = names_of(entry);
  row["where"] = where_of(farm, lead.site);
  row["size"] = size(lead.size);
  row["unit"] = std::string(unit);
  row["low"] = size(lead.low);
  row["high"] = size(lead.high);
  row["chance"] = json_number(entry.chance);
  row["alike"] = Json::array();
  for (const std::size_t other : entry.alike) {
    row["alike"].push_back(other + 1);
  }
  row["places"] = places_of(farm, entry);
  return row;
}

}  // namespace

TextTable readings_table(const model::Farm& farm,
                         const solver::FitAnswer& answer,
                         model::UnitSystem units) {
  std::vector<std::vector<std::string>> rows;
  for (std::size_t i = 0; i < answer.given.size(); ++i) {
    const solver::ReadingSpot& spot = answer.spots[i];
    const solver::GivenReading& given = answer.given[i];
    const double computed = answer.result.computed[i];
    rows.push_back(
        {name_of_spot(farm, spot),
         std::string(word_of(spot.kind)),
         shown(spot.kind, given.value, units),
         shown_error(spot.kind, given.error, units),
         shown(spot.kind, computed, units),
         std::string(unit_of(spot.kind, units)),
         fmt::format("{} errors", decimal_text((given.value - computed) / given.error, 1))});
  }
  return {{{"measured at", Align::Left},
           {"", Align::Left},
           {"measured", Align::Right},
           {"+/-", Align::Right},
           {"computed", Align::Right},
           {"", Align::Left},
           {"off by", Align::Right}},
          rows};
}

std::string fit_table(const model::Farm& farm,
                      const solver::FitAnswer& answer,
                      const TableOptions& options,
                      const Terminal& terminal) {
  const int width = text_width(terminal);
  std::string text = heading(farm, answer, terminal) +
                     table_below(readings_table(farm, answer, options.units)) + '\n' +
                     wrapped(fit_verdict(answer), width, 0);
  const std::size_t entries = answer.result.entries.size();
  text += entries == 0 ? "" : "\n";
  for (std::size_t i = 0; i < entries; ++i) {
    text += numbered(i + 1, sentence_of_entry(farm, answer, i, options.units), width);
  }
  if (entries > 0 && answer.result.chance_of_other > 0.01) {
    text += wrapped(fmt::format("    something that is not listed: {} likely",
                                spoken_chance(answer.result.chance_of_other)),
                    width,
                    indent);
  }
  text += '\n' + wrapped(fmt::format("Next: {}.", fit_next(farm, answer, options.units)), width, 0);
  if (entries > 0) {
    text += wrapped(fit_remark, width, 0);
  }
  return text + '\n' + cautions_text(farm, answer.answer, terminal);
}

std::string fit_json(const model::Farm& farm,
                     const solver::FitAnswer& answer,
                     model::UnitSystem units) {
  Json object;
  object["format"] = 1;
  object["command"] = "fit";
  object["farm"] = farm.name;
  object["measured"] = Json::array();
  for (std::size_t i = 0; i < answer.given.size(); ++i) {
    const Kind kind = answer.spots[i].kind;
    Json row;
    row["at"] = name_of_spot(farm, answer.spots[i]);
    row["given"] = json_number(in_json(kind, answer.given[i].value));
    row["computed"] = json_number(in_json(kind, answer.result.computed[i]));
    row["error"] = json_number(in_json(kind, answer.given[i].error));
    row["what"] = std::string(word_of(kind));
    row["unit"] = std::string(json_unit(kind));
    object["measured"].push_back(row);
  }
  object["causes"] = Json::array();
  for (std::size_t i = 0; i < answer.result.entries.size(); ++i) {
    object["causes"].push_back(cause_row(farm, answer, i));
  }
  object["next"] = fit_next(farm, answer, units);
  object["verdict"] = fit_verdict(answer);
  object["flags"] = flag_list(answer.answer.flags, units);
  return json_text(object);
}

std::string fit_csv(const model::Farm& farm, const solver::FitAnswer& answer) {
  std::string text = csv_line(
      {"rank", "cause", "where", "size", "unit", "low", "high", "chance", "alike", "places"});
  for (std::size_t i = 0; i < answer.result.entries.size(); ++i) {
    std::vector<std::string> cells;
    const Json row = cause_row(farm, answer, i);
    for (const auto& [key, value] : row.items()) {
      std::string cell;
      if (value.is_array()) {
        for (const Json& other : value) {
          cell += other.is_string()
                      ? (cell.empty() ? "" : "; ") + other.get<std::string>()
                      : fmt::format("{}{}", cell.empty() ? "" : " ", other.get<std::size_t>());
        }
      }
      cells.push_back(value.is_array() ? cell : csv_cell(value));
    }
    text += csv_line(cells);
  }
  return text;
}

}  // namespace leat::render
