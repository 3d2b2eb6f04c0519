// Why a line asked for has no priming plan, as values.
#pragma once

#include <optional>
#include <string>
#include <variant>

namespace leat::solver::priming {

struct UnknownPipe {
  std::string name;
  std::optional<std::string> near;  // the pipe that may be meant
};

struct StartsWithoutWater {
  std::string pipe;   // the last of the line
  std::string place;  // where the file has it begin
};

struct RunsBackwards {
  std::string pipe;
};

}  // namespace leat::solver::priming

namespace leat::solver {

using PrimeProblem =
    std::variant<priming::UnknownPipe, priming::StartsWithoutWater, priming::RunsBackwards>;

}  // namespace leat::solver
