// `leat try`: a page on this machine where valves can be turned, until it is stopped.
#pragma once

#include "model/keys/farm_file.h"
#include "render/cli/command_line.h"
#include "render/commands/command_result.h"
#include "render/io/terminal_style.h"

namespace leat::render {

/// Serves the page until the process is told to end (SIGINT, SIGTERM). The address goes to
/// `terminal.announce` as soon as it is known, as text or as JSON; without one there is nobody to
/// tell and nothing is served.
[[nodiscard]] CommandResult try_command(const CommandLine& line,
                                        const model::LoadedFarm& loaded,
                                        const Terminal& terminal);

}  // namespace leat::render
