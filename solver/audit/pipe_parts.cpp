#include "solver/audit/pipe_parts.h"

#include <algorithm>
#include <cmath>

#include "model/catalogue/fitting_catalogue.h"
#include "solver/audit/lifter_laws.h"
#include "solver/audit/plain_law.h"

namespace leat::solver::audit {

namespace {

// Entrance and exit where the file says nothing (shared design, section 4).
constexpr double usual_entrance_k = 0.5;
constexpr double usual_exit_k = 1.0;
/// A path ending this near under a tank's rim ends at the rim.
constexpr double rim_reach_m = 0.05;
/// METHOD.md: water falling from a store into a pipe's end stands 3 mm over it at 0.1 L/s.
constexpr double depth_over_mouth_s_m2 = 30.0;
constexpr double level_rounding_m = 1e-9;
constexpr double same_point_m = 1e-6;

/// Reads mouths, cuts the pipe where water may let go, and lays the losses on the legs.
class PipeReader {
 public:
  PipeReader(const model::Farm& farm,
             const model::Pipe& pipe,
             const SteadyAnswer& answer,
             const Around& around,
             const std::set<std::size_t>& opened_tees)
      : farm_(farm), pipe_(pipe), answer_(answer), around_(around), opened_(opened_tees) {}

  PipeParts read() {
    made_.pipe = &pipe_;
    made_.course = course_of(farm_, pipe_, answer_.month);
    cut_legs();
    for (const model::Fitting& fitting : pipe_.fittings) {
      lay_fitting(fitting);
    }
    lay_valve();
    if (pipe_.one_way || pipe_.regulator) {
      first_leg().one_way = true;
    }
    read_from();
    read_to();
    for (Part& part : made_.parts) {
      std::stable_sort(part.losses.begin(),
                       part.losses.end(),
                       [](const LossAt& a, const LossAt& b) { return a.along_m < b.along_m; });
    }
    return std::move(made_);
  }

 private:
  Part& first_leg() { return made_.parts.front(); }
  Part& last_leg() { return made_.parts.back(); }

  void cut_legs() {
    std::vector<Part> between = summits_and_vents();
    if (pipe_.regulator) {
      Part part = at(distance_of(pipe_.regulator->place, made_.course), Part::Kind::Regulator);
      part.held_m = part.start.elevation_m +
                    in_pascals(pipe_.regulator->set) / (around_.density_kg_m3 * gravity_m_s2);
      between.push_back(part);
    }
    if (pipe_.valve && pipe_.valve->shut) {
      const model::Placement start{model::Placement::Where::Start, {}};
      between.push_back(
          at(distance_of(pipe_.valve->place.value_or(start), made_.course), Part::Kind::Shut));
    }
    std::stable_sort(between.begin(), between.end(), [](const Part& a, const Part& b) {
      return a.start.along_m < b.start.along_m;
    });
    CoursePoint start = made_.course.points.front();
    for (const Part& part : between) {
      add_leg(start, part.start);
      made_.parts.push_back(part);
      start = part.start;
    }
    add_leg(start, made_.course.points.back());
  }

  [[nodiscard]] Part at(double at_m, Part::Kind kind) const {
    Part part;
    part.kind = kind;
    part.start = made_.course.at(at_m);
    part.end = part.start;
    return part;
  }

  void add_leg(const CoursePoint& start, const CoursePoint& end) {
    Part leg;
    leg.start = start;
    leg.end = end;
    made_.parts.push_back(leg);
  }

  [[nodiscard]] std::vector<Part> summits_and_vents() const {
    std::vector<Part> lips;
    std::size_t count = 0;
    for (const std::size_t index : made_.course.summits()) {
      Part lip = at(made_.course.points[index].at_m, Part::Kind::Lip);
      lip.start = made_.course.points[index];
      lip.end = lip.start;
      lip.floor_m = lip.start.elevation_m + around_.vapour_head_m - around_.air_head_m;
      lip.has_velocity_head = true;
      lip.summit = count++;
      lips.push_back(lip);
    }
    for (const model::Vent& vent : pipe_.vents) {
      Part lip = at(in_metres(vent.distance), Part::Kind::Lip);
      lip.floor_m = lip.start.elevation_m;
      lip.has_velocity_head = true;
      lip.is_vent = true;
      if (vent.top) {
        lip.vent_top_m = in_metres(*vent.top);
      }
      const auto here = std::find_if(lips.begin(), lips.end(), [&](const Part& other) {
        return std::abs(other.start.at_m - lip.start.at_m) < same_point_m;
      });
      if (here == lips.end()) {
        lips.push_back(lip);
      } else {
        lip.summit = here->summit;
        *here = lip;
      }
    }
    return lips;
  }

