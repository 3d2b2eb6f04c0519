// A priming plan in the words of its sheet, for tests.
#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "render/words/prime_remarks.h"
#include "render/words/prime_steps.h"
#include "render/words/prime_verdict.h"
#include "tests/support/primed_farm.h"

namespace leat::tests {

/// What is told of a plan, in units of its farm or those asked for.
struct ToldPlan {
  std::string verdict;
  std::vector<std::string> steps;  // without the amounts behind them
  std::vector<std::string> remarks;

  /// Index of the first step whose text has that piece; the number of steps where there is none.
  [[nodiscard]] std::size_t step_with(const std::string& piece) const {
    std::size_t i = 0;
    while (i < steps.size() && steps[i].find(piece) == std::string::npos) {
      ++i;
    }
    return i;
  }
  [[nodiscard]] bool has_step(const std::string& piece) const {
    return step_with(piece) < steps.size();
  }
  [[nodiscard]] std::string all() const {
    std::string text = verdict;
    for (const std::string& step : steps) {
      text += "\n" + step;
    }
    for (const std::string& remark : remarks) {
      text += "\n- " + remark;
    }
    return text;
  }
};

[[nodiscard]] inline ToldPlan told_plan(const solver::PrimePlan& plan, model::UnitSystem units) {
  ToldPlan told;
  told.verdict = render::prime_verdict(plan, units);
  for (const solver::PrimeStep& step : plan.steps) {
    told.steps.push_back(render::step_sentence(plan, step, units));
  }
  told.remarks = render::remark_sentences(plan, units);
  return told;
}

[[nodiscard]] inline ToldPlan told_of(const std::string& text,
                                      const solver::PrimeOptions& options = {},
                                      std::optional<model::UnitSystem> units = {}) {
  const Planned made = planned(text, options);
  return told_plan(made.plan, units.value_or(made.farm.show));
}

[[nodiscard]] inline bool has_text(const std::string& text, const std::string& piece) {
  return text.find(piece) != std::string::npos;
}

}  // namespace leat::tests
