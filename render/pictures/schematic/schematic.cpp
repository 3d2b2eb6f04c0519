#include "render/pictures/schematic/schematic.h"

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "render/pictures/schematic/graph_page.h"
#include "render/pictures/schematic/position_layout.h"
#include "render/pictures/schematic/sheet.h"

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

std::vector<GraphPage> pages_by_fall(const model::Farm& farm,
                                     const solver::SteadyAnswer& answer,
                                     const DrawOptions& options) {
  std::vector<SheetForm> forms = forms_for(farm);
  if (options.form && *options.form < forms.size()) {
    forms = {forms[*options.form]};
  }
  std::vector<GraphPage> pages;
  for (SheetForm& form : forms) {
    form.is_short = options.surface == DrawSurface::Screen;
    pages.push_back(schematic_sheet(farm, answer, options.units, form));
  }
  return pages;
}

/// Whether a drawing by position may be believed, in words for its title.
std::string position_words(const model::Farm& farm, const PlacePoints& places) {
  std::string words = "; places by their map, north up, pushed apart where boxes would overlap";
  if (!places.guessed.empty()) {
    std::vector<std::string> names;
    for (const std::size_t place : places.guessed) {
      names.push_back(farm.places[place].name);
    }
    words +=
        fmt::format("; not on the map, drawn between their neighbours: {}", fmt::join(names, ", "));
  }
  return words;
}

/// The forms to try for a drawing by position: widths of text, each at several spreads. A wider
/// spread keeps the boxes where they belong and makes them smaller on the page.
std::vector<GraphPage> pages_by_position(const model::Farm& farm,
                                         const solver::SteadyAnswer& answer,
                                         const DrawOptions& options,
                                         const PlacePoints& places) {
  const bool is_large = farm.places.size() + farm.pipes.size() > 150;
  std::vector<GraphPage> pages;
  for (const std::size_t width : {std::size_t{26}, std::size_t{20}, std::size_t{17}}) {
    const SheetForm form{width, width, PipeColumn::Own, false, position_words(farm, places)};
    const GraphPage page = schematic_sheet(farm, answer, options.units, form);
    for (const double spread : {1.0, 0.8, 0.6, 1.3, 1.7}) {
      pages.push_back(page);
      put_at_positions(pages.back(),
                       farm,
                       places,
                       {a4_on_its_side.width * spread, a4_on_its_side.height * 0.75 * spread});
      if (is_large) {
        return pages;
      }
    }
  }
  return pages;
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
  const bool by_position = options.arrangement == Arrangement::ByPosition;
  const PlacePoints places = by_position ? place_points(farm) : PlacePoints{};
  if (by_position && places.points.empty()) {
    return {"", "no place of the farm says where it lies on the map (key `map`)", 0};
  }
  std::vector<GraphPage> versions = by_position ? pages_by_position(farm, answer, options, places)
                                                : pages_by_fall(farm, answer, options);
  GraphBytes drawn;
  if (options.format == DrawFormat::Dot) {
    versions.front().room = 22;  // whoever lays it out cannot look where the lines run
    drawn = graph_text(versions.front());
  } else {
    const bool is_screen = options.surface == DrawSurface::Screen;
    for (GraphPage& page : versions) {
      if (options.format == DrawFormat::Png) {
        page.graph.push_back({"dpi", "120"});
      }
      if (is_screen) {
        leave_network_alone(page);
      }
    }
    const auto render = by_position ? render_best_in_place : render_best;
    drawn = render(
        versions, is_screen ? part_of_screen : a4_on_its_side, graphviz_format(options.format));
    if (!by_position && options.form && versions.size() == 1) {
      drawn.version = *options.form;
    }
    if (options.format == DrawFormat::Svg) {
      drawn.bytes = with_spare_fonts(drawn.bytes);
    }
  }
  return {std::move(drawn.bytes), std::move(drawn.problem), drawn.version};
}

}  // namespace leat::render
