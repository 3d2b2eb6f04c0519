// Every command of this version: reading the command line, help, manual and completion are made of
// this list.
#pragma once

#include <memory>
#include <vector>

#include "render/commands/command.h"

namespace leat::render {

/// One object of every command, nothing asked of it yet, in the order help lists them.
[[nodiscard]] std::vector<std::unique_ptr<Command>> all_commands();

}  // namespace leat::render
