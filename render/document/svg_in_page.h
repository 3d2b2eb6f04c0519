// A picture file made part of an HTML page.
#pragma once

#include <string>
#include <string_view>

namespace leat::render::report {

/// The SVG element of a picture as Graphviz or gnuplot writes it, fit to stand among others in one
/// page: without what stands before the element, comments and titles (a page would show them as
/// tips), with `prefix` before every id and every reference to one, without a size of its own, and
/// with `words` for who does not see it. Empty where there is no SVG element.
[[nodiscard]] std::string svg_in_page(std::string_view file,
                                      std::string_view prefix,
                                      std::string_view words);

}  // namespace leat::render::report
