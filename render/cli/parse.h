// Reading the command line: the command that was asked for, or what is wrong with it.
#pragma once

#include <memory>
#include <span>
#include <string>
#include <variant>

#include "render/commands/command.h"
#include "render/commands/option.h"

namespace leat::render {

/// Help or the version was asked for: print `text` and end well.
struct Explanation {
  std::string text;
};

/// A command whose options have their values, all of them well-formed and fit to stand together.
using ParsedCommandLine = std::variant<std::unique_ptr<Command>, Explanation, UsageProblem>;

/// Reads the arguments (without the program's own name). Values are read in the order in which help
/// tells the options; the first problem is told.
[[nodiscard]] ParsedCommandLine parse_command_line(std::span<const std::string> arguments);

/// Whether `--json` stands anywhere among the arguments, so that even a usage error answers in it.
[[nodiscard]] bool asks_for_json(std::span<const std::string> arguments);

}  // namespace leat::render
