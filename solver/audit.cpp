#include "solver/audit.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <vector>

#include <fmt/format.h>

#include "model/herd_catalogue.h"
#include "solver/audit/pipe_parts.h"
#include "solver/audit/pipe_walk.h"
#include "solver/audit/plain_law.h"

namespace leat::solver {

namespace {

using audit::Around;
using audit::Part;
using audit::PipeMouth;
using audit::PipeParts;
using audit::Run;
using audit::StillEnd;
using audit::Walked;

/// OUTPUT.md: below this a flow is printed as still.
constexpr double still_m3_s = 1e-9;
constexpr double small_head_m = 2e-6;
/// METHOD.md: small losses that keep limits from being knife edges.
constexpr double spring_rise_s_m2 = 0.01;
constexpr double brim_rise_s_m2 = 1.0;
constexpr double least_slope_s_m2 = 1e-3;
/// The shared design, section 4: a storm lowers the air's pressure by this share.
constexpr double storm_share = 0.03;
/// OUTPUT.md: a spring box is never said to stand further above its overflow.
constexpr double spring_box_rise_m = 0.01;
/// Two published formulas for one property of water differ by less than this share.
constexpr double between_formulas = 0.005;

class Auditor {
 public:
  Auditor(const model::Farm& farm, const SteadyAnswer& answer) : farm_(farm), answer_(answer) {}

  AuditReport run() {
    if (!answer_.converged || answer_.places.size() != farm_.places.size() ||
        answer_.pipes.size() != farm_.pipes.size()) {
      fail("the answer has not the farm's places and pipes");
      return std::move(report_);
    }
    check_surroundings();
    read_flags();
    read_pipes();
    if (answer_.load_case == LoadCase::Static) {
      check_static();
    } else {
      find_far_flows();
      check_balances();
      for (std::size_t i = 0; i < farm_.places.size(); ++i) {
        check_place(i);
      }
      find_hidden_heads();
      for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
        check_pipe(i);
      }
    }
    return std::move(report_);
  }

 private:
  void fail(std::string text) {
    if (!report_.broken) {
      report_.broken = std::move(text);
    }
  }

  void check_limit(bool holds, const std::string& where, const char* what) {
    ++report_.limits;
    if (!holds) {
      fail(fmt::format("{}: {}", where, what));
    }
  }

  /// A head worked out again beside the printed one.
  void check_head(double found_m, double printed_m, double tolerance_m, const std::string& where) {
    const double difference = std::abs(found_m - printed_m);
    report_.largest_head_difference_m = std::max(report_.largest_head_difference_m, difference);
    if (!(difference <= tolerance_m)) {
      fail(fmt::format("{}: the head is {:.6g} m, the answer says {:.6g} m", where, found_m,
                       printed_m));
    }
  }

  [[nodiscard]] static bool differ_by_more(double a, double b, double share) {
    return !(std::abs(a - b) <= share * std::abs(b));
  }

  void check_surroundings() {
    const Temperature water = farm_.site.water.at(answer_.month);
    ++report_.limits;
    if (differ_by_more(
            answer_.vapour_pressure_Pa, audit::plain_vapour_pressure_Pa(water), between_formulas)) {
      fail("the vapour pressure does not belong to the water's temperature");
    }
    if (differ_by_more(answer_.density_kg_m3, audit::plain_density_kg_m3(water), 1e-4)) {
      fail("the density does not belong to the water's temperature");
    }
    const double air_Pa = farm_.site.air_pressure
                              ? in_pascals(*farm_.site.air_pressure)
                              : audit::plain_air_pressure_Pa(farm_.site.altitude);
    if (differ_by_more(answer_.air_pressure_Pa, air_Pa, 1e-3)) {
      fail("the air pressure does not belong to the altitude");
    }
    const double weight = answer_.density_kg_m3 * gravity_m_s2;
    around_.density_kg_m3 = answer_.density_kg_m3;
    around_.vapour_head_m = answer_.vapour_pressure_Pa / weight;
    around_.air_head_m = answer_.air_pressure_Pa / weight;
    around_.viscosity_m2_s = audit::plain_viscosity_m2_s(water);
    // Published formulas differ by some tenths of a percent. So the viscosity the answer stands on,
    // which its Reynolds numbers give away, is held against another formula once, and then used.
    for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
      const PipeAnswer& pipe = answer_.pipes[i];
      const double bore_m = in_metres(farm_.pipes[i].size.bore);
      const double velocity = pipe.flow_m3_s / in_square_metres(bore_area(farm_.pipes[i].size.bore));
      if (velocity == 0.0) {
        check_limit(pipe.reynolds == 0.0 && pipe.velocity_m_s == 0.0,
                    farm_.pipes[i].name,
                    "still water has a velocity");
        continue;
      }
      const double viscosity = std::abs(velocity) * bore_m / pipe.reynolds;
      if (differ_by_more(velocity, pipe.velocity_m_s, 1e-9)) {
        fail(fmt::format("{}: velocity and flow do not belong together", farm_.pipes[i].name));
      }
      if (differ_by_more(viscosity, around_.viscosity_m2_s, viscosity_said_ ? 1e-9
                                                                            : between_formulas)) {
        fail(fmt::format("{}: the Reynolds number does not belong to flow, bore and water",
                         farm_.pipes[i].name));
      }
      around_.viscosity_m2_s = viscosity;
      viscosity_said_ = true;
    }
  }

