#include "solver/audit/pipe_laws.h"

#include "solver/audit/plain_law.h"
#include "solver/audit/pressure_laws.h"

namespace leat::solver::audit {

namespace {

class PipeLaws : private Checker {
 public:
  explicit PipeLaws(Case& audited) : Checker(audited), pressures_(audited) {}

  /// Heads that the answer does not print: of a tee where a part-full line runs through open to the
  /// air, of a spring at rest whose box is said to stand at a bound. Where a running pipe leads on
  /// from there to a known head they are worked out from it, and other pipes must agree.
  void find_hidden_heads() {
    for (std::size_t i = 0; i < farm_.places.size(); ++i) {
      const PlaceAnswer& said = answer_.places[i];
      const auto* spring = std::get_if<model::Spring>(&farm_.places[i].data);
      const bool at_rest = spring != nullptr && said.delivered_m3_s == 0.0 && said.head_m &&
                           (*said.head_m <= in_metres(spring->intake) + 1e-9 ||
                            *said.head_m >= in_metres(spring->overflow) + spring_box_rise_m - 1e-9);
      hidden_[i] = at_rest || is_tee_in_air(i);
      if (hidden_[i]) {
        head_m_[i].reset();
      }
    }
    bool found = true;
    while (found) {
      found = false;
      for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
        found = infer_upper_head(i) || found;
      }
    }
  }

  void check_pipe(std::size_t i) {
    pressures_.check_summit_places(i);
    if (report_.broken) {
      return;
    }
    if (case_.loose[i] && parts_[i].topped_vents() > 0) {
      ++report_.not_checked[AuditGap::PipesWithVentsAtOneTee];
      return;
    }
    if (starts_at_ram_in_open_water(i)) {
      ++report_.not_checked[AuditGap::PipesFromStandingRam];
      return;
    }
    const double flow = answer_.pipes[i].flow_m3_s;
    const model::Pipe& pipe = farm_.pipes[i];
    if (flow != 0.0 && !farm_.pumps.empty() && !head_m_[pipe.from] && !head_m_[pipe.to] &&
        !answer_.pipes[i].head_loss_m) {
      // Only a pump can drive water round where none comes from outside.
      ++report_.not_checked[AuditGap::PipesRoundPump];
      return;
    }
    if (case_.inferred[i] && spills(i)) {
      check_spilling_pipe(i);
    } else if (flow != 0.0) {
      check_running_pipe(i, flow);
    } else {
      check_still_pipe(i);
    }
  }

 private:
  struct LowerEnd {
    double head_m = 0.0;
    bool at_least = false;
  };

  [[nodiscard]] bool starts_at_ram_in_open_water(std::size_t i) const {
    return !std::holds_alternative<model::Tee>(farm_.places[farm_.pipes[i].from].data) &&
           std::any_of(farm_.rams.begin(), farm_.rams.end(), [&](const model::Ram& ram) {
             return ram.delivery == i;
           });
  }

  [[nodiscard]] bool is_tee_in_air(std::size_t place) const {
    const PlaceAnswer& said = answer_.places[place];
    if (!std::holds_alternative<model::Tee>(farm_.places[place].data) || !said.head_m ||
        *said.head_m != said.elevation_m) {
      return false;
    }
    for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
      const bool whole =
          answer_.pipes[i].part_full_m >= in_metres(farm_.pipes[i].length) * (1.0 - 1e-9);
      if (farm_.pipes[i].to == place && answer_.pipes[i].flow_m3_s > 0.0 && whole) {
        return true;
      }
    }
    return false;
  }

