// The drawing as a graph: boxes for places, text on pipes, lines, title and key.
#pragma once

#include <cstddef>
#include <string>

#include "model/farm/farm.h"
#include "render/pictures/schematic/box_text.h"
#include "render/pictures/schematic/graph_page.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

/// Where a pipe's text stands: in a column between its two places, or in the column of the place
/// below it, which makes a long farm half as wide and twice as high.
enum class PipeColumn { Own, OfNextPlace };

/// One way to lay the same content out.
struct SheetForm {
  std::size_t pipe_width = 26;   // of a pipe's text, characters
  std::size_t place_width = 26;  // of a place's text
  PipeColumn pipes = PipeColumn::Own;
  bool is_short = false;    // the boxes say what runs and what is amiss, no more
  std::string remark = "";  // ends the words under the title
};

/// The drawing in the given form. `answer` has converged and belongs to `farm`.
[[nodiscard]] GraphPage schematic_sheet(const model::Farm& farm,
                                        const solver::SteadyAnswer& answer,
                                        model::UnitSystem units,
                                        const SheetForm& form);

}  // namespace leat::render
