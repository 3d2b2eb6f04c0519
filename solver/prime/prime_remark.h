// What stands beside the steps of a priming plan, as values.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace leat::solver::priming {

/// The rate at which the user can pour is faster than air comes up past the water.
struct PourSlower {
  double asked_m3_s = 0.0;
  double velocity_m_s = 0.0;  // the fastest, in the pipe
  double fill_m3_s = 0.0;     // the rate to hold to
};

/// The user's pump has nothing to do here.
struct PumpIdle {
  double shut_off_Pa = 0.0;
  bool fills_itself = false;  // else the line is not to be filled at all
};

/// The line ends at a float, through which no pump can fill it.
struct FloatBarsPump {};

/// What the pump the user named would do.
struct OwnPump {
  double shut_off_Pa = 0.0;
  double reaches_m = 0.0;  // level at which it stops
  double short_m = 0.0;    // so much below the summit; not above 0 where it reaches that
  bool is_too_strong = false;
};

/// How the line is filled with a pump from its lower end instead.
struct PumpInstead {
  bool draws_at_end = false;  // water stands at the line's end; else a barrel does
  double barrel_m3 = 0.0;
  std::vector<std::size_t> replaces;  // numbers of the steps it stands for, from 1
  double needed_Pa = 0.0;             // gauge at the lower end
  double rate_m3_s = 0.0;
  struct Limit {
    double most_Pa = 0.0;  // shut-off pressure at the lower end
    std::string pipe;      // that bears no more
    double at_m = 0.0;
  };
  std::optional<Limit> limit;  // none where no pipe of the line carries a rating
  std::optional<OwnPump> own;
};

/// The flow is reckoned without the foot valve that the plan has fitted.
struct FootValveToFit {};

struct NoFootValve {
  bool has_both_valves = false;
};

struct FootValvePrice {
  double with_m3_s = 0.0;
  double without_m3_s = 0.0;
};

/// While parted water runs, the leg up to the summit decides.
struct PartedFlow {
  double at_most_m3_s = 0.0;
};

/// What trapped air holds back if the high points stay shut while it fills.
struct AirHoldsBack {
  double lifted_m = 0.0;
  double fall_m = 0.0;
  bool starts = false;
};

struct RunsPartFull {
  std::string pipe;
  double length_m = 0.0;
  double whole_m = 0.0;
  bool is_all = false;
  bool is_full_at_end = false;
};

}  // namespace leat::solver::priming

namespace leat::solver {

using PrimeRemark = std::variant<priming::PourSlower,
                                 priming::PumpIdle,
                                 priming::FloatBarsPump,
                                 priming::PumpInstead,
                                 priming::FootValveToFit,
                                 priming::NoFootValve,
                                 priming::FootValvePrice,
                                 priming::PartedFlow,
                                 priming::AirHoldsBack,
                                 priming::RunsPartFull>;

}  // namespace leat::solver
