#include "render/commands/prime/prime_report.h"

#include <numbers>
#include <vector>

#include <fmt/format.h>

#include "render/commands/solve/answer_json.h"
#include "render/document/json_text.h"
#include "render/document/text_table.h"
#include "render/words/cautions.h"
#include "render/words/findings_text.h"
#include "render/words/number_text.h"
#include "render/words/prime_names.h"
#include "render/words/prime_remarks.h"
#include "render/words/prime_steps.h"
#include "render/words/prime_verdict.h"

namespace leat::render {

namespace {

using Row = std::vector<std::string>;
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
  std::vector<Row> rows;
  for (const solver::PrimeLeg& leg : plan.course.legs) {
    rows.push_back({farm.pipes[leg.pipe].name,
                    length_number_text(metres(leg.from_m), units),
                    length_number_text(metres(leg.to_m), units),
                    level_number_text(elevation_metres(leg.from_elevation_m), units),
                    level_number_text(elevation_metres(leg.to_elevation_m), units),
                    volume_number_text(cubic_metres(leg.volume_m3), units)});
  }
  rows.push_back({"the whole line",
                  "",
                  "",
                  "",
                  "",
                  volume_number_text(cubic_metres(plan.course.volume_m3), units)});
  return {{{"what each leg holds", Align::Left},
           {"from", Align::Right},
           {"to", Align::Right},
           {"level", Align::Right},
           {"level", Align::Right},
           {std::string(volume_unit(units)), Align::Right}},
          rows};
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

std::string_view word_of(hydraulics::AirVerdict verdict) {
  switch (verdict) {
    case hydraulics::AirVerdict::Swept:
      return "swept";
    case hydraulics::AirVerdict::Doubtful:
      return "doubtful";
    case hydraulics::AirVerdict::Stays:
      return "stays";
  }
  return "";
}

/// How fast the water runs down each falling leg and what the authors ask for.
TextTable air_table(const model::Farm& farm,
                    const solver::PrimePlan& plan,
                    model::UnitSystem units) {
  const auto speed = [&](double velocity_m_s) {
    return velocity_number_text(metres_per_second(velocity_m_s), units);
  };
  std::vector<Row> rows;
  for (const solver::FallingLeg& leg : plan.air) {
    rows.push_back({farm.pipes[leg.pipe].name,
                    length_number_text(metres(leg.from_m), units),
                    length_number_text(metres(leg.to_m), units),
                    decimal_text(leg.angle_rad * 180.0 / std::numbers::pi, 1),
                    speed(leg.velocity_m_s),
                    speed(leg.sweep.stays_below_m_s),
                    speed(leg.sweep.swept_above_m_s),
                    speed(leg.sweep.wisner_m_s),
                    speed(leg.sweep.kent_m_s),
                    speed(leg.sweep.kalinske_bliss_m_s),
                    std::string(word_of(leg.verdict))});
  }
  return {{{fmt::format("air, {}", velocity_unit(units)), Align::Left},
           {"from", Align::Right},
           {"to", Align::Right},
           {"degrees", Align::Right},
           {"runs", Align::Right},
           {"stays", Align::Right},
           {"swept", Align::Right},
           {"Wisner", Align::Right},
           {"Kent", Align::Right},
           {"K. & B.", Align::Right},
           {"air", Align::Left}},
          rows};
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

Json litres(double volume_m3) {
  return json_number(volume_m3 * 1e3);
}

Json litres(const std::optional<double>& volume_m3) {
  return volume_m3 ? litres(*volume_m3) : Json(nullptr);
}

Json leg_json(const model::Farm& farm, const solver::PrimeLeg& leg) {
  Json row;
  row["pipe"] = farm.pipes[leg.pipe].name;
  row["from_m"] = json_number(leg.from_m);
  row["to_m"] = json_number(leg.to_m);
  row["volume_L"] = litres(leg.volume_m3);
  return row;
}

Json step_json(std::size_t number,
               const solver::PrimePlan& plan,
               const solver::PrimeStep& step,
               model::UnitSystem units) {
  Json row;
  row["number"] = number;
  row["where"] = step.where;
  row["text"] = step_sentence(plan, step, units);
  row["volume_L"] = litres(step.volume_m3);
  row["seconds"] = json_number(step.time_s);
  return row;
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
  object["legs"] = Json::array();
  for (const solver::PrimeLeg& leg : plan.course.legs) {
    object["legs"].push_back(leg_json(farm, leg));
  }
  object["volume_L"] = litres(plan.course.volume_m3);
  object["fill_s"] = json_number(plan.rate.fill_s);
  object["pump_kPa"] = plan.pump ? json_number(plan.pump->needed_Pa / 1e3) : Json(nullptr);
  object["steps"] = Json::array();
  for (std::size_t i = 0; i < plan.steps.size(); ++i) {
    object["steps"].push_back(step_json(i + 1, plan, plan.steps[i], units));
  }
  object["flow_L_s"] = litres(plan.flow_m3_s);
  object["flow_without_foot_valve_L_s"] = litres(plan.flow_without_foot_valve_m3_s);
  object["flags"] = flag_list(plan.answer.flags, units);
  return json_text(object);
}

}  // namespace leat::render
