#include "render/schematic/legend.h"

#include <fmt/format.h>

#include "render/schematic/pressure_scale.h"

namespace leat::render {
namespace {

std::string scale_cells(model::UnitSystem units) {
  std::string cells;
  for (const PressureStep& step : pressure_steps(units)) {
    cells += fmt::format(
        "<td border=\"1\" color=\"gray35\" bgcolor=\"{}\">{}</td>", step.colour, step.words);
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

}  // namespace

std::string legend_markup(model::UnitSystem units, const std::string& widest_flow) {
  const std::string table =
      "<table border=\"0\" cellborder=\"0\" cellspacing=\"0\" cellpadding=\"3\">";
  const std::string scale =
      table + "<tr>" + words_cell("Fill:") + scale_cells(units) + "</tr></table>";
  std::string lines = table + "<tr>" + words_cell("Line:");
  lines += line_sample(1) + words_cell("little water");
  lines += line_sample(5) +
           words_cell(widest_flow.empty() ? "much water" : "most water (" + widest_flow + ")");
  lines += words_cell("&#160;&#8212;&#9654; which way it runs");
  lines += words_cell("&#160;&#8211; &#8211; &#8211; no flow&#160;");
  lines +=
      "<td><table border=\"2\" cellborder=\"2\" cellspacing=\"2\" color=\"black\"><tr>"
      "<td cellpadding=\"2\">double outline</td></tr></table></td>" +
      words_cell("needs attention, the words say why");
  lines += "</tr></table>";
  const std::string note =
      "A place is filled by the pressure there, a pipe's text only where the pipe is under "
      "suction. Round corners: open water.";
  return table + "<tr><td align=\"left\">" + scale + "</td></tr><tr><td align=\"left\">" + lines +
         "</td></tr><tr>" + words_cell(note) + "</tr></table>";
}

}  // namespace leat::render
