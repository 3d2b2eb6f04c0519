#include "render/pictures/schematic/legend.h"

#include <fmt/format.h>

#include "render/pictures/schematic/pressure_scale.h"

namespace leat::render {
namespace {

std::string scale_cells(model::UnitSystem units) {
  std::string cells;
  for (const PressureStep& step : pressure_steps(units)) {
    cells +=
        fmt::format("<td border=\"1\" cellpadding=\"3\" color=\"gray35\" bgcolor=\"{}\">{}</td>",
                    step.colour,
                    step.words);
  }
  return cells;
}

/// A piece of line of the given thickness [points].
std::string line_sample(int thickness) {
  return fmt::format(
      "<td><table border=\"0\" cellborder=\"0\" cellspacing=\"0\" cellpadding=\"0\"><tr>"
      "<td fixedsize=\"true\" width=\"26\" height=\"{}\" "
      "bgcolor=\"gray20\"></td></tr></table></td>",
      thickness);
}

std::string words_cell(const std::string& words) {
  return "<td align=\"left\">" + words + "</td>";
}

/// The first cell of a row stands at the very edge of the key, under the title's first letter.
std::string first_cell(const std::string& words) {
  return "<td align=\"left\" cellpadding=\"0\">" + words + "</td>";
}

/// A row of cells that is as wide as its own cells ask for.
std::string row_of(const std::string& cells) {
  return "<tr><td align=\"left\"><table border=\"0\" cellborder=\"0\" cellspacing=\"0\" "
         "cellpadding=\"2\"><tr>" +
         cells + "</tr></table></td></tr>";
}

std::string line_cells(const std::string& widest_flow) {
  std::string cells = first_cell("Line:&#160;");
  cells += line_sample(1) + words_cell("little water&#160;");
  cells += line_sample(5) + words_cell(widest_flow.empty()
                                           ? "much water&#160;"
                                           : "most water (" + widest_flow + ")&#160;&#160;");
  cells += words_cell("&#8212;&#9654; which way it runs&#160;");
  cells += words_cell("&#8211; &#8211; &#8211; no flow&#160;&#160;");
  return cells;
}

std::string outline_cells() {
  return "<td><table border=\"2\" cellborder=\"2\" cellspacing=\"2\" color=\"black\"><tr>"
         "<td cellpadding=\"3\">double outline</td></tr></table></td>" +
         words_cell("needs attention, the words say why");
}

}  // namespace

std::string legend_markup(model::UnitSystem units, const std::string& widest_flow) {
  const std::string note =
      "A place is filled by the pressure there, a pipe's text only where the pipe is under "
      "suction. Round corners: open water.";
  return "<table border=\"0\" cellborder=\"0\" cellspacing=\"0\" cellpadding=\"0\">" +
         row_of(first_cell("Fill:&#160;") + scale_cells(units)) +
         row_of(line_cells(widest_flow) + outline_cells()) + row_of(first_cell(note)) + "</table>";
}

}  // namespace leat::render