  bool infer_upper_head(std::size_t i) {
    const double flow = answer_.pipes[i].flow_m3_s;
    if (flow == 0.0 || case_.loose[i] || spills(i)) {
      return false;
    }
    const std::size_t upper = flow > 0.0 ? farm_.pipes[i].from : farm_.pipes[i].to;
    if (!hidden_[upper] || head_m_[upper]) {
      return false;
    }
    const std::optional<LowerEnd> lower = lower_end(i, flow);
    if (!lower) {
      return false;
    }
    const Walked walked = walk_against(whole_run(i, flow), lower->head_m, lower->at_least);
    if (walked.at_least || walked.broken) {
      return false;
    }
    head_m_[upper] = walked.head_m;
    slack_m_[upper] = whole_run(i, flow).tolerance_m() + slack_at(i);
    return true;
  }

  [[nodiscard]] bool spills(std::size_t i) const {
    return std::abs(far_flow_[i] - answer_.pipes[i].flow_m3_s) > flow_tolerance(farm_.pipes[i].to);
  }

  /// Head where a running pipe's water leaves it; none where it is not known.
  [[nodiscard]] std::optional<LowerEnd> lower_end(std::size_t i, double flow) const {
    const PipeMouth& mouth = flow > 0.0 ? parts_[i].to : parts_[i].from;
    const std::size_t place = flow > 0.0 ? farm_.pipes[i].to : farm_.pipes[i].from;
    if (mouth.kind == PipeMouth::Kind::Place) {
      return head_m_[place] ? std::optional<LowerEnd>({*head_m_[place], false}) : std::nullopt;
    }
    const double bore_m = in_metres(farm_.pipes[i].size.bore);
    const double head_m = mouth.level_m + mouth.exit_k * plain_velocity_head_m(bore_m, flow);
    const bool is_float = mouth.kind == PipeMouth::Kind::FloatInlet;
    const bool holds =
        is_float && head_m_[place] &&
        *head_m_[place] >= mouth.shut_level_m - brim_rise_s_m2 * flow - 2.0 * small_head_m;
    return LowerEnd{head_m, holds || mouth.is_held_back};
  }

  void check_float_inlet(std::size_t i, double flow) {
    const PipeMouth& mouth = parts_[i].to;
    if (mouth.kind != PipeMouth::Kind::FloatInlet || flow <= flow_tolerance(farm_.pipes[i].to)) {
      return;
    }
    const std::optional<double>& tank = answer_.places[farm_.pipes[i].to].head_m;
    check_limit(tank && *tank <= mouth.shut_level_m - brim_rise_s_m2 * flow + 2.0 * small_head_m,
                farm_.pipes[i].name,
                AuditLaw::FillsBehindShutFloat);
  }

  void check_running_pipe(std::size_t i, double flow) {
    const std::string& name = farm_.pipes[i].name;
    check_head_loss(i, {whole_run(i, flow)});
    check_float_inlet(i, flow);
    const PipeMouth& upper_mouth = flow > 0.0 ? parts_[i].from : parts_[i].to;
    check_limit(upper_mouth.kind == PipeMouth::Kind::Place, name, AuditLaw::DrawsFromAir);
    const std::size_t upper = flow > 0.0 ? farm_.pipes[i].from : farm_.pipes[i].to;
    const std::optional<LowerEnd> lower = lower_end(i, flow);
    if (!lower || !head_m_[upper]) {
      miss_head(i);
      return;
    }
    const Walked walked = check_run(i, whole_run(i, flow), *head_m_[upper], *lower);
    pressures_.check_summits(i, walked);
    pressures_.check_running(i, walked);
  }

  Walked check_run(std::size_t i, const Run& run, double upper_m, const LowerEnd& lower) {
    const std::string& name = farm_.pipes[i].name;
    ++report_.pipes;
    Walked walked = walk_against(run, lower.head_m, lower.at_least);
    const double tolerance_m = run.tolerance_m() + slack_at(i);
    if (!walked.broken && walked.at_least) {
      walk_with(run, upper_m, walked);
      check_limit(walked.head_m <= upper_m + tolerance_m, name, AuditLaw::HeadBeforeLimit);
    } else if (!walked.broken) {
      check_head(walked.head_m, upper_m, tolerance_m, name);
    }
    if (walked.broken) {
      fail(at(name, *walked.broken));
    }
    return walked;
  }

