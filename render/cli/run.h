// Room: what is typed and told of commands is made of their registry.
//
// The program: arguments in, text on two streams and an exit status out.
#pragma once

#include <iosfwd>
#include <span>
#include <string>

#include "render/io/terminal_style.h"

namespace leat::render {

/// Runs one command. Results go to `out`, everything else to `err`.
/// Returns the exit status (exit_code.h). Throws nothing.
[[nodiscard]] int run(std::span<const std::string> arguments,
                      std::ostream& out,
                      std::ostream& err,
                      const Terminal& terminal);

}  // namespace leat::render
