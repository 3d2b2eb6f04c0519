#include "render/words/season_problems.h"

#include <utility>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "model/text/nearest_word.h"

namespace leat::render {

namespace {

model::Diagnostic told(const char* code, std::string text, std::string hint) {
  model::Diagnostic problem;
  problem.code = code;
  problem.text = std::move(text);
  problem.hint = std::move(hint);
  return problem;
}

model::Diagnostic diagnostic_of(const solver::StepOutOfRange&) {
  return told("bad-value",
              "the step of a season is at least a minute and at most 7 days",
              "write --step 1h, or 15 min, or 1 day");
}

model::Diagnostic diagnostic_of(const solver::EndsBeforeItBegins& problem) {
  return told("bad-value",
              fmt::format("the season ends on {}, before it begins on {}",
                          model::date_text(problem.to),
                          model::date_text(problem.from)),
              "exchange the two dates");
}

model::Diagnostic diagnostic_of(const solver::SeasonTooLong&) {
  return told("bad-value", "a season is at most 50 years", "choose nearer dates");
}

model::Diagnostic diagnostic_of(const solver::UnknownSpring& problem) {
  std::string hint;
  if (problem.springs.empty()) {
    hint = "the farm has no spring";
  } else if (const auto nearest = model::nearest_word(problem.name, problem.springs)) {
    hint = fmt::format("did you mean '{}'?", *nearest);
  } else {
    hint = fmt::format("its springs: {}", fmt::join(problem.springs, ", "));
  }
  return told(
      "unknown-place", fmt::format("the farm has no spring '{}'", problem.name), std::move(hint));
}

model::Diagnostic diagnostic_of(const model::Diagnostic& problem) {
  return problem;
}

model::Diagnostic diagnostic_of(const solver::SeasonStopped& problem) {
  return told("stopped",
              problem.in_draws ? "the draws were stopped before their end"
                               : "the season was stopped before its end",
              "");
}

model::Diagnostic diagnostic_of(const solver::NoBalance& problem) {
  return told("not-solved",
              fmt::format("no balance of heads and flows was found on {} at {:.1f} h: {}",
                          model::date_text(problem.on),
                          problem.from_s / 3600.0,
                          problem.report),
              "look for a length, bore or level that is far from the others");
}

}  // namespace

model::Diagnostic season_diagnostic(const solver::SeasonProblem& problem) {
  return std::visit([](const auto& each) { return diagnostic_of(each); }, problem);
}

std::vector<model::Diagnostic> season_diagnostics(
    const std::vector<solver::SeasonProblem>& problems, const std::string& file) {
  std::vector<model::Diagnostic> found;
  for (const solver::SeasonProblem& problem : problems) {
    found.push_back(season_diagnostic(problem));
    found.back().file = file;
  }
  if (found.empty()) {
    found.push_back(told("not-solved", "no balance was found for this season", ""));
  }
  return found;
}

}  // namespace leat::render
