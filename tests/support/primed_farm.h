// Siphons written as text inside a test, and their priming plans.
#pragma once

#include <cstddef>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <utility>
#include <variant>

#include "solver/prime/prime.h"
#include "tests/support/farm_text.h"

namespace leat::tests {

struct Planned {
  model::Farm farm;
  solver::PrimePlan plan;
};

[[nodiscard]] inline Planned planned(const std::string& text,
                                     const solver::PrimeOptions& options = {}) {
  model::Farm farm = farm_of(text);
  solver::PrimePlan plan = solver::priming_plan(farm, options);
  return {std::move(farm), std::move(plan)};
}

/// The text of a farm of networks-demo.
[[nodiscard]] inline std::string demo_text(const std::string& name) {
  std::ifstream stream(std::string(LEAT_SOURCE_DIR) + "/networks-demo/" + name + ".yaml",
                       std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

/// A siphon from a pond at 20 m over 22 m to an outlet at 12 m; `more` belongs to the pipe.
[[nodiscard]] inline std::string high_siphon(const std::string& more = "",
                                             const std::string& place = "end: {level: 12 m}") {
  return "farm: siphon\nponds:\n  upper: {surface: 20 m}\noutlets:\n  " + place +
         "\npipes:\n  siphon:\n    from: upper\n    to: end\n    size: 32 mm PE100 SDR 11\n"
         "    path: [[0 m, 19 m], [20 m, 22 m], [100 m, 12 m]]\n" +
         more;
}

/// A low siphon: the summit 3 m above its end, whose full line puts 3 m of water on it: 29 kPa.
[[nodiscard]] inline std::string low_siphon(
    const std::string& end = "outlets:\n  end: {level: 18 m}",
    const std::string& path = "[[0 m, 19 m], [20 m, 21 m], [60 m, 18 m]]") {
  return "farm: low siphon\nponds:\n  upper: {surface: 20 m}\n" + end +
         "\npipes:\n  siphon: {from: upper, to: end, size: 32 mm PE100 SDR 11,\n           path: " +
         path + "}\n";
}

/// A high siphon whose summit is a tee with two branches, the second with a valve there.
inline constexpr const char* siphon_with_branches = R"(farm: tee on the summit
ponds:
  upper: {surface: 20 m}
tees:
  crest: 22 m
outlets:
  end: {level: 12 m}
troughs:
  side trough: {float: 13 m, need: 5 L/min, seat: 8 mm}
  valved trough: {float: 13 m, need: 5 L/min, seat: 8 mm}
pipes:
  up: {from: upper, to: crest, size: 32 mm PE100 SDR 11, path: [[0 m, 19 m], [60 m, 22 m]]}
  down: {from: crest, to: end, size: 32 mm PE100 SDR 11, length: 120 m}
  side: {from: crest, to: side trough, size: 25 mm PE100 SDR 11, length: 100 m}
  valved: {from: crest, to: valved trough, size: 25 mm PE100 SDR 11, length: 100 m,
           valve: {type: ball, open: 100 %, at: start}}
)";

/// A high siphon to a float that closes against 50 kPa; the full line puts 10 m of water on it.
inline constexpr const char* siphon_to_weak_float = R"(farm: weak float
ponds:
  upper: {surface: 20 m}
troughs:
  end: {float: 12 m, need: 5 L/min, seat: 8 mm, closes against: 50 kPa}
pipes:
  siphon: {from: upper, to: end, size: 32 mm PE100 SDR 11,
           path: [[0 m, 19 m], [20 m, 22 m], [100 m, 12 m]]}
)";

/// The full line puts 51 m of water on its dip: more than 100 psi pipe may see.
inline constexpr const char* siphon_over_deep_dip = R"(farm: deep dip
ponds:
  upper: {surface: 20 m}
outlets:
  end: {level: 12 m}
pipes:
  siphon: {from: upper, to: end, size: "1 in SIDR 15, 100 psi",
           path: [[0 m, 19 m], [20 m, 22 m], [140 m, -29 m], [300 m, 12 m]]}
)";

/// The water parts at its summit.
inline constexpr const char* siphon_too_high = R"(farm: too high
site: {altitude: 1800 m, water: 21 C}
ponds:
  upper: {surface: 20 m}
outlets:
  end: {level: 8 m}
pipes:
  siphon: {from: upper, to: end, size: 32 mm PE100 SDR 11,
           path: [[0 m, 19 m], [20 m, 26.5 m], [100 m, 8 m]]}
)";

/// A high siphon whose end stands above its water.
[[nodiscard]] inline std::string siphon_uphill() {
  std::string text = high_siphon("", "end: {level: 21 m}");
  text.replace(text.find("[100 m, 12 m]"), 13, "[100 m, 21 m]");
  return text;
}

/// Index of the first step from `from` on that does `Action`; the number of steps where there is
/// none.
template <class Action>
[[nodiscard]] std::size_t step_that(const solver::PrimePlan& plan, std::size_t from = 0) {
  std::size_t i = from;
  while (i < plan.steps.size() && !std::holds_alternative<Action>(plan.steps[i].action)) {
    ++i;
  }
  return i;
}

/// The first step that does `Action`. Throws std::out_of_range where there is none.
template <class Action>
[[nodiscard]] const Action& action_of(const solver::PrimePlan& plan) {
  return std::get<Action>(plan.steps.at(step_that<Action>(plan)).action);
}

/// The first remark of that kind, or nullptr.
template <class Remark>
[[nodiscard]] const Remark* remark_of(const solver::PrimePlan& plan) {
  for (const solver::PrimeRemark& remark : plan.remarks) {
    if (const auto* const found = std::get_if<Remark>(&remark)) {
      return found;
    }
  }
  return nullptr;
}

}  // namespace leat::tests
