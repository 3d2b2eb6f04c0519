// The page itself: its words, looks and script, put into the program when it is built.
#pragma once

#include <string_view>

namespace leat::render {

[[nodiscard]] std::string_view page_html();
[[nodiscard]] std::string_view page_style();
[[nodiscard]] std::string_view page_script();

}  // namespace leat::render
