// The manual page: every command and option, from the program's own definitions.
#pragma once

#include <string>

namespace leat::render {

/// leat(1) in the language of roff with the `man` macros. Its date is that of `drawing_date`.
[[nodiscard]] std::string manual_page();

}  // namespace leat::render
