#include "render/schematic/schematic.h"

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "render/schematic/graph_page.h"
#include "render/schematic/sheet.h"

namespace leat::render {
namespace {

// A4 on its side with a margin of about 6 mm; sheet.cpp states the same to Graphviz in inches.
constexpr PageSize a4_on_its_side{11.2 * 72.0, 7.8 * 72.0};
// What a screen shows beside the tables, with letters that can be read from two metres.
constexpr PageSize part_of_screen{5.0 * 72.0, 4.4 * 72.0};

/// The forms to try, roomiest first. Beyond some hundred boxes no form is readable on one page, and
/// laying them all out would only take time.
std::vector<SheetForm> forms_for(const model::Farm& farm) {
  const SheetForm roomy{};
  if (farm.places.size() + farm.pipes.size() > 150) {
    return {roomy};
  }
  return {roomy,
          {20, 26, PipeColumn::Own},
          {17, 26, PipeColumn::Own},
          {17, 17, PipeColumn::Own},
          {14, 17, PipeColumn::Own},
          {20, 20, PipeColumn::OfNextPlace},
          {17, 17, PipeColumn::OfNextPlace},
          {14, 17, PipeColumn::OfNextPlace},
          {14, 14, PipeColumn::OfNextPlace}};
}

std::string graphviz_format(DrawFormat format) {
  switch (format) {
    case DrawFormat::Svg:
      return "svg";
    case DrawFormat::Pdf:
      return "pdf";
    case DrawFormat::Png:
      return "png:cairo";
    case DrawFormat::Dot:
      return "dot";
  }
  return "svg";
}

/// Names fonts of about the same width for viewers without ours. Graphviz would take such a list
/// too, but then measures the text too narrow. User text holds no plain quotation marks in SVG.
std::string with_spare_fonts(std::string svg) {
  const std::string one = "font-family=\"DejaVu Sans\"";
  const std::string several = "font-family=\"DejaVu Sans, Verdana, sans-serif\"";
  for (std::size_t at = svg.find(one); at != std::string::npos;
       at = svg.find(one, at + several.size())) {
    svg.replace(at, one.size(), several);
  }
  return svg;
}

/// Takes title, words and key off, and the page's size.
void leave_network_alone(GraphPage& page) {
  page.frames.clear();
  std::erase_if(page.graph, [](const Attribute& attribute) { return attribute.name == "size"; });
}

std::string why_not_drawn(const model::Farm& farm, const solver::SteadyAnswer& answer) {
  if (!answer.converged) {
    const bool has_reason = !answer.problems.empty();
    return "there is no answer to draw: " +
           (has_reason ? answer.problems.front().text : answer.report.sentence);
  }
  if (answer.places.size() != farm.places.size() || answer.pipes.size() != farm.pipes.size()) {
    return "the answer does not belong to this farm: its places or pipes are not as many";
  }
  return "";
}

}  // namespace

DrawResult draw_schematic(const model::Farm& farm,
                          const solver::SteadyAnswer& answer,
                          const DrawOptions& options) {
  const std::string reason = why_not_drawn(farm, answer);
  if (!reason.empty()) {
    return {"", reason, 0};
  }
  GraphBytes drawn;
  if (options.format == DrawFormat::Dot) {
    GraphPage page = schematic_sheet(farm, answer, options.units, SheetForm{});
    page.room = 22;  // whoever lays it out cannot look where the lines run
    drawn = graph_text(page);
  } else {
    std::vector<SheetForm> forms = forms_for(farm);
    const bool is_known = options.form && *options.form < forms.size();
    if (is_known) {
      forms = {forms[*options.form]};
    }
    std::vector<GraphPage> versions;
    for (SheetForm& form : forms) {
      form.is_short = options.surface == DrawSurface::Screen;
      versions.push_back(schematic_sheet(farm, answer, options.units, form));
      if (options.format == DrawFormat::Png) {
        versions.back().graph.push_back({"dpi", "120"});
      }
      if (options.surface == DrawSurface::Screen) {
        leave_network_alone(versions.back());
      }
    }
    const PageSize& size = options.surface == DrawSurface::Screen ? part_of_screen : a4_on_its_side;
    drawn = render_best(versions, size, graphviz_format(options.format));
    if (is_known) {
      drawn.version = *options.form;
    }
    if (options.format == DrawFormat::Svg) {
      drawn.bytes = with_spare_fonts(drawn.bytes);
    }
  }
  return {std::move(drawn.bytes), std::move(drawn.problem), drawn.version};
}

}  // namespace leat::render
