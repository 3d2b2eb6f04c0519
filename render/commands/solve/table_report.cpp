#include "render/commands/solve/table_report.h"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string_view>
#include <variant>
#include <vector>

#include <fmt/format.h>

#include "render/commands/solve/answer_columns.h"
#include "render/document/text_table.h"
#include "render/words/cautions.h"
#include "render/words/findings_text.h"
#include "render/words/load_case_words.h"
#include "render/words/number_text.h"
#include "render/words/pumps_and_rams_text.h"
#include "render/words/steady_notes.h"
#include "render/words/table_cells.h"
#include "render/words/tank_text.h"

namespace leat::render {

namespace {

using Row = std::vector<std::string>;

/// Whether the driest month was judged by springs and creeks (else by what stock drink).
bool has_varying_source(const model::Farm& farm) {
  return std::any_of(farm.places.begin(), farm.places.end(), [](const model::Place& place) {
    const model::MonthSeries<Flow>* const inflow = model::inflow_of(place);
    return inflow != nullptr && inflow->varies;
  });
}

std::string month_words(const model::Farm& farm, const solver::SteadyAnswer& answer) {
  if (!answer.month) {
    return "";
  }
  const std::string month(model::name_of(*answer.month));
  if (!answer.month_chosen) {
    return month + "; ";
  }
  return month + (has_varying_source(farm) ? ", chosen as the driest month; "
                                           : ", chosen as the month of greatest need; ");
}

/// Whether a pipe carries water out of a place.
bool is_drawn_from(const model::Farm& farm, const solver::SteadyAnswer& answer, std::size_t place) {
  for (std::size_t i = 0; i < farm.pipes.size(); ++i) {
    const double flow_m3_s = answer.pipes.at(i).flow_m3_s;
    if ((farm.pipes[i].from == place && flow_m3_s >= solver::still_flow_m3_s) ||
        (farm.pipes[i].to == place && flow_m3_s <= -solver::still_flow_m3_s)) {
      return true;
    }
  }
  return false;
}

/// Whether the place stands in the first table, with those who get water: troughs, outlets, open
/// water that gains, and ponds and tanks that no water leaves.
bool is_end_user(const model::Farm& farm, const solver::SteadyAnswer& answer, std::size_t index) {
  const model::Place& place = farm.places[index];
  const double delivered_m3_s = answer.places.at(index).delivered_m3_s;
  if (!model::is_open_water(place)) {
    return !model::is_tee(place);
  }
  return delivered_m3_s >= solver::still_flow_m3_s ||
         (model::stores_water(place) && delivered_m3_s > -solver::still_flow_m3_s &&
          !is_drawn_from(farm, answer, index));
}

TextTable users_table(const model::Farm& farm,
                      const solver::SteadyAnswer& answer,
                      model::UnitSystem units) {
  std::vector<PlaceRow> rows;
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    if (is_end_user(farm, answer, i)) {
      rows.push_back({farm.places[i], answer.places.at(i)});
    }
  }
  return table_of(place_columns(),
                  {{"who gets what", "name"},
                   {"", "kind"},
                   {"level",
                    "level_m",
                    [](const PlaceRow& row, model::UnitSystem read_in) {
                      return level_cell(
                          row.answer.level_m ? row.answer.level_m : row.answer.elevation_m,
                          read_in);
                    }},
                   {"gets", "delivered_L_s"},
                   {"needs", "need_L_s"},
                   {"met", "met"},
                   {"pressure", "pressure_kPa"},
                   {"state", "state"}},
                  rows,
                  units);
}

TextTable sources_table(const model::Farm& farm,
                        const solver::SteadyAnswer& answer,
                        model::UnitSystem units) {
  std::vector<PlaceRow> rows;
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    if (model::is_open_water(farm.places[i]) && !is_end_user(farm, answer, i)) {
      rows.push_back({farm.places[i], answer.places.at(i)});
    }
  }
  return table_of(place_columns(),
                  {{"where it comes from", "name"},
                   {"", "kind"},
                   {"level", "level_m"},
                   {"gives",
                    "delivered_L_s",
                    [](const PlaceRow& row, model::UnitSystem read_in) {
                      return flow_cell(-row.answer.delivered_m3_s, read_in);
                    }},
                   {"has to give", "has_to_give_L_s"},
                   {"spills", "spill_L_s"},
                   {"state", "state"}},
                  rows,
                  units);
}

TextTable static_table(const model::Farm& farm,
                       const solver::SteadyAnswer& answer,
                       model::UnitSystem units) {
  return table_of(place_columns(),
                  {{"standing water", "name"},
                   {"", "kind"},
                   {"level", "elevation_m"},
                   {"head", "head_m"},
                   {"pressure", "pressure_kPa"},
                   {"state", "state"}},
                  place_rows(farm, answer),
                  units);
}

