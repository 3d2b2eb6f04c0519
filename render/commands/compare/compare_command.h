// `leat compare`: farms side by side.
#pragma once

#include "render/cli/command_line.h"
#include "render/commands/command_result.h"
#include "render/io/terminal_style.h"

namespace leat::render {

/// Reads and solves every file of the command line and says how they differ. All files are read,
/// so that the problems of all are told.
[[nodiscard]] CommandResult compare_command(const CommandLine& line, const Terminal& terminal);

}  // namespace leat::render
