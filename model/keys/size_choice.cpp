#include "model/keys/size_choice.h"

#include <fmt/format.h>

namespace leat::model {

namespace {

std::string choice_on(const Pipe& pipe) {
  return fmt::format("size: choose on pipe '{}'", pipe.name);
}

}  // namespace

std::vector<std::string> sizes_to_choose(const Farm& farm) {
  std::vector<std::string> choices;
  for (const Pipe& pipe : farm.pipes) {
    if (pipe.size.choose) {
      choices.push_back(choice_on(pipe));
    }
  }
  return choices;
}

std::vector<Diagnostic> problems_of_sizes_to_choose(const Farm& farm) {
  std::vector<Diagnostic> problems;
  for (const Pipe& pipe : farm.pipes) {
    if (!pipe.size.choose) {
      continue;
    }
    Diagnostic problem;
    problem.code = "not-solved-yet";
    problem.file = farm.file;
    problem.position = *pipe.size.choose;
    problem.text = fmt::format("{}: there is no size to solve with", choice_on(pipe));
    problem.hint = "'leat size' chooses it, and with --write puts it into a new file";
    problems.push_back(std::move(problem));
  }
  return problems;
}

}  // namespace leat::model
