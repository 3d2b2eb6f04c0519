// The report's template (mustache): what it looks like on a screen, a phone and paper.
#pragma once

#include <string_view>

namespace leat::render::report {

/// Whole HTML document; its tags are filled in by page.cpp.
[[nodiscard]] std::string_view page_template();

}  // namespace leat::render::report
