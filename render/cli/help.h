// What --help and --version print.
#pragma once

#include <string>

#include "render/commands/command.h"

namespace leat::render {

/// Help on the whole program.
[[nodiscard]] std::string overview();

/// Help on one command: what it does, takes and prints.
[[nodiscard]] std::string help_of(Command& command);

/// The version, the format of the JSON, and where what was installed beside the program stands.
[[nodiscard]] std::string version_text();

}  // namespace leat::render
