// A command line as the command that it asks for, or as the problem it has.
#pragma once

#include <memory>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <catch2/catch.hpp>

#include "render/cli/parse.h"

namespace leat::render {

/// The command, of the kind that is expected.
template <class Asked>
[[nodiscard]] std::unique_ptr<Asked> asked(const std::vector<std::string>& arguments) {
  ParsedCommandLine parsed = parse_command_line(arguments);
  REQUIRE(std::holds_alternative<std::unique_ptr<Command>>(parsed));
  std::unique_ptr<Command> command = std::get<std::unique_ptr<Command>>(std::move(parsed));
  auto* const kind = dynamic_cast<Asked*>(command.get());
  REQUIRE(kind != nullptr);
  static_cast<void>(command.release());
  return std::unique_ptr<Asked>(kind);
}

[[nodiscard]] inline UsageProblem usage_problem(const std::vector<std::string>& arguments) {
  const ParsedCommandLine parsed = parse_command_line(arguments);
  REQUIRE(std::holds_alternative<UsageProblem>(parsed));
  return std::get<UsageProblem>(parsed);
}

}  // namespace leat::render
