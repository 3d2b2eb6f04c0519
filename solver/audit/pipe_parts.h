// What water meets along one pipe, one thing after another, read from the farm alone. Only where
// the pipe lies comes from a helper the solver uses too (pipe_geometry.h).
#pragma once

#include <cstddef>
#include <optional>
#include <set>
#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"
#include "solver/network/pipe_geometry.h"

namespace leat::solver::audit {

/// A loss at one point, on the pipe's velocity head.
struct LossAt {
  double along_m = 0.0;
  double forward_k = 0.0;
  double backward_k = 0.0;
  double lifting_m_s = 0.0;     // of a foot valve: it costs K times at least this velocity's head
  double opening_head_m = 0.0;  // of a spring check, once it runs
};

/// A length of pipe with nothing but losses, or what stands between two such lengths.
struct Part {
  enum class Kind { Leg, Lip, Regulator, Shut };
  Kind kind = Kind::Leg;
  CoursePoint start;
  CoursePoint end;
  // Of a leg.
  double spread_k = 0.0;
  std::vector<LossAt> losses;
  bool one_way = false;
  // Of a lip (summit, vent, end in a store, opened tee): the side the water comes from stands at
  // least so high.
  double floor_m = 0.0;
  bool has_velocity_head = false;
  double depth_s_m2 = 0.0;            // depth of the water falling over it, per flow
  std::optional<std::size_t> summit;  // counted along the pipe
  bool is_vent = false;
  std::optional<double> vent_top_m;
  // Of a regulator: elevation and set pressure as a head.
  double held_m = 0.0;
};

/// How a pipe's end opens.
struct PipeMouth {
  enum class Kind {
    Place,      // the place's own head stands there
    Free,       // water falls free at `level_m`, none comes in
    FloatInlet  // the same, as long as the tank stands below `shut_level_m`
  };
  Kind kind = Kind::Place;
  double level_m = 0.0;
  double shut_level_m = 0.0;
  double exit_k = 0.0;
  bool is_held_back = false;  // a ram set by hand: the head there may be higher than it needs
};

struct PipeParts {
  const model::Pipe* pipe = nullptr;
  PipeCourse course;
  std::vector<Part> parts;  // from the `from` end to the `to` end
  PipeMouth from;
  PipeMouth to;

  [[nodiscard]] std::size_t topped_vents() const;
  [[nodiscard]] bool is_one_way() const;
  [[nodiscard]] bool is_plain() const { return parts.size() == 1; }
};

/// Air and water as the audit takes them.
struct Around {
  double viscosity_m2_s = 0.0;
  /// How far a loss may be off as a share: as far as two formulas for the viscosity, until a
  /// Reynolds number in the answer has said which viscosity it stands on.
  double loss_share = 0.005;
  double density_kg_m3 = 0.0;
  double vapour_head_m = 0.0;
  double air_head_m = 0.0;
};

/// Reads one pipe. `opened_tees` are places open to the air.
[[nodiscard]] PipeParts parts_of(const model::Farm& farm,
                                 const model::Pipe& pipe,
                                 const SteadyAnswer& answer,
                                 const Around& around,
                                 const std::set<std::size_t>& opened_tees);

/// Surface of creek, pond or given tank, a spring's overflow; none for other places.
[[nodiscard]] std::optional<double> given_surface_m(const model::Place& place,
                                                    std::optional<model::Month> month);

/// Head [m] a leg takes from a flow: `flow_m3_s` is positive from `from` to `to`, so is the loss.
[[nodiscard]] double leg_loss_m(const PipeParts& pipe,
                                const Part& leg,
                                double flow_m3_s,
                                double viscosity_m2_s);

/// What one placed loss takes [m], with the sign of the flow.
[[nodiscard]] double placed_loss_m(const PipeParts& pipe, const LossAt& loss, double flow_m3_s);

}  // namespace leat::solver::audit
