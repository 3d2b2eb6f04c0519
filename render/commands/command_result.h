// What a command has to say and how it ended; nothing is printed before it is complete.
#pragma once

#include <string>

#include "render/commands/exit_code.h"

namespace leat::render {

struct CommandResult {
  std::string out;  // results
  std::string err;  // everything else
  ExitCode code = ExitCode::NothingAmiss;
};

}  // namespace leat::render
