#include "render/commands/prime/prime_report.h"

#include <numbers>
#include <vector>

#include <fmt/format.h>

#include "render/commands/prime/prime_columns.h"
#include "render/commands/solve/answer_json.h"
#include "render/document/text_table.h"
#include "render/words/cautions.h"
#include "render/words/findings_text.h"
#include "render/words/number_text.h"
#include "render/words/prime_names.h"
#include "render/words/prime_remarks.h"
#include "render/words/prime_steps.h"
#include "render/words/prime_verdict.h"
#include "render/words/table_cells.h"

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
                  plan.answer.month ? fmt::format("{}; ", model::name_of(*plan.answer.month))
                                    : std::string(),
                  length_unit(options.units),
                  length_unit(options.units),
                  farm.datum
                      ? fmt::format(" above the datum '{}'", cut_to_width(*farm.datum, widest_text))
                      : std::string()),
      width,
      0);
  return text + '\n' + wrapped(prime_verdict(plan, options.units), width, 0);
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

std::string remarks_text(const solver::PrimePlan& plan,
                         model::UnitSystem units,
                         const Terminal& terminal) {
  std::string text = plan.remarks.empty() ? "" : "\n";
  for (const std::string& remark : remark_sentences(plan, units)) {
    text += wrapped(remark, text_width(terminal), 0);
  }
  return text;
}

}  // namespace

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
                     steps_text(plan, options.units, terminal) +
                     remarks_text(plan, options.units, terminal);
  if (!plan.air.empty()) {
    text += table_below(tables.back()) + wrapped(air_key, text_width(terminal), 0);
  }
  return text +
         findings_text(
             plan.answer.flags, {options.units, options.detail, plan.answer.load_case}, terminal) +
         '\n' + cautions_text(farm, plan.answer, terminal);
}

std::string prime_json(const model::Farm& farm,
                       const solver::PrimePlan& plan,
                       model::UnitSystem units) {
  Json object;
  object["format"] = 1;
  object["command"] = "prime";
  object["farm"] = farm.name;
  object["holds"] = plan.need != PrimeNeed::CannotHold;
  object["legs"] = json_rows(prime_leg_columns(), prime_leg_rows(farm, plan));
  object["volume_L"] = json_number(scale::litres.printed(plan.course.volume_m3));
  object["fill_s"] = json_number(plan.rate.fill_s);
  object["pump_kPa"] =
      plan.pump ? json_number(scale::pressure.printed(plan.pump->needed_Pa)) : Json(nullptr);
  object["steps"] = json_rows(prime_step_columns(), prime_step_rows(plan, units));
  const auto flow_json = [](const std::optional<double>& flow_m3_s) {
    return flow_m3_s ? json_number(scale::flow.printed(*flow_m3_s)) : Json(nullptr);
  };
  object["flow_L_s"] = flow_json(plan.flow_m3_s);
  object["flow_without_foot_valve_L_s"] = flow_json(plan.flow_without_foot_valve_m3_s);
  object["flags"] = flag_list(plan.answer.flags, units);
  object["air"] = json_rows(falling_leg_columns(), falling_leg_rows(farm, plan));
  return json_text(object);
}

}  // namespace leat::render
