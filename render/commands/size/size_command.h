// `leat size`: what pipe to lay, and the farm file with it.
#pragma once

#include "model/keys/farm_file.h"
#include "render/cli/command_line.h"
#include "render/commands/command_result.h"
#include "render/io/terminal_style.h"

namespace leat::render {

/// Sizes the farm; with an output named, writes the file with the sizes in it, never over the file
/// it was read from, and only where it reads back as the same farm and solves.
[[nodiscard]] CommandResult size_command(const CommandLine& line,
                                         const model::LoadedFarm& loaded,
                                         const Terminal& terminal);

}  // namespace leat::render
