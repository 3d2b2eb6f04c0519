// What the checks of one answer share: the farm, the answer, what was found so far.
#pragma once

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "solver/audit/audit.h"
#include "solver/audit/pipe_parts.h"
#include "solver/audit/pipe_walk.h"

namespace leat::solver::audit {

/// OUTPUT.md: below this a flow is printed as still.
inline constexpr double still_m3_s = 1e-9;
inline constexpr double small_head_m = 2e-6;
/// METHOD.md: small losses that keep limits from being knife edges.
inline constexpr double spring_rise_s_m2 = 0.01;
inline constexpr double brim_rise_s_m2 = 1.0;
inline constexpr double least_slope_s_m2 = 1e-3;
/// The shared design, section 4: a storm lowers the air's pressure by this share.
inline constexpr double storm_share = 0.03;
/// OUTPUT.md: a spring box is never said to stand further above its overflow.
inline constexpr double spring_box_rise_m = 0.01;

/// One answer under audit.
struct Case {
  const model::Farm& farm;
  const SteadyAnswer& answer;
  AuditReport report = {};
  Around around = {};
  std::set<std::size_t> opened = {};               // tees that draw air
  std::set<std::size_t> breaking = {};             // springs whose line has broken
  std::vector<PipeParts> parts = {};               // by pipe
  std::vector<std::optional<double>> head_m = {};  // by place; hidden ones as worked out
  std::vector<bool> hidden = {};                   // by place: its full head is not printed
  std::vector<double> slack_m = {};                // by place, of a head worked out from others
  std::vector<double> far_flow = {};               // by pipe, at its `to` end
  std::vector<bool> inferred = {};  // by pipe: that flow is worked out from its place
  std::vector<bool> loose = {};     // by pipe: it cannot be
  double largest_flow = 0.0;
};

/// The base of every group of checks.
class Checker {
 protected:
  explicit Checker(Case& audited)
      : case_(audited),
        farm_(audited.farm),
        answer_(audited.answer),
        report_(audited.report),
        around_(audited.around),
        parts_(audited.parts),
        head_m_(audited.head_m),
        hidden_(audited.hidden),
        slack_m_(audited.slack_m),
        far_flow_(audited.far_flow) {}

  void fail(AuditFault fault) {
    if (!report_.broken) {
      report_.broken = std::move(fault);
    }
  }

  void check_limit(bool holds, const std::string& where, AuditLaw law) {
    ++report_.limits;
    if (!holds) {
      fail({law, where});
    }
  }

  [[nodiscard]] static AuditFault at(const std::string& where, const WalkFault& fault) {
    return {.law = fault.law, .where = where, .found = fault.by_m};
  }

  /// A head worked out again beside the printed one.
  void check_head(double found_m,
                  double printed_m,
                  double tolerance_m,
                  const std::string& where,
                  AuditedFigure figure = AuditedFigure::Itself) {
    const double difference = std::abs(found_m - printed_m);
    report_.largest_head_difference_m = std::max(report_.largest_head_difference_m, difference);
    if (!(difference <= tolerance_m)) {
      fail({AuditLaw::Head, where, figure, found_m, printed_m});
    }
  }

  [[nodiscard]] static bool differ_by_more(double a, double b, double share) {
    return !(std::abs(a - b) <= share * std::abs(b));
  }

  /// Printed as still are flows below `still_m3_s`, each of which may hide so much.
  [[nodiscard]] double flow_tolerance(std::size_t place) const {
    double pipes = 1.0;
    for (const model::Pipe& pipe : farm_.pipes) {
      pipes += pipe.to == place || pipe.from == place ? 1.0 : 0.0;
    }
    return pipes * still_m3_s + 1e-9 * case_.largest_flow;
  }

  [[nodiscard]] Run whole_run(std::size_t i, double flow) const {
    return {&parts_[i],
            0,
            parts_[i].parts.size() - 1,
            flow,
            around_.viscosity_m2_s,
            around_.loss_share};
  }

  /// What heads worked out at a pipe's two ends may already be off by.
  [[nodiscard]] double slack_at(std::size_t i) const {
    return slack_m_[farm_.pipes[i].from] + slack_m_[farm_.pipes[i].to];
  }

  void check_place_pressure(std::size_t i) {
    const PlaceAnswer& said = answer_.places[i];
    if (!said.pressure_Pa || !said.head_m) {
      check_limit(!said.pressure_Pa, farm_.places[i].name, AuditLaw::PressureWithoutHead);
      return;
    }
    const double head_m = *said.pressure_Pa / (around_.density_kg_m3 * gravity_m_s2);
    check_head(*said.head_m - said.elevation_m, head_m, small_head_m, farm_.places[i].name);
  }

  Case& case_;
  const model::Farm& farm_;
  const SteadyAnswer& answer_;
  AuditReport& report_;
  Around& around_;
  std::vector<PipeParts>& parts_;
  std::vector<std::optional<double>>& head_m_;
  std::vector<bool>& hidden_;
  std::vector<double>& slack_m_;
  std::vector<double>& far_flow_;
};

}  // namespace leat::solver::audit
