#include "render/page/page_tables.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <variant>
#include <vector>

#include <fmt/format.h>

#include "render/words/number_text.h"
#include "render/words/table_cells.h"

namespace leat::render {
namespace {

using Cells = std::vector<std::string>;

/// A line is never parted before its "%".
std::string met_cell(std::optional<double> met) {
  std::string text = share_cell(met);
  const std::size_t blank = text.find(' ');
  return blank == std::string::npos ? text : text.replace(blank, 1, "\u00A0");
}

/// Whether the place stands with those that give: a spring or creek that gains nothing, and open
/// water that the pipes draw from.
bool gives(const model::Place& place, const solver::PlaceAnswer& seen) {
  return model::is_open_water(place) && seen.delivered_m3_s < solver::still_flow_m3_s &&
         (model::is_source(place) || seen.delivered_m3_s < -solver::still_flow_m3_s);
}

Cells getting_cells(const solver::PlaceAnswer& seen, model::UnitSystem units) {
  return {flow_cell(seen.delivered_m3_s, units),
          flow_cell(seen.need_m3_s, units),
          met_cell(seen.met),
          solver::word_of(seen.state)};
}

Cells giving_cells(const solver::PlaceAnswer& seen, model::UnitSystem units) {
  return {flow_cell(-seen.delivered_m3_s, units),
          flow_cell(seen.spill_m3_s, units),
          solver::word_of(seen.state)};
}

Cells standing_cells(const solver::PlaceAnswer& seen, model::UnitSystem units) {
  return {seen.pressure_Pa ? pressure_number_text(pascals(*seen.pressure_Pa), units) : "-",
          seen.head_m ? level_number_text(elevation_metres(*seen.head_m), units) : "-",
          solver::word_of(seen.state)};
}

/// "danger", "caution" or "": the worst that is flagged there.
std::string alarm_at(const std::string& name, const solver::SteadyAnswer& answer) {
  std::string alarm;
  for (const solver::Finding& flag : answer.flags) {
    if (flag.where == name && flag.severity == solver::Severity::Danger) {
      return "danger";
    }
    if (flag.where == name && flag.severity == solver::Severity::Caution) {
      alarm = "caution";
    }
  }
  return alarm;
}

using CellsOf = Cells (*)(const solver::PlaceAnswer&, model::UnitSystem);

/// A table to be filled row by row.
struct Table {
  Json object;
  CellsOf cells_of;

  Table(std::string caption, const Cells& columns, CellsOf cells) : cells_of(cells) {
    object["caption"] = std::move(caption);
    object["columns"] = columns;
    object["rows"] = Json::array();
  }

  void add(const SolvedFarm& now,
           std::size_t place,
           const std::optional<SolvedFarm>& saved,
           model::UnitSystem units) {
    const std::string& name = now.farm.places[place].name;
    Json row;
    row["name"] = name;
    row["kind"] = model::kind_word(now.farm.places[place]);
    row["alarm"] = alarm_at(name, now.answer);
    row["cells"] = cells_of(now.answer.places[place], units);
    row["was"] = Json();
    if (saved) {
      const auto& places = saved->farm.places;
      const auto before = std::find_if(
          places.begin(), places.end(), [&name](const auto& other) { return other.name == name; });
      if (before != places.end()) {
        row["was"] = cells_of(
            saved->answer.places[static_cast<std::size_t>(before - places.begin())], units);
      }
    }
    object["rows"].push_back(std::move(row));
  }
};

}  // namespace

Json page_tables(const SolvedFarm& now,
                 const std::optional<SolvedFarm>& saved,
                 model::UnitSystem units) {
  const std::string flow = fmt::format(", {}", flow_unit(units));
  if (now.answer.load_case == solver::LoadCase::Static) {
    Table standing("With every end shut",
                   {fmt::format("pressure, {}", pressure_unit(units)),
                    fmt::format("stands at, {}", length_unit(units)),
                    "state"},
                   standing_cells);
    for (std::size_t i = 0; i < now.farm.places.size(); ++i) {
      standing.add(now, i, saved, units);
    }
    return Json::array({standing.object});
  }
  Table getting("Who gets what", {"gets" + flow, "needs", "met", "state"}, getting_cells);
  Table giving("Where it comes from", {"gives" + flow, "spills", "state"}, giving_cells);
  for (std::size_t i = 0; i < now.farm.places.size(); ++i) {
    const model::Place& place = now.farm.places[i];
    if (!model::is_tee(place)) {
      (gives(place, now.answer.places[i]) ? giving : getting).add(now, i, saved, units);
    }
  }
  return Json::array({getting.object, giving.object});
}

}  // namespace leat::render
