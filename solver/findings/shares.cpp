#include <algorithm>
#include <string>
#include <utility>

#include "solver/findings/judging.h"
#include "solver/findings/states.h"
#include "solver/findings/why_short.h"

namespace leat::solver {

namespace {

/// A note or caution of the case asked for.
void raise(const Judging& on,
           Code code,
           Severity severity,
           const std::string& where,
           const Measured& measured,
           Detail detail) {
  on.findings.raise(
      made_finding(code, severity, where, on.chosen().load_case, measured, std::move(detail)));
}

void raise_short(const Judging& on, Code code, std::size_t index) {
  const model::Place& place = on.farm.places[index];
  const SolvedCase& solved = on.chosen();
  const PlaceAnswer& water = solved.places[index];
  raise(on,
        code,
        Severity::Caution,
        place.name,
        {*water.met, 1.0, Measure::Ratio},
        GoesShort{std::holds_alternative<model::Trough>(place.data),
                  water.delivered_m3_s,
                  *water.need_m3_s,
                  why_short(solved.state, index, solved.happenings.broken_lines)});
}

void raise_drawn_down(const Judging& on, std::size_t index) {
  const model::Place& place = on.farm.places[index];
  const PlaceAnswer& water = on.chosen().places[index];
  const auto& spring = std::get<model::Spring>(place.data);
  const bool at_intake = *water.level_m <= in_metres(spring.intake) + 1e-6;
  raise(on,
        Code::DrawnDown,
        Severity::Note,
        place.name,
        {*water.level_m, in_metres(spring.overflow), Measure::Length},
        SpringDrawnDown{-water.delivered_m3_s, at_intake});
}

void raise_spill(const Judging& on, const std::string& where, double spilled_m3_s, Spills spills) {
  raise(
      on, Code::Spills, Severity::Note, where, {spilled_m3_s, std::nullopt, Measure::Flow}, spills);
}

void judge_creek(const Judging& on, const model::Creek& creek, std::size_t index) {
  const double taken = -on.chosen().places[index].delivered_m3_s;
  const auto check = [&](const std::optional<model::MonthSeries<Flow>>& allowed,
                         TakenFromCreek::Limit of) {
    if (!allowed) {
      return;
    }
    const double limit = in_cubic_metres_per_second(allowed->at(on.month()));
    if (taken > limit * (1.0 + 1e-9)) {
      raise(on,
            Code::SpareExceeded,
            Severity::Caution,
            on.farm.places[index].name,
            {taken, limit, Measure::Flow},
            TakenFromCreek{of});
    }
  };
  check(creek.spare, TakenFromCreek::Limit::Spare);
  check(creek.flow, TakenFromCreek::Limit::Carried);
}

bool month_assumed(const model::Place& place, const std::optional<model::Month>& month) {
  if (const auto* spring = std::get_if<model::Spring>(&place.data)) {
    return spring->yield.assumed_at(month);
  }
  if (const auto* creek = std::get_if<model::Creek>(&place.data)) {
    return creek->surface.assumed_at(month) || (creek->flow && creek->flow->assumed_at(month)) ||
           (creek->spare && creek->spare->assumed_at(month));
  }
  if (const auto* pond = std::get_if<model::Pond>(&place.data)) {
    return pond->surface.assumed_at(month);
  }
  if (const auto* trough = std::get_if<model::Trough>(&place.data)) {
    const auto* rate = std::get_if<model::RateNeed>(&trough->need);
    const auto* daily = std::get_if<model::DailyNeed>(&trough->need);
    const auto* herd = std::get_if<model::HerdNeed>(&trough->need);
    if (herd != nullptr) {
      return std::any_of(herd->herd.begin(), herd->herd.end(), [&](const auto& entry) {
        return entry.heads.assumed_at(month);
      });
    }
    return (rate != nullptr && rate->rate.assumed_at(month)) ||
           (daily != nullptr && daily->per_day.assumed_at(month));
  }
  const auto* outlet = std::get_if<model::Outlet>(&place.data);
  return outlet != nullptr && outlet->wished && outlet->wished->assumed_at(month);
}

void note_assumptions(const Judging& on, const model::Place& place) {
  const auto* trough = std::get_if<model::Trough>(&place.data);
  if (trough != nullptr && std::holds_alternative<model::NoNeed>(trough->need)) {
    raise(on, Code::NoNeed, Severity::Note, place.name, {}, NoNeedGiven{});
  }
  if (month_assumed(place, on.month())) {
    Finding found = made_finding(Code::MonthAssumed,
                                 Severity::Note,
                                 place.name,
                                 on.chosen().load_case,
                                 {},
                                 MonthNotMeasured{});
    found.month = on.month();
    on.findings.raise(std::move(found));
  }
}

void judge_share(const Judging& on, std::size_t index) {
  const model::Place& place = on.farm.places[index];
  const PlaceAnswer& water = on.chosen().places[index];
  const bool cut_off = !model::is_open_water(place) && !water.head_m;
  if (cut_off) {
    raise(on, Code::CutOff, Severity::Note, place.name, {}, CutOffFromWater{});
  }
  if (water.met && (cut_off || *water.met < dry_limit)) {
    raise_short(on, Code::Dry, index);
  } else if (water.met && *water.met < met_limit) {
    raise_short(on, Code::Starved, index);
  }
  if (is_drawn_down(on, on.chosen(), index)) {
    raise_drawn_down(on, index);
  }
  if (water.spill_m3_s && *water.spill_m3_s > still_flow_m3_s) {
    raise_spill(on, place.name, *water.spill_m3_s, Spills{false});
  }
  if (const auto* creek = std::get_if<model::Creek>(&place.data)) {
    judge_creek(on, *creek, index);
  }
  note_assumptions(on, place);
}

/// What stands above the water where a pipe runs part full: air, or where the water has parted
/// nothing but its own vapour.
RunsPartFull::Above above_the_water(const Judging& on, std::size_t index) {
  bool has_air = false;
  bool has_vapour = false;
  for (const PipePoint& point : water_along(on.chosen().state, index).points) {
    const bool is_vapour = point.pressure_Pa < -suction_limit_Pa;
    has_air = has_air || (point.part_full && !is_vapour);
    has_vapour = has_vapour || (point.part_full && is_vapour);
  }
  return !has_vapour ? RunsPartFull::Above::Air
         : has_air   ? RunsPartFull::Above::AirAndVapour
                     : RunsPartFull::Above::Vapour;
}

void judge_pipe(const Judging& on, std::size_t index) {
  const std::string& name = on.farm.pipes[index].name;
  const double part_full_m = on.chosen().pipes[index].part_full_m;
  if (part_full_m > 0.0) {
    raise(on,
          Code::PartFull,
          Severity::Note,
          name,
          {part_full_m, 0.0, Measure::Length},
          RunsPartFull{above_the_water(on, index)});
  }
  double spilled = 0.0;
  for (const std::size_t edge : on.chosen().state.network->pipes[index].vent_spill) {
    spilled += edge == no_index ? 0.0 : on.chosen().state.flow_m3_s(edge);
  }
  if (spilled > still_flow_m3_s) {
    raise_spill(on, name, spilled, Spills{true});
  }
}

}  // namespace

void judge_shares(const Judging& on) {
  for (std::size_t i = 0; i < on.farm.pipes.size(); ++i) {
    judge_pipe(on, i);
  }
  for (std::size_t i = 0; i < on.farm.places.size(); ++i) {
    judge_share(on, i);
  }
}

}  // namespace leat::solver
