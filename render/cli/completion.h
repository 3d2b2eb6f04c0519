// What the shells need to complete leat's commands, options, values and files.
#pragma once

#include <string>

namespace leat::render {

/// A script for bash (4 or later), to be sourced or laid where bash finds completions.
[[nodiscard]] std::string bash_completion();

/// A file named _leat for a folder in zsh's fpath.
[[nodiscard]] std::string zsh_completion();

}  // namespace leat::render
