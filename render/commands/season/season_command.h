// `leat season`: the farm run through its dates, printed, drawn.
#pragma once

#include "model/keys/farm_file.h"
#include "render/cli/command_line.h"
#include "render/commands/command_result.h"
#include "render/io/terminal_style.h"
#include "solver/answer/season_answer.h"

namespace leat::render {

/// Runs the season the command line asks for and says what came of it. Tells how far it is on
/// `terminal.progress` where there is one.
[[nodiscard]] CommandResult season_command(const CommandLine& line,
                                           const model::LoadedFarm& loaded,
                                           const Terminal& terminal);

/// What `season_command` prints of an answer; `dates_chosen` says why these dates were taken.
[[nodiscard]] CommandResult season_result(const CommandLine& line,
                                          const model::LoadedFarm& loaded,
                                          const solver::SeasonAnswer& answer,
                                          const std::string& dates_chosen,
                                          const Terminal& terminal);

}  // namespace leat::render
