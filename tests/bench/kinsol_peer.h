// A general-purpose nonlinear solver on the same equations: SUNDIALS KINSOL with the sparse direct
// solver KLU. Only the benchmarks know it.
#pragma once

#include <memory>

#include "solver/nodal/problem.h"

namespace leat::bench {

/// How the peer goes about it.
struct PeerOptions {
  double smoothing_m = 0.0;  // mu of the limits, fixed during the solve; 0 = exact min and max
  double head_tolerance_m = 1e-8;
  double scale_s_m2 = 1e5;  // S: of the limits, and what turns an imbalance into a head
  long iteration_limit = 1500;
  long steps_a_jacobian = 1;  // 1 is the fastest here; KINSOL's own default is 10
};

/// What the peer found.
struct PeerAnswer {
  nodal::State state;
  bool converged = false;  // by the peer's own word
  double exact_m = 0.0;    // largest edge residual with true min and max
  double imbalance_m3_s = 0.0;
  long iterations = 0;
};

/// KINSOL's Newton with line search. Unknowns are heads and flows together, as in our own method
/// before the flows are eliminated; the Jacobian is exact and sparse, formed at every step from the
/// derivatives that the last residual left behind. Memory, matrix pattern and vectors are made
/// once, here; what a solve costs is KINSol alone.
class KinsolPeer {
 public:
  explicit KinsolPeer(const nodal::Problem& problem);
  ~KinsolPeer();
  KinsolPeer(KinsolPeer&&) noexcept;
  KinsolPeer& operator=(KinsolPeer&&) noexcept;
  KinsolPeer(const KinsolPeer&) = delete;
  KinsolPeer& operator=(const KinsolPeer&) = delete;

  /// Solves from the cold start of our own solver, or from where the last solve ended.
  [[nodiscard]] PeerAnswer solve(const PeerOptions& options, bool from_last = false);

 private:
  struct Workspace;
  std::unique_ptr<Workspace> workspace_;
};

/// Works out how well an answer meets the equations as they stand, with true min and max.
void judge(const nodal::Problem& problem, double scale_s_m2, PeerAnswer& answer);

}  // namespace leat::bench
