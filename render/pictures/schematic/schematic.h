// The drawing a smallholder files: places from left to right as the water falls, what each gets,
// and where suction or a shortage calls for attention.
#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

enum class DrawFormat { Svg, Pdf, Png, Dot };

/// How the places stand on the page: from left to right as the water falls, or where the map has
/// them, north up.
enum class Arrangement { AsWaterFalls, ByPosition };

/// Paper: a whole page with title, date and key. Screen: the network alone, in its own size and few
/// words, for a page that says the rest.
enum class DrawSurface { Paper, Screen };

struct DrawOptions {
  DrawFormat format = DrawFormat::Svg;
  model::UnitSystem units = model::UnitSystem::Metric;
  Arrangement arrangement = Arrangement::AsWaterFalls;
  DrawSurface surface = DrawSurface::Paper;
  // The form a drawing of the same places and pipes was given before: then the others are not
  // tried, which takes a tenth of the time.
  std::optional<std::size_t> form = std::nullopt;
};

/// The drawing's bytes, or one sentence that says why there is none.
struct DrawResult {
  std::string bytes;
  std::string problem;  // empty when fine
  std::size_t form = 0;
};

/// Draws a solved farm on one A4 page on its side. SVG and DOT are the same bytes for the same
/// farm, answer and day (environment SOURCE_DATE_EPOCH, else today); the positions in SVG, PDF and
/// PNG depend on the fonts of the machine. An answer that did not converge is not drawn,
/// nor by position a farm none of whose places has a `map` key.
/// May be called from several threads; the calls then wait for each other.
[[nodiscard]] DrawResult draw_schematic(const model::Farm& farm,
                                        const solver::SteadyAnswer& answer,
                                        const DrawOptions& options);

}  // namespace leat::render