TextTable pipes_table(const model::Farm& farm,
                      const solver::SteadyAnswer& answer,
                      model::UnitSystem units) {
  return table_of(pipe_columns(),
                  {{"pipe", "name"},
                   {"flow", "flow_L_s"},
                   {std::string(velocity_unit(units)), "velocity_m_s"},
                   {"loss", "head_loss_m"},
                   {"lowest", "lowest_pressure_kPa"},
                   {"highest", "highest_pressure_kPa"},
                   {"rating", "rating_kPa"},
                   {"state", "state"}},
                  pipe_rows(farm, answer),
                  units);
}

std::string closing(const model::Farm& farm,
                    const solver::SteadyAnswer& answer,
                    model::UnitSystem units,
                    const Terminal& terminal) {
  const int width = text_width(terminal);
  std::string notes;
  for (const std::string& note : steady_note_texts(answer.notes, units)) {
    notes += wrapped(note, width, 0);
  }
  if (!farm.notes.empty()) {
    notes += wrapped(
        fmt::format("{} assumed while reading the file: see leat read.",
                    farm.notes.size() == 1 ? std::string("One thing was")
                                           : fmt::format("{} things were", farm.notes.size())),
        width,
        0);
  }
  std::string text = notes.empty() ? "" : '\n' + notes;
  return text + '\n' + cautions_text(farm, answer, terminal);
}

}  // namespace

std::vector<TextTable> answer_tables(const model::Farm& farm,
                                     const solver::SteadyAnswer& answer,
                                     model::UnitSystem units) {
  return {users_table(farm, answer, units),
          sources_table(farm, answer, units),
          pipes_table(farm, answer, units)};
}

std::string case_text(const model::Farm& farm, const solver::SteadyAnswer& answer) {
  std::string situation = month_words(farm, answer);
  situation += heading_of(answer.load_case);
  if (answer.broken) {
    situation += fmt::format("; the float of {} hangs open", *answer.broken);
  }
  return situation;
}

std::string units_text(const model::Farm& farm, model::UnitSystem units) {
  const std::string datum =
      farm.datum ? fmt::format(" above the datum ({})", cut_to_width(*farm.datum, widest_text))
                 : "";
  return fmt::format("levels in {}{}, flows in {}, pressures in {}",
                     length_unit(units),
                     datum,
                     flow_unit(units),
                     pressure_unit(units));
}

std::string answer_heading(const model::Farm& farm,
                           const solver::SteadyAnswer& answer,
                           const TableOptions& options,
                           const Terminal& terminal) {
  const int width = text_width(terminal);
  std::string text = styled(cut_to_width(farm.name, width), Style::Heading, terminal.colour) + '\n';
  text += wrapped(case_text(farm, answer), width, 0);
  text += wrapped(units_text(farm, options.units), width, 0);
  return text;
}

std::string solve_table(const model::Farm& farm,
                        const solver::SteadyAnswer& answer,
                        const TableOptions& options,
                        const Terminal& terminal) {
  const bool is_static = answer.load_case == solver::LoadCase::Static;
  std::string text = answer_heading(farm, answer, options, terminal);
  if (is_static) {
    text += table_below(static_table(farm, answer, options.units));
  } else {
    text += table_below(users_table(farm, answer, options.units));
    text += table_below(sources_table(farm, answer, options.units));
  }
  if (is_static || options.detail == Detail::Verbose) {
    text += table_below(pipes_table(farm, answer, options.units));
  }
  text += lifters_text(farm, answer, options.units, text_width(terminal));
  text += falling_tanks_text(farm, answer, options.units, text_width(terminal));
  return text +
         findings_text(answer.flags, {options.units, options.detail, answer.load_case}, terminal) +
         closing(farm, answer, options.units, terminal);
}

std::string iteration_table(const nodal::SolveReport& report) {
  std::vector<Row> rows;
  for (const nodal::IterationRecord& record : report.table) {
    rows.push_back({fmt::format("{}", record.iteration),
                    fmt::format("{:.2e}", record.residual_m),
                    fmt::format("{:.2e}", record.imbalance_m3_s),
                    fmt::format("{:.2e}", record.smoothing_m),
                    fmt::format("{:.3f}", record.step_length)});
  }
  return table_text({{"iteration", Align::Right},
                     {"residual m", Align::Right},
                     {"imbalance m3/s", Align::Right},
                     {"smoothing m", Align::Right},
                     {"step", Align::Right}},
                    rows) +
         report.sentence + '\n';
}

}  // namespace leat::render
