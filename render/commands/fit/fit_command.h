// Carrying out `leat fit`.
#pragma once

#include "model/keys/farm_file.h"
#include "render/cli/command_line.h"
#include "render/commands/command_result.h"
#include "render/io/terminal_style.h"

namespace leat::render {

/// Explains the farm's measurements; with `--write` also writes a copy of the file with the
/// likeliest cause in it. `loaded.farm` must be there.
[[nodiscard]] CommandResult fit_command(const CommandLine& line,
                                        const model::LoadedFarm& loaded,
                                        const Terminal& terminal);

}  // namespace leat::render
