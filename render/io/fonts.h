// Whether words can be drawn on this machine.
#pragma once

namespace leat::render {

/// Whether there is any font. Without one PNG and PDF would show a box for every letter; SVG only
/// names its font. Always true where leat was built without fontconfig.
[[nodiscard]] bool has_fonts();

}  // namespace leat::render
