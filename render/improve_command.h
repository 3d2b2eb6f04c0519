// `leat improve`: what one change, or two, would help a trough most.
#pragma once

#include "model/farm_file.h"
#include "render/command_line.h"
#include "render/command_result.h"
#include "render/terminal_style.h"

namespace leat::render {

/// Tries every single change of the farm and prints them, best first. The exit status is that of
/// the farm as it is.
[[nodiscard]] CommandResult improve_command(const CommandLine& line,
                                            const model::LoadedFarm& loaded,
                                            const Terminal& terminal);

}  // namespace leat::render
