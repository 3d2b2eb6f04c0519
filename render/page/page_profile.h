// The profile of one pipe for the page: picture, points and what is said of it.
#pragma once

#include <string>

#include "render/document/json_text.h"
#include "render/page/live_farm.h"
#include "render/page/page_view.h"

namespace leat::render {

/// {words, svg, problem, columns, rows, sentences}; svg null and `problem` a sentence where the
/// picture cannot be drawn. The points come all the same.
[[nodiscard]] Json page_profile(const FarmMoment& moment,
                                const PageView& view,
                                const std::string& pipe);

}  // namespace leat::render
