#include <cmath>
#include <optional>

#include <fmt/format.h>

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
      on.flags.raise(
          made_flag("collapse",
                    danger ? FlagSeverity::Danger : FlagSeverity::Caution,
                    pipe.name,
                    fmt::format("{} stands {} under suction at {}; {} of suction, kept up for a "
                                "season, flattens so thin a pipe: {} here. Stronger pipe, or a "
                                "lower course, on the suction side",
                                pipe.name,
                                on.pressure(suction_Pa),
                                on.length(*water.lowest_at_m),
                                on.pressure(*flattens_Pa),
                                danger ? "it sucks flat" : "less than twice what it sees"),
                    solved.load_case,
                    {factor, danger ? collapse_danger_factor : collapse_caution_factor, ""}),
          Worse::Lower);
    }
  }
}

}  // namespace leat::solver
