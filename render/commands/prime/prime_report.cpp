#include "render/commands/prime/prime_report.h"

#include <numbers>
#include <vector>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "render/commands/prime/prime_columns.h"
#include "render/commands/solve/answer_json.h"
#include "render/document/text_table.h"
#include "render/words/cautions.h"
#include "render/words/findings_text.h"
#include "render/words/number_text.h"
#include "render/words/table_cells.h"
#include "solver/prime/prime_words.h"

namespace leat::render {

namespace {

using solver::PrimeNeed;

std::string heading(const model::Farm& farm,
                    const solver::PrimePlan& plan,
                    const TableOptions& options,
                    const Terminal& terminal) {
  const int width = text_width(terminal);
  std::string text =
      styled(cut_to_width(fmt::format("{}: {}", farm.name, line_title(farm, plan)), width),
             Style::Heading,
             terminal.colour) +
      '\n';
  text += wrapped(
      fmt::format("{}distances in {} along the ground from each pipe's start, levels in {}{}",
                  plan.month ? fmt::format("{}; ", model::name_of(*plan.month)) : std::string(),
                  length_unit(options.units),
                  length_unit(options.units),
                  farm.datum
                      ? fmt::format(" above the datum '{}'", cut_to_width(*farm.datum, widest_text))
                      : std::string()),
      width,
      0);
  return text + '\n' + wrapped(plan.verdict, width, 0);
}

TextTable legs_table(const model::Farm& farm,
                     const solver::PrimePlan& plan,
                     model::UnitSystem units) {
  TextTable table = table_of(prime_leg_columns(),
                             {{"what each leg holds", "pipe"},
                              {"from", "from_m"},
                              {"to", "to_m"},
                              {"level", "from_elevation_m"},
                              {"level", "to_elevation_m"},
                              {std::string(volume_unit(units)), "volume_L"}},
                             prime_leg_rows(farm, plan),
                             units);
  table.rows.push_back(
      {"the whole line", "", "", "", "", volume_cell(plan.course.volume_m3, units)});
  return table;
}

std::string steps_text(const solver::PrimePlan& plan,
                       model::UnitSystem units,
                       const Terminal& terminal) {
  constexpr int indent = 4;
  const std::vector<std::string> steps = step_sentences(plan, units);
  std::string text = steps.empty() ? "" : "\n";
  for (std::size_t i = 0; i < steps.size(); ++i) {
    text += wrapped(fmt::format("{:>2}  {}", i + 1, steps[i]), text_width(terminal), indent);
  }
  return text;
}

/// How fast the water runs down each falling leg and what the authors ask for.
TextTable air_table(const model::Farm& farm,
                    const solver::PrimePlan& plan,
                    model::UnitSystem units) {
  return table_of(falling_leg_columns(),
                  {{fmt::format("air, {}", velocity_unit(units)), "pipe"},
                   {"from", "from_m"},
                   {"to", "to_m"},
                   {"degrees",
                    "fall_deg",
                    [](const FallingLegRow& row, model::UnitSystem) {
                      return decimal_text(row.leg.angle_rad * 180.0 / std::numbers::pi, 1);
                    }},
                   {"runs", "velocity_m_s"},
                   {"stays", "stays_below_m_s"},
                   {"swept", "swept_above_m_s"},
                   {"Wisner", "wisner_m_s"},
                   {"Kent", "kent_m_s"},
                   {"K. & B.", "kalinske_bliss_m_s"},
                   {"air", "verdict"}},
                  falling_leg_rows(farm, plan),
                  units);
}

std::string remarks_text(const solver::PrimePlan& plan, const Terminal& terminal) {
  std::string text = plan.remarks.empty() ? "" : "\n";
  for (const std::string& remark : plan.remarks) {
    text += wrapped(remark, text_width(terminal), 0);
  }
  return text;
}

}  // namespace

std::string line_title(const model::Farm& farm, const solver::PrimePlan& plan) {
  const solver::LineCourse& line = plan.course.line;
  std::string pipes;
  for (const std::size_t pipe : line.pipes) {
    pipes += (pipes.empty() ? "" : ", ") + solver::quoted(farm.pipes[pipe].name);
  }
  return fmt::format("{} {}, from {} to {}",
                     plan.pump ? "priming" : "filling",  // a line that fills by itself has none
                     pipes,
                     solver::quoted(farm.places[line.from].name),
                     solver::quoted(farm.places[line.to].name));
}

std::vector<std::string> step_sentences(const solver::PrimePlan& plan, model::UnitSystem units) {
  std::vector<std::string> sentences;
  for (const solver::PrimeStep& step : plan.steps) {
    std::string amount;
    if (step.volume_m3) {
      amount =
          fmt::format(" ({}{})",
                      solver::spoken_volume(*step.volume_m3, units),
                      step.time_s ? ", " + solver::spoken_time(*step.time_s) + " or more" : "");
    }
    sentences.push_back(step.text + amount);
  }
  return sentences;
}

std::vector<TextTable> prime_tables(const model::Farm& farm,
                                    const solver::PrimePlan& plan,
                                    model::UnitSystem units) {
  return {legs_table(farm, plan, units), air_table(farm, plan, units)};
}

std::string prime_table(const model::Farm& farm,
                        const solver::PrimePlan& plan,
                        const TableOptions& options,
                        const Terminal& terminal) {
  const std::vector<TextTable> tables = prime_tables(farm, plan, options.units);
  std::string text = heading(farm, plan, options, terminal) + table_below(tables.front()) +
                     steps_text(plan, options.units, terminal) + remarks_text(plan, terminal);
  if (!plan.air.empty()) {
    text += table_below(tables.back()) + wrapped(air_key, text_width(terminal), 0);
  }
  return text + findings_text(plan.answer, options.detail, terminal) + '\n' +
         cautions_text(farm, plan.answer, terminal);
}

std::string prime_json(const model::Farm& farm, const solver::PrimePlan& plan) {
  Json object;
  object["format"] = 1;
  object["command"] = "prime";
  object["farm"] = farm.name;
  object["holds"] = plan.need != PrimeNeed::CannotHold;
  object["legs"] = json_rows(prime_leg_columns(), prime_leg_rows(farm, plan));
  object["volume_L"] = json_number(scale::litres.printed(plan.course.volume_m3));
  object["fill_s"] = json_number(plan.fill_s);
  object["pump_kPa"] =
      plan.pump ? json_number(scale::pressure.printed(plan.pump->needed_Pa)) : Json(nullptr);
  object["steps"] = json_rows(prime_step_columns(), prime_step_rows(plan));
  const auto flow_json = [](const std::optional<double>& flow_m3_s) {
    return flow_m3_s ? json_number(scale::flow.printed(*flow_m3_s)) : Json(nullptr);
  };
  object["flow_L_s"] = flow_json(plan.flow_m3_s);
  object["flow_without_foot_valve_L_s"] = flow_json(plan.flow_without_foot_valve_m3_s);
  object["flags"] = flag_list(plan.answer);
  object["air"] = json_rows(falling_leg_columns(), falling_leg_rows(farm, plan));
  return json_text(object);
}

}  // namespace leat::render