  void read_flags() {
    for (const Flag& flag : answer_.flags) {
      for (std::size_t i = 0; i < farm_.places.size(); ++i) {
        if (farm_.places[i].name != flag.where) {
          continue;
        }
        if (flag.code == "air-in") {
          opened_.insert(i);
        } else if (flag.code == "breaks") {
          breaking_.insert(i);
        }
      }
    }
  }

  void read_pipes() {
    for (const model::Pipe& pipe : farm_.pipes) {
      parts_.push_back(audit::parts_of(farm_, pipe, answer_, around_, opened_));
    }
    for (const PlaceAnswer& place : answer_.places) {
      head_m_.push_back(place.head_m);
    }
    hidden_.assign(farm_.places.size(), false);
    slack_m_.assign(farm_.places.size(), 0.0);
  }

  // ---- flows ----

  /// Flow at each pipe's `to` end. Only a vent with a top, where water may spill, makes it another
  /// than the printed one; then the place there says how much arrives.
  void find_far_flows() {
    for (const PipeAnswer& pipe : answer_.pipes) {
      far_flow_.push_back(pipe.flow_m3_s);
      largest_flow_ = std::max(largest_flow_, std::abs(pipe.flow_m3_s));
    }
    inferred_.assign(farm_.pipes.size(), false);
    loose_.assign(farm_.pipes.size(), false);
    for (std::size_t place = 0; place < farm_.places.size(); ++place) {
      std::vector<std::size_t> arriving;
      for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
        if (farm_.pipes[i].to == place && parts_[i].topped_vents() > 0) {
          arriving.push_back(i);
        }
      }
      if (arriving.size() == 1) {
        inferred_[arriving.front()] = true;
        far_flow_[arriving.front()] -= surplus(place);
      } else {
        for (const std::size_t pipe : arriving) {
          loose_[pipe] = true;
        }
      }
    }
  }

  /// What the pipes bring to a place beyond what it is said to take or spill.
  [[nodiscard]] double surplus(std::size_t place) const {
    double sum = 0.0;
    for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
      sum += farm_.pipes[i].to == place ? far_flow_[i] : 0.0;
      sum -= farm_.pipes[i].from == place ? answer_.pipes[i].flow_m3_s : 0.0;
    }
    return sum - answer_.places[place].delivered_m3_s;
  }

  /// Printed as still are flows below `still_m3_s`, each of which may hide so much.
  [[nodiscard]] double flow_tolerance(std::size_t place) const {
    double pipes = 1.0;
    for (const model::Pipe& pipe : farm_.pipes) {
      pipes += pipe.to == place || pipe.from == place ? 1.0 : 0.0;
    }
    return pipes * still_m3_s + 1e-9 * largest_flow_;
  }

  void check_balances() {
    for (std::size_t i = 0; i < farm_.places.size(); ++i) {
      bool is_loose = false;
      for (std::size_t pipe = 0; pipe < farm_.pipes.size(); ++pipe) {
        is_loose = is_loose || (farm_.pipes[pipe].to == i && (loose_[pipe] || inferred_[pipe]));
      }
      if (is_loose) {
        ++report_.not_checked["balances behind a vent that may spill"];
        continue;
      }
      ++report_.balances;
      const double over = std::abs(surplus(i));
      report_.largest_imbalance_m3_s = std::max(report_.largest_imbalance_m3_s, over);
      if (!(over <= flow_tolerance(i))) {
        fail(fmt::format("{}: the pipes bring {:.4g} L/s more or less than it takes",
                         farm_.places[i].name,
                         over * 1e3));
      }
    }
  }

  // ---- places ----

  void check_place(std::size_t i) {
    const model::Place& place = farm_.places[i];
    if (const auto* spring = std::get_if<model::Spring>(&place.data)) {
      check_spring(i, *spring);
    } else if (const auto* tank = std::get_if<model::Tank>(&place.data)) {
      check_tank(i, *tank);
    } else if (const auto* trough = std::get_if<model::Trough>(&place.data)) {
      check_trough(i, *trough);
    } else if (const auto* outlet = std::get_if<model::Outlet>(&place.data)) {
      check_outlet(i, *outlet);
    } else if (const auto* tee = std::get_if<model::Tee>(&place.data)) {
      check_limit(answer_.places[i].delivered_m3_s == 0.0, place.name, "a tee takes no water");
      check_elevation(i, in_metres(tee->elevation));
    } else {
      check_surface(i);
    }
    check_place_pressure(i);
  }

  void check_elevation(std::size_t i, double elevation_m) {
    check_limit(std::abs(answer_.places[i].elevation_m - elevation_m) <= 1e-9,
                farm_.places[i].name,
                "its elevation is not the file's");
  }

  void check_place_pressure(std::size_t i) {
    const PlaceAnswer& said = answer_.places[i];
    if (!said.pressure_Pa || !said.head_m) {
      check_limit(!said.pressure_Pa, farm_.places[i].name, "pressure without a head");
      return;
    }
    const double head_m = *said.pressure_Pa / (around_.density_kg_m3 * gravity_m_s2);
    check_head(*said.head_m - said.elevation_m, head_m, small_head_m, farm_.places[i].name);
  }

  void check_surface(std::size_t i) {
    const std::optional<double> surface =
        audit::given_surface_m(farm_.places[i], answer_.month);
    check_elevation(i, *surface);
    check_open_water(i, *surface);
  }

  void check_open_water(std::size_t i, double surface_m) {
    const PlaceAnswer& said = answer_.places[i];
    check_limit(said.head_m && std::abs(*said.head_m - surface_m) <= 1e-9 && said.level_m &&
                    std::abs(*said.level_m - surface_m) <= 1e-9,
                farm_.places[i].name,
                "its level is not the file's");
    check_limit(said.spill_m3_s.value_or(0.0) == 0.0,
                farm_.places[i].name,
                "water whose level is given does not spill");
  }

  void check_spring(std::size_t i, const model::Spring& spring) {
    const PlaceAnswer& said = answer_.places[i];
    const std::string& name = farm_.places[i].name;
    const double yield = in_cubic_metres_per_second(spring.yield.at(answer_.month));
    const double taken = -said.delivered_m3_s;
    const double spill = said.spill_m3_s.value_or(0.0);
    const double overflow_m = in_metres(spring.overflow);
    check_elevation(i, overflow_m);
    check_limit(said.spill_m3_s && spill >= 0.0, name, "a spring spills nothing or something");
    check_limit(taken <= yield + still_m3_s, name, "more is taken than the spring yields");
    const double unaccounted = std::abs(yield - taken - spill);
    report_.largest_imbalance_m3_s = std::max(report_.largest_imbalance_m3_s, unaccounted);
    check_limit(unaccounted <= 2.0 * still_m3_s + 1e-9 * yield,
                name,
                "what is taken and what spills are not the yield");
    const double low_m = std::min(in_metres(spring.intake), overflow_m);
    check_limit(said.level_m && *said.level_m >= low_m - 1e-9 &&
                    *said.level_m <= overflow_m + spring_box_rise_m + 1e-9,
                name,
                "its box stands below the intake or above the overflow");
    if (!said.head_m || !said.level_m) {
      return;
    }
    check_limit(std::abs(*said.level_m - std::clamp(*said.head_m, low_m,
                                                    overflow_m + spring_box_rise_m)) <= 1e-9,
                name,
                "level and head of its box do not belong together");
    const double rise_m = spring_rise_s_m2 * std::abs(taken) + small_head_m;
    if (spill > 0.0) {
      check_limit(std::abs(*said.head_m - overflow_m) <= rise_m,
                  name,
                  "it spills although it does not stand at its overflow");
    } else {
      check_limit(*said.head_m <= overflow_m + rise_m, name, "it stands above its overflow");
    }
  }

  void check_tank(std::size_t i, const model::Tank& tank) {
    const PlaceAnswer& said = answer_.places[i];
    const std::string& name = farm_.places[i].name;
    const double floor_m = in_metres(tank.floor);
    const double brim_m = in_metres(tank.floor + tank.full);
    check_elevation(i, floor_m);
    if (!tank.settles) {
      check_open_water(i, in_metres(tank.floor + tank.depth));
      return;
    }
    const double spill = said.spill_m3_s.value_or(0.0);
    check_limit(said.spill_m3_s && spill >= 0.0, name, "a tank spills nothing or something");
    // A level that has settled: what comes and does not go on runs over the brim.
    check_limit(std::abs(said.delivered_m3_s - spill) <= flow_tolerance(i),
                name,
                "what stays there does not run over its brim");
    check_limit(said.level_m && *said.level_m >= floor_m - 1e-9 && *said.level_m <= brim_m + 1e-9,
                name,
                "it stands below its floor or above its brim");
    if (!said.head_m) {
      return;
    }
    check_limit(std::abs(std::clamp(*said.head_m, floor_m, brim_m) - *said.level_m) <= 1e-9,
                name,
                "level and head do not belong together");
    if (spill > 0.0) {
      check_head(brim_m + brim_rise_s_m2 * spill, *said.head_m, small_head_m, name);
    } else {
      check_limit(*said.head_m <= brim_m + small_head_m, name, "it stands over its brim unspilt");
    }
  }

  /// The end of an outlet or trough, wide open: the head in front of it at a flow.
  [[nodiscard]] double end_loss_m(std::size_t i, double flow) const {
    const auto* trough = std::get_if<model::Trough>(&farm_.places[i].data);
    const auto* outlet = std::get_if<model::Outlet>(&farm_.places[i].data);
    if (trough != nullptr && trough->seat) {
      return audit::plain_orifice_m(in_metres(*trough->seat), trough->discharge_coefficient, flow);
    }
    if (trough != nullptr && trough->passes) {
      // Valve makers state pressures of water of 1000 kg/m3.
      const double head_m = in_pascals(trough->passes->second) / (1000.0 * gravity_m_s2);
      const double share = flow / in_cubic_metres_per_second(trough->passes->first);
      return head_m * share * share;
    }
    if (outlet != nullptr && outlet->opening) {
      return audit::plain_orifice_m(
          in_metres(*outlet->opening), outlet->discharge_coefficient, flow);
    }
    for (const model::Pipe& pipe : farm_.pipes) {
      if (pipe.to == i) {
        return pipe.exit_k.value_or(1.0) *
               audit::plain_velocity_head_m(in_metres(pipe.size.bore), flow);
      }
    }
    return 0.0;
  }

  void check_open_end(std::size_t i, double level_m) {
    const PlaceAnswer& said = answer_.places[i];
    const double flow = said.delivered_m3_s;
    const double tolerance_m = small_head_m + 2.0 * least_slope_s_m2 * flow;
    ++report_.limits;
    if (flow > 0.0) {
      if (!said.head_m) {
        fail(fmt::format("{}: water runs without a head", farm_.places[i].name));
        return;
      }
      check_head(level_m + end_loss_m(i, flow), *said.head_m, tolerance_m, farm_.places[i].name);
    } else if (said.head_m) {
      const double hidden_m = end_loss_m(i, still_m3_s);
      check_limit(*said.head_m <= level_m + tolerance_m + hidden_m,
                  farm_.places[i].name,
                  "nothing runs although water stands above it");
    }
  }

  void check_need(std::size_t i, std::optional<double> need) {
    const PlaceAnswer& said = answer_.places[i];
    const std::string& name = farm_.places[i].name;
    check_limit(said.need_m3_s.has_value() == need.has_value() &&
                    (!need || !differ_by_more(*said.need_m3_s, *need, 1e-9)),
                name,
                "its need is not the file's");
    if (!need) {
      return;
    }
    const double met = *need > 0.0 ? std::min(1.0, said.delivered_m3_s / *need) : 1.0;
    check_limit(said.met && std::abs(*said.met - met) <= 1e-9,
                name,
                "the share met is not what it gets over what it needs");
  }

  void check_outlet(std::size_t i, const model::Outlet& outlet) {
    check_elevation(i, in_metres(outlet.level));
    std::optional<double> wished;
    if (outlet.wished) {
      wished = in_cubic_metres_per_second(outlet.wished->at(answer_.month));
    }
    check_need(i, wished);
    check_limit(answer_.places[i].delivered_m3_s >= 0.0, farm_.places[i].name, "water runs in");
    check_open_end(i, in_metres(outlet.level));
  }

  void check_trough(std::size_t i, const model::Trough& trough) {
    const PlaceAnswer& said = answer_.places[i];
    const std::string& name = farm_.places[i].name;
    const double level_m = in_metres(trough.float_level);
    check_elevation(i, level_m);
    std::optional<double> need;
    if (const std::optional<Flow> rate = model::need_rate(trough, farm_.air, answer_.month)) {
      need = in_cubic_metres_per_second(*rate);
    }
    check_need(i, need);
    check_limit(said.delivered_m3_s >= 0.0, name, "water runs in");
    const bool capped =
        need && answer_.load_case == LoadCase::Needs && answer_.broken != farm_.places[i].name;
    if (!capped) {
      check_open_end(i, level_m);
      return;
    }
    check_limit(said.delivered_m3_s <= *need + still_m3_s, name, "it gets more than it needs");
    const bool satisfied = said.delivered_m3_s >= *need - still_m3_s - 1e-9 * *need;
    if (!satisfied) {
      check_open_end(i, level_m);  // less than it needs: its float hangs wide open
    } else if (*need > still_m3_s) {
      check_limit(
          said.head_m && *said.head_m >= level_m + end_loss_m(i, said.delivered_m3_s) - small_head_m,
          name,
          "it gets its need although the head does not suffice");
    }
  }

  // ---- pipes ----

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
    if (flow == 0.0 || loose_[i] || spills(i)) {
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
    const Walked walked = audit::walk_against(whole_run(i, flow), lower->head_m, lower->at_least);
    if (walked.at_least || walked.broken) {
      return false;
    }
    head_m_[upper] = walked.head_m;
    slack_m_[upper] = whole_run(i, flow).tolerance_m() + slack_at(i);
    return true;
  }

  [[nodiscard]] Run whole_run(std::size_t i, double flow) const {
    return {&parts_[i], 0, parts_[i].parts.size() - 1, flow, around_.viscosity_m2_s};
  }

  /// What heads worked out at a pipe's two ends may already be off by.
  [[nodiscard]] double slack_at(std::size_t i) const {
    return slack_m_[farm_.pipes[i].from] + slack_m_[farm_.pipes[i].to];
  }

  [[nodiscard]] bool spills(std::size_t i) const {
    return std::abs(far_flow_[i] - answer_.pipes[i].flow_m3_s) >
           flow_tolerance(farm_.pipes[i].to);
  }

  struct LowerEnd {
    double head_m = 0.0;
    bool at_least = false;
  };

  /// Head where a running pipe's water leaves it; none where it is not known.
  [[nodiscard]] std::optional<LowerEnd> lower_end(std::size_t i, double flow) const {
    const PipeMouth& mouth = flow > 0.0 ? parts_[i].to : parts_[i].from;
    const std::size_t place = flow > 0.0 ? farm_.pipes[i].to : farm_.pipes[i].from;
    if (mouth.kind == PipeMouth::Kind::Place) {
      return head_m_[place] ? std::optional<LowerEnd>({*head_m_[place], false}) : std::nullopt;
    }
    const double bore_m = in_metres(farm_.pipes[i].size.bore);
    const double head_m = mouth.level_m + mouth.exit_k * audit::plain_velocity_head_m(bore_m, flow);
    const bool is_float = mouth.kind == PipeMouth::Kind::FloatInlet;
    const bool holds = is_float && head_m_[place] &&
                       *head_m_[place] >= mouth.shut_level_m - brim_rise_s_m2 * flow - 2.0 * small_head_m;
    return LowerEnd{head_m, holds};
  }

  /// Every downward turn of the path is there, where the file has it.
  void check_summit_places(std::size_t i) {
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
                  "a summit does not stand where the file says");
      ++count;
    }
    check_limit(count == said.size(), farm_.pipes[i].name, "it has other summits than its path");
  }

  void check_pipe(std::size_t i) {
    check_summit_places(i);
    if (report_.broken) {
      return;
    }
    if (loose_[i] && parts_[i].topped_vents() > 0) {
      ++report_.not_checked["pipes with vents that may spill at one tee"];
      return;
    }
    const double flow = answer_.pipes[i].flow_m3_s;
    if (inferred_[i] && spills(i)) {
      check_spilling_pipe(i);
    } else if (flow != 0.0) {
      check_running_pipe(i, flow);
    } else {
      check_still_pipe(i);
    }
  }

  void check_float_inlet(std::size_t i, double flow) {
    const PipeMouth& mouth = parts_[i].to;
    if (mouth.kind != PipeMouth::Kind::FloatInlet || flow <= flow_tolerance(farm_.pipes[i].to)) {
      return;
    }
    const std::optional<double>& tank = answer_.places[farm_.pipes[i].to].head_m;
    check_limit(tank && *tank <= mouth.shut_level_m - brim_rise_s_m2 * flow + 2.0 * small_head_m,
                farm_.pipes[i].name,
                "it fills a tank whose float has shut");
  }

  void check_running_pipe(std::size_t i, double flow) {
    const std::string& name = farm_.pipes[i].name;
    check_head_loss(i, {whole_run(i, flow)});
    check_float_inlet(i, flow);
    const PipeMouth& upper_mouth = flow > 0.0 ? parts_[i].from : parts_[i].to;
    check_limit(upper_mouth.kind == PipeMouth::Kind::Place, name, "it draws water from the air");
    const std::size_t upper = flow > 0.0 ? farm_.pipes[i].from : farm_.pipes[i].to;
    const std::optional<LowerEnd> lower = lower_end(i, flow);
    if (!lower || !head_m_[upper]) {
      miss_head(i);
      return;
    }
    const Walked walked = check_run(i, whole_run(i, flow), *head_m_[upper], *lower);
    check_summits(i, walked);
    check_pressures(i, walked);
  }

  Walked check_run(std::size_t i, const Run& run, double upper_m, const LowerEnd& lower) {
    const std::string& name = farm_.pipes[i].name;
    ++report_.pipes;
    Walked walked = audit::walk_against(run, lower.head_m, lower.at_least);
    const double tolerance_m = run.tolerance_m() + slack_at(i);
    if (!walked.broken && walked.at_least) {
      audit::walk_with(run, upper_m, walked);
      check_limit(walked.head_m <= upper_m + tolerance_m,
                  name,
                  "the head before a limit does not suffice for its flow");
    } else if (!walked.broken) {
      check_head(walked.head_m, upper_m, tolerance_m, name);
    }
    if (walked.broken) {
      fail(fmt::format("{}: {}", name, *walked.broken));
    }
    return walked;
  }

  void check_spilling_pipe(std::size_t i) {
    const std::string& name = farm_.pipes[i].name;
    const PipeParts& pipe = parts_[i];
    if (pipe.topped_vents() > 1) {
      ++report_.not_checked["pipes with several vents that may spill"];
      return;
    }
    const auto vent = std::find_if(pipe.parts.begin(), pipe.parts.end(), [](const Part& part) {
      return part.vent_top_m.has_value();
    });
    const auto at = static_cast<std::size_t>(vent - pipe.parts.begin());
    const double spill = answer_.pipes[i].flow_m3_s - far_flow_[i];
    check_limit(spill >= 0.0, name, "a vent takes water in");
    const double head_m = *vent->vent_top_m + brim_rise_s_m2 * spill;
    const Run before{&pipe, 0, at - 1, answer_.pipes[i].flow_m3_s, around_.viscosity_m2_s};
    const Run after{&pipe, at, pipe.parts.size() - 1, far_flow_[i], around_.viscosity_m2_s};
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
      ++report_.not_checked["still sides of a vent that spills"];
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
      ++report_.not_checked["pipes at a tee or spring whose full head is not printed"];
    } else {
      fail(fmt::format("{}: water runs where the answer gives no head", farm_.pipes[i].name));
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
      fail(fmt::format("{}: water runs without a head loss", farm_.pipes[i].name));
      return;
    }
    check_head(std::clamp(*said, least_m, most_m),
               *said,
               tolerance_m,
               farm_.pipes[i].name + " (its loss)");
  }

  [[nodiscard]] static double legs_loss_m(const Run& run, double flow) {
    double sum = 0.0;
    for (std::size_t part = run.first; part <= run.last && flow != 0.0; ++part) {
      const Part& leg = run.pipe->parts[part];
      sum += leg.kind == Part::Kind::Leg
                 ? audit::leg_loss_m(*run.pipe, leg, flow, run.viscosity_m2_s)
                 : 0.0;
    }
    return sum;
  }

  void check_still_pipe(std::size_t i) {
    const model::Pipe& pipe = farm_.pipes[i];
    if (breaking_.contains(pipe.from)) {
      // Its siphon has broken: nothing runs whatever the heads are.
      check_limit(has_high_point(i), pipe.name, "no high point breaks the siphon");
      return;
    }
    if (hidden_[pipe.from] || hidden_[pipe.to]) {
      ++report_.not_checked["still pipes at a tee or spring whose full head is not printed"];
      return;
    }
    ++report_.pipes;
    const PipeParts& parts = parts_[i];
    const Run run = whole_run(i, 0.0);
    // A flow printed as still may hide so much.
    double tolerance_m = run.tolerance_m() + small_head_m;
    for (const Part& part : parts.parts) {
      if (part.kind == Part::Kind::Leg) {
        tolerance_m += std::abs(
            audit::leg_loss_m(parts, part, -still_m3_s, around_.viscosity_m2_s));
      }
    }
    const StillEnd from = still_end(parts.from, pipe.from);
    const StillEnd to = still_end(parts.to, pipe.to);
    if (const auto fault = audit::still_fault(run, from, to, tolerance_m)) {
      fail(fmt::format("{}: {}", pipe.name, *fault));
      return;
    }
    const bool is_open_both_ways = parts.is_plain() && !parts.is_one_way() &&
                                   parts.from.kind == PipeMouth::Kind::Place &&
                                   parts.to.kind == PipeMouth::Kind::Place;
    if (is_open_both_ways) {
      check_limit(head_m_[pipe.from].has_value() == head_m_[pipe.to].has_value(),
                  pipe.name,
                  "one end's head is known and the other's is not");
      check_still_pressures(i);
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

  // ---- summits and pressures ----

  void check_summits(std::size_t i, const Walked& walked) {
    const PipeAnswer& said = answer_.pipes[i];
    const std::string& name = farm_.pipes[i].name;
    const double velocity_head_m =
        audit::plain_velocity_head_m(in_metres(farm_.pipes[i].size.bore), said.flow_m3_s);
    const double tolerance_m = whole_run(i, said.flow_m3_s).tolerance_m() + slack_at(i);
    for (const audit::SummitSeen& seen : walked.summits) {
      const SummitAnswer& summit = said.summits[seen.summit];
      const auto part = std::find_if(
          parts_[i].parts.begin(), parts_[i].parts.end(), [&](const Part& other) {
            return other.summit == seen.summit;
          });
      if (!summit.absolute_head_m || !summit.margin_m) {
        fail(fmt::format("{}: a summit in running water has no head", name));
        return;
      }
      check_head(*summit.absolute_head_m - around_.vapour_head_m,
                 *summit.margin_m,
                 small_head_m,
                 name + " (margin of its summit)");
      const bool in_air = said.part_full_m > 0.0 &&
                          std::abs(*summit.absolute_head_m - around_.air_head_m) <= small_head_m;
      if (in_air) {
        ++report_.not_checked["summits in a reach that runs part full"];
        continue;
      }
      check_head(seen.head_m - summit.elevation_m - velocity_head_m + around_.air_head_m,
                 *summit.absolute_head_m,
                 tolerance_m + small_head_m,
                 name + " (its summit)");
      // A summit that would part when a storm lowers the air's pressure is said to part as well.
      const double spare_m = *summit.margin_m - storm_share * around_.air_head_m;
      const bool parts = (seen.let_go && !part->is_vent) || spare_m <= 0.0;
      const bool is_certain = seen.is_certain && std::abs(spare_m) > small_head_m;
      if (is_certain) {
        check_limit(summit.parted == parts,
                    name,
                    summit.parted ? "a summit is said to part that holds"
                                  : "a summit parts that is said to hold");
      }
    }
  }

  [[nodiscard]] double pressure_head_m(double pressure_Pa) const {
    return pressure_Pa / (around_.density_kg_m3 * gravity_m_s2);
  }

  /// Least and greatest pressure head at the points of a pipe.
  struct Extremes {
    double lowest_m = 1e300;
    double highest_m = -1e300;
    void add(double head_m) {
      lowest_m = std::min(lowest_m, head_m);
      highest_m = std::max(highest_m, head_m);
    }
  };

  void check_pressures(std::size_t i, const Walked& walked) {
    const PipeAnswer& said = answer_.pipes[i];
    std::size_t legs = 0;
    for (const Part& part : parts_[i].parts) {
      legs += part.kind == Part::Kind::Leg ? 1 : 0;
    }
    const bool let_go = std::any_of(said.summits.begin(),
                                    said.summits.end(),
                                    [](const SummitAnswer& summit) { return summit.parted; });
    if (said.part_full_m > 0.0 || let_go || walked.legs.size() != legs || walked.broken) {
      ++report_.not_checked["pressures along a pipe that is not full or is held by a limit"];
      return;
    }
    ++report_.pressures;
    Extremes extremes;
    for (const audit::LegSeen& seen : walked.legs) {
      add_leg_points(i, seen, extremes);
    }
    const double vapour_m = around_.vapour_head_m - around_.air_head_m;
    const double tolerance_m =
        whole_run(i, said.flow_m3_s).tolerance_m() + slack_at(i) + small_head_m;
    check_pressure(said.lowest_pressure_Pa,
                   std::max(extremes.lowest_m, vapour_m),
                   tolerance_m,
                   i,
                   "lowest");
    check_pressure(said.highest_pressure_Pa,
                   std::max(extremes.highest_m, vapour_m),
                   tolerance_m,
                   i,
                   "highest");
  }

  void check_pressure(std::optional<double> said_Pa,
                      double found_m,
                      double tolerance_m,
                      std::size_t i,
                      const char* which) {
    if (!said_Pa) {
      fail(fmt::format("{}: running water without a pressure", farm_.pipes[i].name));
      return;
    }
    check_head(found_m,
               pressure_head_m(*said_Pa),
               tolerance_m,
               fmt::format("{} (its {} pressure)", farm_.pipes[i].name, which));
  }

  void add_leg_points(std::size_t i,
                      const audit::LegSeen& seen,
                      Extremes& extremes) const {
    const PipeParts& pipe = parts_[i];
    const Part& leg = *seen.leg;
    const double flow = answer_.pipes[i].flow_m3_s;
    const double velocity_head_m =
        audit::plain_velocity_head_m(in_metres(pipe.pipe->size.bore), flow);
    const double length_m = leg.end.along_m - leg.start.along_m;
    double placed_m = 0.0;
    for (const audit::LossAt& loss : leg.losses) {
      placed_m += audit::placed_loss_m(pipe, loss, flow);
    }
    const double even_m = seen.start_m - seen.end_m - placed_m;
    const double first_m = pipe.course.points.front().along_m;
    const double last_m = pipe.course.points.back().along_m;
    // Head at a point with so many of the leg's losses taken off.
    const auto head_at = [&](double along_m, std::size_t losses) {
      double head_m = seen.start_m;
      head_m -= length_m > 0.0 ? even_m * (along_m - leg.start.along_m) / length_m : 0.0;
      for (std::size_t k = 0; k < losses; ++k) {
        head_m -= audit::placed_loss_m(pipe, leg.losses[k], flow);
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
        const bool costs = audit::placed_loss_m(pipe, leg.losses[k], flow) != 0.0;
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
    for (const audit::LossAt& loss : leg.losses) {
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

  /// Still and full, with all of it under some pressure: level water.
  void check_still_pressures(std::size_t i) {
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
      ++report_.not_checked["pressures along still pipes under suction"];
      return;
    }
    ++report_.pressures;
    const double hidden_m = std::abs(
        audit::leg_loss_m(parts_[i], parts_[i].parts.front(), -still_m3_s, around_.viscosity_m2_s));
    const double tolerance_m = hidden_m + 2.0 * small_head_m;
    check_pressure(
        said.lowest_pressure_Pa, level.lowest_m, tolerance_m, i, "lowest");
    check_pressure(
        said.highest_pressure_Pa, level.highest_m, tolerance_m, i, "highest");
  }

  // ---- everything shut ----

  void check_static() {
    double highest_m = -1e300;
    for (const model::Place& place : farm_.places) {
      if (const auto own = static_level_m(place)) {
        highest_m = std::max(highest_m, *own);
      }
    }
    for (std::size_t i = 0; i < farm_.places.size(); ++i) {
      const PlaceAnswer& said = answer_.places[i];
      const std::string& name = farm_.places[i].name;
      ++report_.balances;
      check_limit(said.delivered_m3_s == 0.0, name, "water is delivered with everything shut");
      if (const auto own = static_level_m(farm_.places[i])) {
        check_limit(said.head_m && std::abs(*said.head_m - *own) <= 1e-9, name, "not at its level");
      } else if (said.head_m) {
        check_limit(*said.head_m <= highest_m + 1e-9, name, "it stands above every water");
      }
      check_place_pressure(i);
    }
    for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
      check_static_pipe(i);
    }
  }

  [[nodiscard]] std::optional<double> static_level_m(const model::Place& place) const {
    if (const auto* tank = std::get_if<model::Tank>(&place.data)) {
      return in_metres(tank->floor + tank->full);
    }
    return audit::given_surface_m(place, answer_.month);
  }

  /// Still water stands as high behind a pipe as before it, unless open water or a vent's top lets
  /// it fall to its own level.
  void check_static_pipe(std::size_t i) {
    const model::Pipe& pipe = farm_.pipes[i];
    ++report_.pipes;
    check_limit(answer_.pipes[i].flow_m3_s == 0.0, pipe.name, "water runs with everything shut");
    const bool is_shut = pipe.valve && pipe.valve->shut;
    if (is_shut || parts_[i].topped_vents() > 0 ||
        parts_[i].from.kind != PipeMouth::Kind::Place ||
        parts_[i].to.kind != PipeMouth::Kind::Place) {
      return;
    }
    const std::optional<double>& from = answer_.places[pipe.from].head_m;
    const std::optional<double>& to = answer_.places[pipe.to].head_m;
    const bool has_own_level = model::is_open_water(farm_.places[pipe.to]);
    if (from && !has_own_level) {
      check_limit(to && *to >= *from - 1e-9, pipe.name, "still water does not reach its end");
    }
    const bool feeds_back = !parts_[i].is_one_way() && !pipe.regulator;
    if (to && feeds_back && !model::is_open_water(farm_.places[pipe.from])) {
      check_limit(from && *from >= *to - 1e-9, pipe.name, "still water does not reach its start");
    }
  }

  const model::Farm& farm_;
  const SteadyAnswer& answer_;
  AuditReport report_;
  Around around_;
  bool viscosity_said_ = false;
  std::set<std::size_t> opened_;    // tees that draw air
  std::set<std::size_t> breaking_;  // springs whose line has broken
  std::vector<PipeParts> parts_;
  std::vector<std::optional<double>> head_m_;  // by place; hidden ones as worked out
  std::vector<bool> hidden_;
  std::vector<double> slack_m_;   // by place, of a head worked out from others
  std::vector<double> far_flow_;  // by pipe, at its `to` end
  std::vector<bool> inferred_;
  std::vector<bool> loose_;
  double largest_flow_ = 0.0;
};

}  // namespace

AuditReport audit_answer(const model::Farm& farm, const SteadyAnswer& answer) {
  return Auditor(farm, answer).run();
}

std::string audit_sentence(const AuditReport& report) {
  if (report.broken) {
    return fmt::format("audit: the answer breaks a law: {}", *report.broken);
  }
  std::string text =
      fmt::format("audit: {} balances, {} pipes, {} limits, {} pipes' pressures hold; largest "
                  "difference {:.2g} mm of head, {:.2g} mL/s",
                  report.balances,
                  report.pipes,
                  report.limits,
                  report.pressures,
                  report.largest_head_difference_m * 1e3,
                  report.largest_imbalance_m3_s * 1e6);
  std::string open;
  for (const auto& [why, count] : report.not_checked) {
    open += fmt::format("{}{} {}", open.empty() ? "" : ", ", count, why);
  }
  return open.empty() ? text : text + "; not checked: " + open;
}

}  // namespace leat::solver
