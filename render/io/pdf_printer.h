// Printing a page to PDF with the machine's own Chromium. The only file that starts it.
#pragma once

#include <string>

#include "model/farm/farm.h"

namespace leat::render::report {

/// The PDF's bytes, or why there are none.
struct PdfResult {
  std::string bytes;
  std::string problem;  // one sentence without a full stop; empty when all is well
  std::string hint;     // how to print the page otherwise
};

/// Prints an HTML page on A4, or on Letter where units are US. Chromium gets a home of its own,
/// which is removed, no network, and at most a minute.
[[nodiscard]] PdfResult print_to_pdf(const std::string& html, model::UnitSystem units);

}  // namespace leat::render::report
