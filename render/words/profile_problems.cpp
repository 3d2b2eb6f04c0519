#include "render/words/profile_problems.h"

#include <string>
#include <utility>
#include <variant>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace leat::render {

namespace {

model::Diagnostic problem_of(std::string code, std::string text, std::string hint = {}) {
  model::Diagnostic problem;
  problem.code = std::move(code);
  problem.text = std::move(text);
  problem.hint = std::move(hint);
  return problem;
}

std::string near_hint(const std::optional<std::string>& near) {
  return near ? fmt::format("did you mean '{}'?", *near) : "";
}

model::Diagnostic problem_of(const solver::UnknownPipe& problem) {
  return problem_of("unknown-pipe",
                    fmt::format("no pipe is named '{}'", problem.name),
                    problem.is_place ? "for a run between two places write \"FROM..TO\""
                                     : near_hint(problem.near));
}

model::Diagnostic problem_of(const solver::UnknownPlace& problem) {
  return problem_of("unknown-place",
                    fmt::format("no place is named '{}'", problem.name),
                    near_hint(problem.near));
}

model::Diagnostic problem_of(const solver::RunToItself& problem) {
  return problem_of("no-route",
                    fmt::format("a run leads from one place to another, not '{}'", problem.words));
}

model::Diagnostic problem_of(const solver::NotJoined& problem) {
  return problem_of("no-route",
                    fmt::format("no pipes join '{}' and '{}'", problem.from, problem.to));
}

model::Diagnostic problem_of(const solver::SeveralRoutes& problem) {
  std::vector<std::string> routes;
  for (const std::vector<std::string>& pipes : problem.routes) {
    routes.push_back(fmt::format("{}", fmt::join(pipes, " + ")));
  }
  const std::size_t pipes = problem.routes.front().size();
  return problem_of("several-routes",
                    fmt::format("several routes of {} pipe{} lead along '{}': {}{}",
                                pipes,
                                pipes == 1 ? "" : "s",
                                problem.words,
                                fmt::join(routes, ", "),
                                problem.has_more ? " and more" : ""),
                    "name one of these pipes, or two places with one way between");
}

}  // namespace

std::vector<model::Diagnostic> profile_problems(const model::Farm& farm,
                                                const solver::Profile& profile) {
  if (!profile.problem) {
    return profile.problems;
  }
  model::Diagnostic problem =
      std::visit([](const auto& each) { return problem_of(each); }, *profile.problem);
  problem.file = farm.file;
  return {std::move(problem)};
}

}  // namespace leat::render
