#include "model/keys/size_choice.h"

#include <fmt/format.h>

namespace leat::model {

namespace {

std::string choice_on(const std::string& pipe) {
  return fmt::format("size: choose on pipe '{}'", pipe);
}

}  // namespace

std::vector<std::string> sizes_to_choose(const Farm& farm) {
  std::vector<std::string> choices;
  for (const Pipe& pipe : farm.pipes) {
    if (pipe.size.choose) {
      choices.push_back(choice_on(pipe.name));
    }
  }
  return choices;
}

Diagnostic problem_of_size_to_choose(const std::string& pipe, SourcePosition position) {
  Diagnostic problem;
  problem.code = "not-solved-yet";
  problem.position = position;
  problem.text = fmt::format("{}: there is no size to solve with", choice_on(pipe));
  problem.hint = "'leat size' chooses it, and with --write puts it into a new file";
  return problem;
}

std::vector<Diagnostic> problems_of_sizes_to_choose(const Farm& farm) {
  std::vector<Diagnostic> problems;
  for (const Pipe& pipe : farm.pipes) {
    if (pipe.size.choose) {
      problems.push_back(problem_of_size_to_choose(pipe.name, *pipe.size.choose));
      problems.back().file = farm.file;
    }
  }
  return problems;
}

}  // namespace leat::model
