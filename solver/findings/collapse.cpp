#include <cmath>
#include <optional>

#include "solver/findings/judging.h"
#include "solver/findings/pipe_strength.h"
#include "solver/findings/states.h"

namespace leat::solver {

void judge_collapse(const Judging& on) {
  for (const SolvedCase& solved : on.cases) {
    for (std::size_t i = 0; i < on.farm.pipes.size(); ++i) {
      const model::Pipe& pipe = on.farm.pipes[i];
      const PipeAnswer& water = solved.pipes[i];
      if (!water.lowest_pressure_Pa || *water.lowest_pressure_Pa >= -suction_limit_Pa) {
        continue;
      }
      const bool is_still = std::abs(water.flow_m3_s) < still_flow_m3_s;
      const std::optional<double> flattens_Pa = collapse_suction_Pa(pipe, is_still);
      const double suction_Pa = -*water.lowest_pressure_Pa;
      if (!flattens_Pa || *flattens_Pa >= collapse_caution_factor * suction_Pa) {
        continue;
      }
      const double factor = *flattens_Pa / suction_Pa;
      const bool danger = factor < collapse_danger_factor;
      on.findings.raise(
          made_finding(
              Code::Collapse,
              danger ? Severity::Danger : Severity::Caution,
              pipe.name,
              solved.load_case,
              {factor, danger ? collapse_danger_factor : collapse_caution_factor, Measure::Ratio},
              SuckedFlat{suction_Pa, *water.lowest_at_m, *flattens_Pa}),
          Worse::Lower);
    }
  }
}

}  // namespace leat::solver