  /// The leg a placed thing stands in; at a summit the one before it.
  Part& leg_at(double at_m) {
    for (Part& part : made_.parts) {
      if (part.kind == Part::Kind::Leg && at_m <= part.end.at_m) {
        return part;
      }
    }
    return last_leg();
  }

  void lay_fitting(const model::Fitting& fitting) {
    const double k = fitting.count * fitting.loss_coefficient;
    if (fitting.place.where == model::Placement::Where::Spread && !fitting.one_way) {
      for (Part& part : made_.parts) {
        part.spread_k += k * (part.end.along_m - part.start.along_m) / made_.course.length_m;
      }
      return;
    }
    const double at_m = distance_of(fitting.place, made_.course);
    Part& leg = leg_at(at_m);
    leg.one_way = leg.one_way || fitting.one_way;
    LossAt loss{made_.course.at(at_m).along_m, k, k, 0.0, 0.0};
    loss.opening_head_m = fitting.count * in_metres(fitting.opening_head);
    if (fitting.lifting_velocity) {
      loss.lifting_m_s = in_metres_per_second(*fitting.lifting_velocity);
    }
    leg.losses.push_back(loss);
  }

  void lay_valve() {
    if (!pipe_.valve || pipe_.valve->shut) {
      return;
    }
    const double k =
        model::valve_loss_coefficient(pipe_.valve->type, pipe_.valve->open, pipe_.size.bore);
    if (!pipe_.valve->place || pipe_.valve->place->where == model::Placement::Where::Spread) {
      first_leg().spread_k += k;
      return;
    }
    const double at_m = distance_of(*pipe_.valve->place, made_.course);
    leg_at(at_m).losses.push_back({made_.course.at(at_m).along_m, k, k, 0.0, 0.0});
  }

  [[nodiscard]] Part mouth_lip(double level_m, const CoursePoint& point) const {
    Part lip;
    lip.kind = Part::Kind::Lip;
    lip.start = point;
    lip.end = point;
    lip.floor_m = level_m;
    lip.depth_s_m2 = depth_over_mouth_s_m2;
    return lip;
  }

  void read_from() {
    const model::Place& place = farm_.places[pipe_.from];
    const CoursePoint point = made_.course.points.front();
    if (const auto* tee = std::get_if<model::Tee>(&place.data)) {
      const double k = pipe_.entrance_k.value_or(0.0);
      first_leg().losses.insert(first_leg().losses.begin(), {point.along_m, k, k, 0.0, 0.0});
      if (opened_.contains(pipe_.from)) {
        made_.parts.insert(made_.parts.begin(), mouth_lip(in_metres(tee->elevation), point));
      }
      return;
    }
    const double level_m = in_metres(model::from_end_level(farm_, pipe_, answer_.month));
    const std::optional<double> surface = given_surface_m(place, answer_.month);
    const bool is_spring = std::holds_alternative<model::Spring>(place.data);
    if (surface && !is_spring && level_m > *surface + level_rounding_m) {
      made_.from = {PipeMouth::Kind::Free, level_m, 0.0, pipe_.entrance_k.value_or(usual_exit_k)};
      return;
    }
    const LossAt loss{point.along_m,
                      pipe_.entrance_k.value_or(usual_entrance_k),
                      pipe_.entrance_k.value_or(usual_exit_k),
                      0.0,
                      0.0};
    first_leg().losses.insert(first_leg().losses.begin(), loss);
    if (!surface) {
      made_.parts.insert(made_.parts.begin(), mouth_lip(level_m, point));
    }
  }

