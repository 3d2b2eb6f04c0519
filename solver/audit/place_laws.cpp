#include "solver/audit/place_laws.h"

#include "model/catalogue/need.h"
#include "solver/audit/plain_law.h"

namespace leat::solver::audit {

namespace {

class PlaceLaws : private Checker {
 public:
  explicit PlaceLaws(Case& audited) : Checker(audited) {}

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

 private:
  void check_elevation(std::size_t i, double elevation_m) {
    check_limit(std::abs(answer_.places[i].elevation_m - elevation_m) <= 1e-9,
                farm_.places[i].name,
                "its elevation is not the file's");
  }

  void check_surface(std::size_t i) {
    const std::optional<double> surface = given_surface_m(farm_.places[i], answer_.month);
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
    check_limit(std::abs(*said.level_m -
                         std::clamp(*said.head_m, low_m, overflow_m + spring_box_rise_m)) <= 1e-9,
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
      return plain_orifice_m(in_metres(*trough->seat), trough->discharge_coefficient, flow);
    }
    if (trough != nullptr && trough->passes) {
      // Valve makers state pressures of water of 1000 kg/m3.
      const double head_m = in_pascals(trough->passes->second) / (1000.0 * gravity_m_s2);
      const double share = flow / in_cubic_metres_per_second(trough->passes->first);
      return head_m * share * share;
    }
    if (outlet != nullptr && outlet->opening) {
      return plain_orifice_m(in_metres(*outlet->opening), outlet->discharge_coefficient, flow);
    }
    for (const model::Pipe& pipe : farm_.pipes) {
      if (pipe.to == i) {
        return pipe.exit_k.value_or(1.0) * plain_velocity_head_m(in_metres(pipe.size.bore), flow);
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
      check_limit(said.head_m &&
                      *said.head_m >= level_m + end_loss_m(i, said.delivered_m3_s) - small_head_m,
                  name,
                  "it gets its need although the head does not suffice");
    }
  }
};

}  // namespace

void check_places(Case& audited) {
  PlaceLaws laws(audited);
  for (std::size_t i = 0; i < audited.farm.places.size(); ++i) {
    laws.check_place(i);
  }
}

}  // namespace leat::solver::audit