  void check_spilling_pipe(std::size_t i) {
    const std::string& name = farm_.pipes[i].name;
    const PipeParts& pipe = parts_[i];
    if (pipe.topped_vents() > 1) {
      ++report_.not_checked[AuditGap::PipesOfSeveralVents];
      return;
    }
    const auto vent = std::find_if(pipe.parts.begin(), pipe.parts.end(), [](const Part& part) {
      return part.vent_top_m.has_value();
    });
    const auto at = static_cast<std::size_t>(vent - pipe.parts.begin());
    const double spill = answer_.pipes[i].flow_m3_s - far_flow_[i];
    check_limit(spill >= 0.0, name, AuditLaw::VentTakesIn);
    const double head_m = *vent->vent_top_m + brim_rise_s_m2 * spill;
    const Run before{
        &pipe, 0, at - 1, answer_.pipes[i].flow_m3_s, around_.viscosity_m2_s, around_.loss_share};
    const Run after{
        &pipe, at, pipe.parts.size() - 1, far_flow_[i], around_.viscosity_m2_s, around_.loss_share};
    check_float_inlet(i, far_flow_[i]);
    check_head_loss(i, {before, after});
    check_half(i, before, head_m);
    check_half(i, after, head_m);
  }

  /// One side of a vent that spills, which stands at `vent_m`.
  void check_half(std::size_t i, const Run& run, double vent_m) {
    const bool is_first = run.first == 0;
    const std::size_t place = is_first ? farm_.pipes[i].from : farm_.pipes[i].to;
    const bool away = is_first ? run.flow_m3_s < 0.0 : run.flow_m3_s > 0.0;
    if (std::abs(run.flow_m3_s) < flow_tolerance(farm_.pipes[i].to)) {
      ++report_.not_checked[AuditGap::StillSidesOfVent];
    } else if (away) {
      if (const std::optional<LowerEnd> lower = lower_end(i, run.flow_m3_s)) {
        (void)check_run(i, run, vent_m, *lower);
      } else {
        miss_head(i);
      }
    } else if (head_m_[place]) {
      (void)check_run(i, run, *head_m_[place], {vent_m, false});
    } else {
      miss_head(i);
    }
  }

  /// A running pipe without a known head: hidden by part-full water, or a fault.
  void miss_head(std::size_t i) {
    if (hidden_[farm_.pipes[i].from] || hidden_[farm_.pipes[i].to]) {
      ++report_.not_checked[AuditGap::PipesAtHiddenHead];
    } else {
      fail({AuditLaw::RunsWithoutPipeHead, farm_.pipes[i].name});
    }
  }

  /// The printed loss of the pipe is that of its legs.
  void check_head_loss(std::size_t i, const std::vector<Run>& runs) {
    // Behind a vent that may spill the flow is worked out from others and less certain.
    const bool is_worked_out = parts_[i].topped_vents() > 0;
    const double flow_slack = is_worked_out ? flow_tolerance(farm_.pipes[i].to) : 0.0;
    double least_m = 0.0;
    double most_m = 0.0;
    double tolerance_m = 0.0;
    for (const Run& run : runs) {
      tolerance_m += run.tolerance_m();
      least_m += legs_loss_m(run, run.flow_m3_s - flow_slack);
      most_m += legs_loss_m(run, run.flow_m3_s + flow_slack);
    }
    const std::optional<double>& said = answer_.pipes[i].head_loss_m;
    if (!said) {
      fail({AuditLaw::RunsWithoutLoss, farm_.pipes[i].name});
      return;
    }
    check_head(std::clamp(*said, least_m, most_m),
               *said,
               tolerance_m,
               farm_.pipes[i].name,
               AuditedFigure::Loss);
  }

  [[nodiscard]] static double legs_loss_m(const Run& run, double flow) {
    double sum = 0.0;
    for (std::size_t part = run.first; part <= run.last && flow != 0.0; ++part) {
      const Part& leg = run.pipe->parts[part];
      sum +=
          leg.kind == Part::Kind::Leg ? leg_loss_m(*run.pipe, leg, flow, run.viscosity_m2_s) : 0.0;
    }
    return sum;
  }