  void read_to() {
    const model::Place& place = farm_.places[pipe_.to];
    const CoursePoint point = made_.course.points.back();
    if (const std::optional<std::size_t> ram = ram_behind(farm_, pipe_)) {
      const double ram_m = in_metres(
          farm_.rams[*ram].level.value_or(model::to_end_level(farm_, pipe_, answer_.month)));
      made_.to = {PipeMouth::Kind::Free, ram_m, 0.0, pipe_.exit_k.value_or(usual_exit_k)};
      made_.to.is_held_back = answer_.lifters[farm_.pumps.size() + *ram].set_by_hand;
      return;
    }
    if (const auto* tee = std::get_if<model::Tee>(&place.data)) {
      const double k = pipe_.exit_k.value_or(0.0);
      last_leg().losses.push_back({point.along_m, k, k, 0.0, 0.0});
      if (opened_.contains(pipe_.to)) {
        made_.parts.push_back(mouth_lip(in_metres(tee->elevation), point));
      }
      return;
    }
    if (!model::is_open_water(place)) {
      return;  // what the end itself costs is the place's law
    }
    const double level_m = in_metres(model::to_end_level(farm_, pipe_, answer_.month));
    const std::optional<double> surface = given_surface_m(place, answer_.month);
    const double exit_k = pipe_.exit_k.value_or(usual_exit_k);
    if (const auto* tank = std::get_if<model::Tank>(&place.data)) {
      if (tank->float_inlet && answer_.load_case != LoadCase::Wide) {
        const double shut_m = in_metres(tank->floor + *tank->float_inlet);
        made_.to = {PipeMouth::Kind::FloatInlet, level_m, shut_m, exit_k};
        return;
      }
      const bool at_rim = level_m > in_metres(tank->floor + tank->full) - rim_reach_m &&
                          pipe_.enters.value_or(model::TankEntry::Rim) == model::TankEntry::Rim;
      if (at_rim) {
        made_.to = {PipeMouth::Kind::Free, level_m, 0.0, exit_k};
        return;
      }
    }
    if (surface && level_m > *surface + level_rounding_m) {
      made_.to = {PipeMouth::Kind::Free, level_m, 0.0, exit_k};
      return;
    }
    last_leg().losses.push_back(
        {point.along_m, exit_k, pipe_.exit_k.value_or(usual_entrance_k), 0.0, 0.0});
    if (!surface) {
      made_.parts.push_back(mouth_lip(level_m, point));
    }
  }

  const model::Farm& farm_;
  const model::Pipe& pipe_;
  const SteadyAnswer& answer_;
  const Around& around_;
  const std::set<std::size_t>& opened_;
  PipeParts made_;
};

}  // namespace

std::size_t PipeParts::topped_vents() const {
  return static_cast<std::size_t>(
      std::count_if(parts.begin(), parts.end(), [](const Part& part) { return part.vent_top_m; }));
}

bool PipeParts::is_one_way() const {
  return std::any_of(parts.begin(), parts.end(), [](const Part& part) { return part.one_way; });
}

PipeParts parts_of(const model::Farm& farm,
                   const model::Pipe& pipe,
                   const SteadyAnswer& answer,
                   const Around& around,
                   const std::set<std::size_t>& opened_tees) {
  return PipeReader(farm, pipe, answer, around, opened_tees).read();
}

std::optional<double> given_surface_m(const model::Place& place,
                                      std::optional<model::Month> month) {
  if (const auto* spring = std::get_if<model::Spring>(&place.data)) {
    return in_metres(spring->overflow);
  }
  if (const auto* creek = std::get_if<model::Creek>(&place.data)) {
    return in_metres(creek->surface.at(month));
  }
  if (const auto* pond = std::get_if<model::Pond>(&place.data)) {
    return in_metres(pond->surface.at(month));
  }
  const auto* tank = std::get_if<model::Tank>(&place.data);
  if (tank != nullptr && !tank->settles) {
    return in_metres(tank->floor + tank->depth);
  }
  return std::nullopt;
}

double placed_loss_m(const PipeParts& pipe, const LossAt& loss, double flow_m3_s) {
  const double bore_m = in_metres(pipe.pipe->size.bore);
  const double lifting_head_m = loss.lifting_m_s * loss.lifting_m_s / (2.0 * gravity_m_s2);
  const double velocity_head_m = plain_velocity_head_m(bore_m, flow_m3_s);
  if (flow_m3_s < 0.0) {
    return -loss.backward_k * velocity_head_m;
  }
  return loss.forward_k * std::max(velocity_head_m, lifting_head_m) + loss.opening_head_m;
}

double leg_loss_m(const PipeParts& pipe, const Part& leg, double flow_m3_s, double viscosity_m2_s) {
  const double bore_m = in_metres(pipe.pipe->size.bore);
  const double length_m = leg.end.along_m - leg.start.along_m;
  const double even =
      plain_friction_m(pipe.pipe->size, length_m, std::abs(flow_m3_s), viscosity_m2_s) +
      leg.spread_k * plain_velocity_head_m(bore_m, flow_m3_s);
  double sum = std::copysign(even, flow_m3_s);
  for (const LossAt& loss : leg.losses) {
    sum += placed_loss_m(pipe, loss, flow_m3_s);
  }
  return sum;
}

}  // namespace leat::solver::audit
