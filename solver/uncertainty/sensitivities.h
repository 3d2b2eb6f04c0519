// What a head or flow of a solved farm gains by each number of its file, to first order. See
// METHOD.md, "Sensitivities".
#pragma once

#include <vector>

#include "solver/flow/flow_state.h"
#include "solver/nodal/sensitivity.h"
#include "solver/uncertainty/farm_input.h"

namespace leat::solver {

/// How an answer J changes with one input.
struct InputSensitivity {
  FarmInput input;
  double value = 0.0;      // of the input, as value_of gives it
  double by_amount = 0.0;  // dJ by set_input's amount: per m of a level, else per unit of ln(value)
};

/// The aim of what a place is handed (a trough's flow, a pond's inflow, less a spring's take).
[[nodiscard]] nodal::Aim delivered_aim(const FlowState& state, std::size_t place);

/// The farm's inputs beside what each does to the equations at the answer, found once for as many
/// answers as are asked. The state must have been solved, and outlive this.
/// An input at a kink (a float just asking for its need, a summit just parting) has a derivative on
/// either side; which one comes out is not said.
class FarmSensitivities {
 public:
  explicit FarmSensitivities(const FlowState& state);

  /// The derivatives of a sum of heads and flows by every input of inputs_of(), in its order. Empty
  /// where there are none (a head that is not known, a matrix without an inverse).
  [[nodiscard]] std::vector<InputSensitivity> of(const nodal::Aim& aim);

  /// delivered_aim() of a place.
  [[nodiscard]] nodal::Aim delivered(std::size_t place) const {
    return delivered_aim(*state_, place);
  }

 private:
  struct Effect {
    FarmInput input;
    double value = 0.0;
    std::vector<nodal::Aim::Term> residuals;    // edge, dr by amount
    std::vector<nodal::Aim::Term> fixed_heads;  // node, dH by amount
  };
  [[nodiscard]] Effect effect_of(const FarmInput& input);

  const FlowState* state_;
  model::Farm changed_;
  nodal::Sensitivities adjoint_;
  std::vector<Effect> effects_;
};

}  // namespace leat::solver
