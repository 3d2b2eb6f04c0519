#include "render/commands/solve/csv_report.h"

#include <cstddef>
#include <optional>
#include <utility>

#include "render/words/finding_figures.h"
#include "render/words/finding_sentence.h"
#include "render/words/number_text.h"

namespace leat::render {

namespace {

// Fine enough that nothing a farm can measure is lost: 1 mL/s is 3 decimals of L/s.
constexpr int flow_decimals = 6;
constexpr int length_decimals = 4;
constexpr int pressure_decimals = 3;
constexpr int velocity_decimals = 4;
constexpr int reynolds_decimals = 0;
constexpr int share_decimals = 4;

std::optional<double> litres_per_second(std::optional<double> flow_m3_s) {
  return flow_m3_s ? std::optional(*flow_m3_s * 1e3) : std::nullopt;
}

std::optional<double> kilopascals_of(std::optional<double> pressure_pascals) {
  return pressure_pascals ? std::optional(*pressure_pascals / 1e3) : std::nullopt;
}

std::string truth_text(bool is_so) {
  return is_so ? "true" : "false";
}

std::vector<std::string> summit_cells(const std::optional<solver::SummitAnswer>& summit) {
  if (!summit) {
    return {"", "", "", "", ""};
  }
  return {cell_text(summit->at_m, length_decimals),
          cell_text(summit->elevation_m, length_decimals),
          cell_text(summit->absolute_head_m, length_decimals),
          cell_text(summit->margin_m, length_decimals),
          truth_text(summit->parted)};
}

}  // namespace

std::string csv_line(const std::vector<std::string>& cells) {
  std::string line;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    line += i == 0 ? "" : ",";
    if (cells[i].find_first_of(",\"\r\n") == std::string::npos) {
      line += cells[i];
      continue;
    }
    line += '"';
    for (const char letter : cells[i]) {
      line += letter == '"' ? "\"\"" : std::string(1, letter);
    }
    line += '"';
  }
  return line + '\n';
}

std::string places_csv(const model::Farm& farm, const solver::SteadyAnswer& answer) {
  std::string text = csv_line({"name",
                               "kind",
                               "elevation_m",
                               "head_m",
                               "level_m",
                               "pressure_kPa",
                               "delivered_L_s",
                               "need_L_s",
                               "met",
                               "spill_L_s",
                               "state"});
  for (std::size_t i = 0; i < answer.places.size(); ++i) {
    const solver::PlaceAnswer& place = answer.places[i];
    text += csv_line({farm.places.at(i).name,
                      model::kind_word(farm.places.at(i)),
                      cell_text(place.elevation_m, length_decimals),
                      cell_text(place.head_m, length_decimals),
                      cell_text(place.level_m, length_decimals),
                      cell_text(kilopascals_of(place.pressure_Pa), pressure_decimals),
                      cell_text(litres_per_second(place.delivered_m3_s), flow_decimals),
                      cell_text(litres_per_second(place.need_m3_s), flow_decimals),
                      cell_text(place.met, share_decimals),
                      cell_text(litres_per_second(place.spill_m3_s), flow_decimals),
                      solver::word_of(place.state)});
  }
  return text;
}

std::string pipes_csv(const model::Farm& farm, const solver::SteadyAnswer& answer) {
  std::string text = csv_line({"name",
                               "from",
                               "to",
                               "flow_L_s",
                               "velocity_m_s",
                               "reynolds",
                               "head_loss_m",
                               "lowest_pressure_kPa",
                               "lowest_at_m",
                               "highest_pressure_kPa",
                               "part_full_m",
                               "summit_at_m",
                               "summit_elevation_m",
                               "summit_absolute_head_m",
                               "summit_margin_m",
                               "summit_parted",
                               "state"});
  for (std::size_t i = 0; i < answer.pipes.size(); ++i) {
    const model::Pipe& pipe = farm.pipes.at(i);
    const solver::PipeAnswer& flowing = answer.pipes[i];
    std::vector<std::string> cells = {
        pipe.name,
        farm.places.at(pipe.from).name,
        farm.places.at(pipe.to).name,
        cell_text(litres_per_second(flowing.flow_m3_s), flow_decimals),
        cell_text(flowing.velocity_m_s, velocity_decimals),
        cell_text(flowing.reynolds, reynolds_decimals),
        cell_text(flowing.head_loss_m, length_decimals),
        cell_text(kilopascals_of(flowing.lowest_pressure_Pa), pressure_decimals),
        cell_text(flowing.lowest_at_m, length_decimals),
        cell_text(kilopascals_of(flowing.highest_pressure_Pa), pressure_decimals),
        cell_text(flowing.part_full_m, length_decimals)};
    for (std::string& cell : summit_cells(flowing.summit)) {
      cells.push_back(std::move(cell));
    }
    cells.emplace_back(solver::word_of(flowing.state));
    text += csv_line(cells);
  }
  return text;
}

std::string flags_csv(const std::vector<solver::Finding>& findings, model::UnitSystem units) {
  std::string text =
      csv_line({"code", "severity", "where", "text", "value", "limit", "unit", "case"});
  for (const solver::Finding& finding : findings) {
    text += csv_line({solver::word_of(finding.code),
                      solver::word_of(finding.severity),
                      finding.where,
                      sentence_of(finding, units),
                      cell_text(printed_figure(finding.value, finding.measure), share_decimals),
                      cell_text(printed_figure(finding.limit, finding.measure), share_decimals),
                      std::string(unit_word(finding.measure)),
                      solver::word_of(finding.load_case)});
  }
  return text;
}

}  // namespace leat::render
