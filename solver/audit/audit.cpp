#include "solver/audit/audit.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "solver/audit/checker.h"
#include "solver/audit/lifter_laws.h"
#include "solver/audit/pipe_laws.h"
#include "solver/audit/place_laws.h"
#include "solver/audit/plain_law.h"
#include "solver/audit/static_laws.h"

namespace leat::solver {

namespace {

/// Two published formulas for one property of water differ by less than this share.
constexpr double between_formulas = 0.005;

/// With one viscosity for both, two ways of working out a loss differ by rounding.
constexpr double said_loss_share = 1e-8;

class Auditor : private audit::Checker {
 public:
  explicit Auditor(audit::Case& audited) : Checker(audited) {}

  void run() {
    if (!answer_.converged || answer_.places.size() != farm_.places.size() ||
        answer_.pipes.size() != farm_.pipes.size() ||
        answer_.lifters.size() != farm_.pumps.size() + farm_.rams.size()) {
      fail({AuditLaw::OtherFarm});
      return;
    }
    check_surroundings();
    read_happenings();
    read_pipes();
    if (answer_.load_case == LoadCase::Static) {
      audit::check_static(case_);
      return;
    }
    find_far_flows();
    check_balances();
    audit::check_places(case_);
    audit::check_pipes(case_);
    audit::check_lifters(case_);
  }

 private:
  void check_surroundings() {
    const Temperature water = farm_.site.water.at(answer_.month);
    ++report_.limits;
    if (differ_by_more(
            answer_.vapour_pressure_Pa, audit::plain_vapour_pressure_Pa(water), between_formulas)) {
      fail({AuditLaw::VapourPressure});
    }
    if (differ_by_more(answer_.density_kg_m3, audit::plain_density_kg_m3(water), 1e-4)) {
      fail({AuditLaw::Density});
    }
    const double air_Pa = farm_.site.air_pressure
                              ? in_pascals(*farm_.site.air_pressure)
                              : audit::plain_air_pressure_Pa(farm_.site.altitude);
    if (differ_by_more(answer_.air_pressure_Pa, air_Pa, 1e-3)) {
      fail({AuditLaw::AirPressure});
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
      const double velocity =
          pipe.flow_m3_s / in_square_metres(bore_area(farm_.pipes[i].size.bore));
      if (velocity == 0.0) {
        check_limit(pipe.reynolds == 0.0 && pipe.velocity_m_s == 0.0,
                    farm_.pipes[i].name,
                    AuditLaw::StillWaterMoves);
        continue;
      }
      const double viscosity = std::abs(velocity) * bore_m / pipe.reynolds;
      if (differ_by_more(velocity, pipe.velocity_m_s, 1e-9)) {
        fail({AuditLaw::VelocityOfFlow, farm_.pipes[i].name});
      }
      if (differ_by_more(
              viscosity, around_.viscosity_m2_s, viscosity_said_ ? 1e-9 : between_formulas)) {
        fail({AuditLaw::ReynoldsOfFlow, farm_.pipes[i].name});
      }
      around_.viscosity_m2_s = viscosity;
      viscosity_said_ = true;
      around_.loss_share = said_loss_share;
    }
  }

  /// Which tees the answer says were opened to the air, which siphons broke. A flag would not do:
  /// it may come from another load case.
  void read_happenings() {
    case_.opened.insert(answer_.opened_tees.begin(), answer_.opened_tees.end());
    case_.breaking.insert(answer_.broken_springs.begin(), answer_.broken_springs.end());
  }

  void read_pipes() {
    for (const model::Pipe& pipe : farm_.pipes) {
      parts_.push_back(audit::parts_of(farm_, pipe, answer_, around_, case_.opened));
    }
    for (const PlaceAnswer& place : answer_.places) {
      head_m_.push_back(place.head_m);
    }
    hidden_.assign(farm_.places.size(), false);
    slack_m_.assign(farm_.places.size(), 0.0);
  }

  /// Flow at each pipe's `to` end. Only a vent with a top, where water may spill, makes it another
  /// than the printed one; then the place there says how much arrives.
  void find_far_flows() {
    for (const PipeAnswer& pipe : answer_.pipes) {
      far_flow_.push_back(pipe.flow_m3_s);
      case_.largest_flow = std::max(case_.largest_flow, std::abs(pipe.flow_m3_s));
    }
    case_.inferred.assign(farm_.pipes.size(), false);
    case_.loose.assign(farm_.pipes.size(), false);
    for (std::size_t place = 0; place < farm_.places.size(); ++place) {
      std::vector<std::size_t> arriving;
      for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
        if (farm_.pipes[i].to == place && parts_[i].topped_vents() > 0) {
          arriving.push_back(i);
        }
      }
      if (arriving.size() == 1) {
        case_.inferred[arriving.front()] = true;
        far_flow_[arriving.front()] -= surplus(place);
      } else {
        for (const std::size_t pipe : arriving) {
          case_.loose[pipe] = true;
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
    return sum + audit::lifted_to(farm_, answer_, place) - answer_.places[place].delivered_m3_s;
  }

  void check_balances() {
    for (std::size_t i = 0; i < farm_.places.size(); ++i) {
      bool is_loose = false;
      for (std::size_t pipe = 0; pipe < farm_.pipes.size(); ++pipe) {
        is_loose =
            is_loose || (farm_.pipes[pipe].to == i && (case_.loose[pipe] || case_.inferred[pipe]));
      }
      if (is_loose) {
        ++report_.not_checked[AuditGap::BalanceBehindVent];
        continue;
      }
      ++report_.balances;
      const double over = std::abs(surplus(i));
      report_.largest_imbalance_m3_s = std::max(report_.largest_imbalance_m3_s, over);
      if (!(over <= flow_tolerance(i))) {
        fail({.law = AuditLaw::Unbalanced, .where = farm_.places[i].name, .found = over});
      }
    }
  }

  bool viscosity_said_ = false;
};

}  // namespace

AuditReport audit_answer(const model::Farm& farm, const SteadyAnswer& answer) {
  audit::Case audited{farm, answer};
  Auditor(audited).run();
  return std::move(audited.report);
}

}  // namespace leat::solver
