// `leat report`: the farm's record as one HTML file, and as PDF beside it.
#pragma once

#include "model/keys/farm_file.h"
#include "render/cli/command_line.h"
#include "render/commands/command_result.h"
#include "render/io/terminal_style.h"

namespace leat::render {

/// Writes the report where the command line says. Where a chapter has no answer or the PDF cannot
/// be printed, the HTML is written all the same, and the status is "failed".
[[nodiscard]] CommandResult report_command(const CommandLine& line,
                                           const model::LoadedFarm& loaded,
                                           const Terminal& terminal);

}  // namespace leat::render
