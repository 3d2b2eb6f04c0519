#include "solver/audit/pressure_laws.h"

#include "solver/audit/plain_law.h"

namespace leat::solver::audit {

void PressureLaws::check_summit_places(std::size_t i) {
  const std::vector<SummitAnswer>& said = answer_.pipes[i].summits;
  std::size_t count = 0;
  for (const Part& part : parts_[i].parts) {
    if (!part.summit) {
      continue;
    }
    const std::size_t summit = *part.summit;
    check_limit(summit < said.size() &&
                    std::abs(part.start.elevation_m - said[summit].elevation_m) <= 1e-9 &&
                    std::abs(part.start.at_m - said[summit].at_m) <= 1e-9,
                farm_.pipes[i].name,
                AuditLaw::SummitElsewhere);
    ++count;
  }
  check_limit(count == said.size(), farm_.pipes[i].name, AuditLaw::OtherSummits);
}

void PressureLaws::check_summits(std::size_t i, const Walked& walked) {
  const PipeAnswer& said = answer_.pipes[i];
  const std::string& name = farm_.pipes[i].name;
  const double velocity_head_m =
      plain_velocity_head_m(in_metres(farm_.pipes[i].size.bore), said.flow_m3_s);
  const double tolerance_m = whole_run(i, said.flow_m3_s).tolerance_m() + slack_at(i);
  for (const SummitSeen& seen : walked.summits) {
    const SummitAnswer& summit = said.summits[seen.summit];
    const auto part = std::find_if(parts_[i].parts.begin(),
                                   parts_[i].parts.end(),
                                   [&](const Part& other) { return other.summit == seen.summit; });
    if (!summit.absolute_head_m || !summit.margin_m) {
      fail({AuditLaw::SummitWithoutHead, name});
      return;
    }
    check_head(*summit.absolute_head_m - around_.vapour_head_m,
               *summit.margin_m,
               small_head_m,
               name,
               AuditedFigure::SummitMargin);
    const bool in_air = said.part_full_m > 0.0 &&
                        std::abs(*summit.absolute_head_m - around_.air_head_m) <= small_head_m;
    if (in_air) {
      ++report_.not_checked[AuditGap::SummitsPartFull];
      continue;
    }
    check_head(seen.head_m - summit.elevation_m - velocity_head_m + around_.air_head_m,
               *summit.absolute_head_m,
               tolerance_m + small_head_m,
               name,
               AuditedFigure::Summit);
    // A summit that would part when a storm lowers the air's pressure is said to part as well.
    const double spare_m = *summit.margin_m - storm_share * around_.air_head_m;
    const bool parts = (seen.let_go && !part->is_vent) || spare_m <= 0.0;
    const bool is_certain = seen.is_certain && std::abs(spare_m) > small_head_m;
    if (is_certain) {
      check_limit(summit.parted == parts,
                  name,
                  summit.parted ? AuditLaw::SaidToPart : AuditLaw::SaidToHold);
    }
  }
}

double PressureLaws::pressure_head_m(double pressure_Pa) const {
  return pressure_Pa / (around_.density_kg_m3 * gravity_m_s2);
}

void PressureLaws::check_running(std::size_t i, const Walked& walked) {
  const PipeAnswer& said = answer_.pipes[i];
  std::size_t legs = 0;
  for (const Part& part : parts_[i].parts) {
    legs += part.kind == Part::Kind::Leg ? 1 : 0;
  }
  const bool let_go = std::any_of(said.summits.begin(),
                                  said.summits.end(),
                                  [](const SummitAnswer& summit) { return summit.parted; });
  if (said.part_full_m > 0.0 || let_go || walked.legs.size() != legs || walked.broken) {
    ++report_.not_checked[AuditGap::PressuresNotFull];
    return;
  }
  ++report_.pressures;
  Extremes extremes;
  for (const LegSeen& seen : walked.legs) {
    add_leg_points(i, seen, extremes);
  }
  const double vapour_m = around_.vapour_head_m - around_.air_head_m;
  const double tolerance_m =
      whole_run(i, said.flow_m3_s).tolerance_m() + slack_at(i) + small_head_m;
  check_pressure(said.lowest_pressure_Pa,
                 std::max(extremes.lowest_m, vapour_m),
                 tolerance_m,
                 i,
                 AuditedFigure::LowestPressure);
  check_pressure(said.highest_pressure_Pa,
                 std::max(extremes.highest_m, vapour_m),
                 tolerance_m,
                 i,
                 AuditedFigure::HighestPressure);
}

void PressureLaws::check_pressure(std::optional<double> said_Pa,
                                  double found_m,
                                  double tolerance_m,
                                  std::size_t i,
                                  AuditedFigure figure) {
  if (!said_Pa) {
    fail({AuditLaw::RunsWithoutPressure, farm_.pipes[i].name});
    return;
  }
  check_head(found_m, pressure_head_m(*said_Pa), tolerance_m, farm_.pipes[i].name, figure);
}

void PressureLaws::add_leg_points(std::size_t i, const LegSeen& seen, Extremes& extremes) const {
  const PipeParts& pipe = parts_[i];
  const Part& leg = *seen.leg;
  const double flow = answer_.pipes[i].flow_m3_s;
  const double velocity_head_m = plain_velocity_head_m(in_metres(pipe.pipe->size.bore), flow);
  const double length_m = leg.end.along_m - leg.start.along_m;
  double placed_m = 0.0;
  for (const LossAt& loss : leg.losses) {
    placed_m += placed_loss_m(pipe, loss, flow);
  }
  const double even_m = seen.start_m - seen.end_m - placed_m;
  const double first_m = pipe.course.points.front().along_m;
  const double last_m = pipe.course.points.back().along_m;
  // Head at a point with so many of the leg's losses taken off.
  const auto head_at = [&](double along_m, std::size_t losses) {
    double head_m = seen.start_m;
    head_m -= length_m > 0.0 ? even_m * (along_m - leg.start.along_m) / length_m : 0.0;
    for (std::size_t k = 0; k < losses; ++k) {
      head_m -= placed_loss_m(pipe, leg.losses[k], flow);
    }
    return head_m;
  };
  const auto add = [&](const CoursePoint& point) {
    // Losses come in the order of their distance. An entrance's is taken before the first point
    // inside the pipe, an exit's after the last.
    std::size_t before = 0;
    std::size_t after = 0;
    for (std::size_t k = 0; k < leg.losses.size(); ++k) {
      before += leg.losses[k].along_m < point.along_m ? std::size_t{1} : std::size_t{0};
      const bool here = leg.losses[k].along_m <= point.along_m;
      const bool costs = placed_loss_m(pipe, leg.losses[k], flow) != 0.0;
      after = here && (costs || point.along_m < last_m) ? k + 1 : after;
    }
    if (point.along_m <= first_m) {
      before = after;
    } else if (point.along_m >= last_m && after > before) {
      --after;
    }
    for (const std::size_t losses : {before, after}) {
      extremes.add(head_at(point.along_m, losses) - point.elevation_m - velocity_head_m);
    }
  };
  add(leg.start);
  add(leg.end);
  for (const CoursePoint& point : pipe.course.points) {
    if (point.along_m > leg.start.along_m && point.along_m < leg.end.along_m) {
      add(point);
    }
  }
  for (const LossAt& loss : leg.losses) {
    for (std::size_t k = 1; k < pipe.course.points.size(); ++k) {
      const CoursePoint& low = pipe.course.points[k - 1];
      const CoursePoint& high = pipe.course.points[k];
      if (loss.along_m > low.along_m && loss.along_m < high.along_m) {
        const double share = (loss.along_m - low.along_m) / (high.along_m - low.along_m);
        add({0.0, loss.along_m, low.elevation_m + share * (high.elevation_m - low.elevation_m)});
      }
    }
  }
}

void PressureLaws::check_still(std::size_t i) {
  const std::optional<double>& head = head_m_[farm_.pipes[i].from];
  const PipeAnswer& said = answer_.pipes[i];
  if (!head || !said.lowest_pressure_Pa || !said.highest_pressure_Pa) {
    return;
  }
  Extremes level;
  for (const CoursePoint& point : parts_[i].course.points) {
    level.add(*head - point.elevation_m);
  }
  if (level.lowest_m < 0.0) {
    ++report_.not_checked[AuditGap::PressuresUnderSuction];
    return;
  }
  ++report_.pressures;
  const double hidden_m =
      std::abs(leg_loss_m(parts_[i], parts_[i].parts.front(), -still_m3_s, around_.viscosity_m2_s));
  const double tolerance_m = hidden_m + 2.0 * small_head_m;
  check_pressure(
      said.lowest_pressure_Pa, level.lowest_m, tolerance_m, i, AuditedFigure::LowestPressure);
  check_pressure(
      said.highest_pressure_Pa, level.highest_m, tolerance_m, i, AuditedFigure::HighestPressure);
}

}  // namespace leat::solver::audit
