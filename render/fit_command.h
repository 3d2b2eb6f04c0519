// Carrying out `leat fit`.
#pragma once

#include "model/farm_file.h"
#include "render/command_line.h"
#include "render/command_result.h"
#include "render/terminal_style.h"

namespace leat::render {

/// Explains the farm's measurements; with `--write` also writes a copy of the file with the
/// likeliest cause in it. `loaded.farm` must be there.
[[nodiscard]] CommandResult fit_command(const CommandLine& line,
                                        const model::LoadedFarm& loaded,
                                        const Terminal& terminal);

}  // namespace leat::render
