// Carrying out a well-formed command.
#pragma once

#include "render/cli/command_line.h"
#include "render/commands/command_result.h"
#include "render/io/terminal_style.h"

namespace leat::render {

/// Does what the command line asks for. Writes a file only where the command says so (`new FILE`,
/// `draw -o FILE`); prints nothing.
[[nodiscard]] CommandResult run_command(const CommandLine& line, const Terminal& terminal);

}  // namespace leat::render
