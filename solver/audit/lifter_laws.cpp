#include "solver/audit/lifter_laws.h"

#include <array>

namespace leat::solver::audit {

namespace {

/// Efficiency by lift over fall, in hundredths (Building Trades Pocketbook, reference E6.2).
constexpr std::array<std::pair<double, double>, 12> trade_table = {{{4, 72},
                                                                    {6, 61},
                                                                    {8, 52},
                                                                    {10, 44},
                                                                    {12, 37},
                                                                    {14, 31},
                                                                    {16, 25},
                                                                    {18, 19},
                                                                    {20, 14},
                                                                    {22, 9},
                                                                    {24, 4},
                                                                    {26, 0}}};

double plain_efficiency(const model::Ram& ram, double ratio) {
  if (ram.efficiency) {
    return *ram.efficiency * std::clamp((26.0 - ratio) / 2.0, 0.0, 1.0);
  }
  if (ratio <= trade_table.front().first) {
    return trade_table.front().second / 100.0;
  }
  for (std::size_t i = 1; i < trade_table.size(); ++i) {
    const auto& [low, above] = trade_table[i - 1];
    const auto& [high, below] = trade_table[i];
    if (ratio <= high) {
      return (above + (below - above) * (ratio - low) / (high - low)) / 100.0;
    }
  }
  return 0.0;
}

/// Head of a pump's curve at a flow; beyond its ends the end pieces go on.
double plain_curve_m(const model::Pump& pump, double flow) {
  std::size_t i = 1;
  while (i + 1 < pump.curve.size() && flow > in_cubic_metres_per_second(pump.curve[i].first)) {
    ++i;
  }
  const double low = in_cubic_metres_per_second(pump.curve[i - 1].first);
  const double high = in_cubic_metres_per_second(pump.curve[i].first);
  const double above = in_metres(pump.curve[i - 1].second);
  const double below = in_metres(pump.curve[i].second);
  return above + (below - above) * (flow - low) / (high - low);
}

class LifterLaws : private Checker {
 public:
  explicit LifterLaws(Case& audited) : Checker(audited) {}

  void check_pump(std::size_t i) {
    const model::Pump& pump = farm_.pumps[i];
    const double flow = answer_.lifters[i].flow_m3_s;
    const std::optional<double>& from = head_m_[pump.from];
    const std::optional<double>& to = head_m_[pump.to];
    check_limit(flow >= 0.0, pump.name, AuditLaw::PumpBackwards);
    if (!from || !to || hidden_[pump.from] || hidden_[pump.to] || draws_over_a_lip(pump)) {
      ++report_.not_checked[AuditGap::PumpsBetweenHiddenHeads];
      return;
    }
    const double curve_m = plain_curve_m(pump, flow);
    const double tolerance_m = small_head_m + 2.0 * least_slope_s_m2 * flow + slack(pump);
    if (flow > 0.0) {
      ++report_.limits;
      check_head(*from + curve_m, *to, tolerance_m, pump.name);
    } else {
      check_limit(*to >= *from + curve_m - tolerance_m, pump.name, AuditLaw::PumpIdle);
    }
  }

  void check_ram(std::size_t i) {
    const model::Ram& ram = farm_.rams[i];
    const LifterAnswer& said = answer_.lifters[farm_.pumps.size() + i];
    const double drive = said.flow_m3_s + said.wasted_m3_s;
    const model::Pipe& pipe = farm_.pipes[ram.drive];
    check_limit(said.flow_m3_s >= 0.0 && said.wasted_m3_s >= 0.0, ram.name, AuditLaw::RamNegative);
    check_limit(std::abs(drive - std::max(far_flow_[ram.drive], 0.0)) <=
                    flow_tolerance(pipe.to) + still_m3_s,
                ram.name,
                AuditLaw::RamDrive);
    const std::size_t delivers = farm_.pipes[ram.delivery].from;
    const bool at_tee = std::holds_alternative<model::Tee>(farm_.places[delivers].data);
    const std::optional<double> surface = given_surface_m(farm_.places[pipe.from], answer_.month);
    const std::optional<double> supply = surface ? surface : head_m_[pipe.from];
    if (drive <= still_m3_s) {
      return;
    }
    if (!at_tee || !head_m_[delivers] || hidden_[delivers] || !supply) {
      ++report_.not_checked[AuditGap::RamsOfHiddenLift];
      return;
    }
    const double level_m =
        in_metres(ram.level.value_or(model::to_end_level(farm_, pipe, answer_.month)));
    const double ratio = (*head_m_[delivers] - level_m) / std::max(*supply - level_m, 1e-9);
    const double share = plain_efficiency(ram, ratio) / std::max(ratio, 1.0);
    check_limit(std::abs(said.flow_m3_s - share * drive) <= 2.0 * still_m3_s + 1e-6 * drive,
                ram.name,
                AuditLaw::RamEfficiency);
  }

 private:
  [[nodiscard]] bool draws_over_a_lip(const model::Pump& pump) const {
    const auto* tank = std::get_if<model::Tank>(&farm_.places[pump.from].data);
    return (tank != nullptr && tank->settles) || case_.opened.contains(pump.from) ||
           case_.opened.contains(pump.to);
  }

  [[nodiscard]] double slack(const model::Pump& pump) const {
    return slack_m_[pump.from] + slack_m_[pump.to];
  }
};

}  // namespace

double lifted_to(const model::Farm& farm, const SteadyAnswer& answer, std::size_t place) {
  double sum = 0.0;
  for (std::size_t i = 0; i < farm.pumps.size(); ++i) {
    const double flow = answer.lifters[i].flow_m3_s;
    sum += farm.pumps[i].to == place ? flow : 0.0;
    sum -= farm.pumps[i].from == place ? flow : 0.0;
  }
  for (std::size_t i = 0; i < farm.rams.size(); ++i) {
    const LifterAnswer& said = answer.lifters[farm.pumps.size() + i];
    sum += farm.pipes[farm.rams[i].delivery].from == place ? said.flow_m3_s : 0.0;
    sum -= farm.pipes[farm.rams[i].drive].to == place ? said.flow_m3_s + said.wasted_m3_s : 0.0;
  }
  return sum;
}

std::optional<std::size_t> ram_behind(const model::Farm& farm, const model::Pipe& pipe) {
  for (std::size_t i = 0; i < farm.rams.size(); ++i) {
    if (&farm.pipes[farm.rams[i].drive] == &pipe) {
      return i;
    }
  }
  return std::nullopt;
}

void check_lifters(Case& audited) {
  LifterLaws laws(audited);
  for (std::size_t i = 0; i < audited.farm.pumps.size(); ++i) {
    laws.check_pump(i);
  }
  for (std::size_t i = 0; i < audited.farm.rams.size(); ++i) {
    laws.check_ram(i);
  }
}

}  // namespace leat::solver::audit
