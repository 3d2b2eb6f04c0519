// `leat improve`: what one change, or two, would help a trough most.
#pragma once

#include "model/keys/farm_file.h"
#include "render/cli/command_line.h"
#include "render/commands/command_result.h"
#include "render/io/terminal_style.h"

namespace leat::render {

/// Tries every single change of the farm and prints them, best first. The exit status is that of
/// the farm as it is.
[[nodiscard]] CommandResult improve_command(const CommandLine& line,
                                            const model::LoadedFarm& loaded,
                                            const Terminal& terminal);

}  // namespace leat::render