  void check_still_pipe(std::size_t i) {
    const model::Pipe& pipe = farm_.pipes[i];
    if (case_.breaking.contains(pipe.from)) {
      // Its siphon has broken: nothing runs whatever the heads are.
      check_limit(has_high_point(i), pipe.name, AuditLaw::NoHighPoint);
      return;
    }
    if (hidden_[pipe.from] || hidden_[pipe.to]) {
      ++report_.not_checked[AuditGap::StillPipesAtHiddenHead];
      return;
    }
    ++report_.pipes;
    const PipeParts& parts = parts_[i];
    const Run run = whole_run(i, 0.0);
    // A flow printed as still may hide so much.
    double tolerance_m = run.tolerance_m() + small_head_m;
    for (const Part& part : parts.parts) {
      if (part.kind == Part::Kind::Leg) {
        tolerance_m += std::abs(leg_loss_m(parts, part, -still_m3_s, around_.viscosity_m2_s));
      }
    }
    const StillEnd from = still_end(parts.from, pipe.from);
    const StillEnd to = still_end(parts.to, pipe.to);
    if (const auto fault = still_fault(run, from, to, tolerance_m)) {
      fail(at(pipe.name, *fault));
      return;
    }
    const bool is_open_both_ways = parts.is_plain() && !parts.is_one_way() &&
                                   parts.from.kind == PipeMouth::Kind::Place &&
                                   parts.to.kind == PipeMouth::Kind::Place;
    if (is_open_both_ways) {
      check_limit(head_m_[pipe.from].has_value() == head_m_[pipe.to].has_value(),
                  pipe.name,
                  AuditLaw::OneHeadUnknown);
      pressures_.check_still(i);
    }
  }

  [[nodiscard]] StillEnd still_end(const PipeMouth& mouth, std::size_t place) const {
    switch (mouth.kind) {
      case PipeMouth::Kind::Place:
        return {head_m_[place], false};
      case PipeMouth::Kind::Free:
        return {mouth.level_m, true};
      case PipeMouth::Kind::FloatInlet: {
        const bool is_shut =
            !head_m_[place] || *head_m_[place] >= mouth.shut_level_m - 2.0 * small_head_m;
        return {is_shut ? std::nullopt : std::optional<double>(mouth.level_m), true};
      }
    }
    return {};
  }

  /// Whether a vertex or tee above the intake of the spring can be reached along the pipe.
  [[nodiscard]] bool has_high_point(std::size_t first) const {
    const auto& spring = std::get<model::Spring>(farm_.places[farm_.pipes[first].from].data);
    const double intake_m = in_metres(spring.intake);
    std::vector<bool> seen(farm_.pipes.size(), false);
    std::vector<std::size_t> open{first};
    seen[first] = true;
    while (!open.empty()) {
      const std::size_t pipe = open.back();
      open.pop_back();
      for (const CoursePoint& point : parts_[pipe].course.points) {
        if (point.elevation_m > intake_m) {
          return true;
        }
      }
      for (const std::size_t end : {farm_.pipes[pipe].from, farm_.pipes[pipe].to}) {
        if (!std::holds_alternative<model::Tee>(farm_.places[end].data)) {
          continue;
        }
        for (std::size_t next = 0; next < farm_.pipes.size(); ++next) {
          if (!seen[next] && (farm_.pipes[next].from == end || farm_.pipes[next].to == end)) {
            seen[next] = true;
            open.push_back(next);
          }
        }
      }
    }
    return false;
  }

  PressureLaws pressures_;
};

}  // namespace

void check_pipes(Case& audited) {
  PipeLaws laws(audited);
  laws.find_hidden_heads();
  for (std::size_t i = 0; i < audited.farm.pipes.size(); ++i) {
    laws.check_pipe(i);
  }
}

}  // namespace leat::solver::audit
