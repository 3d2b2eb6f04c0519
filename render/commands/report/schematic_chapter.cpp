#include <fmt/format.h>

#include "render/commands/report/chapters.h"
#include "render/pictures/schematic/schematic.h"

namespace leat::render::report {

Chapter schematic_chapter(const Subject& subject) {
  const DrawResult drawn =
      draw_schematic(subject.farm, subject.answer, {DrawFormat::Svg, subject.units});
  const std::string words = fmt::format(
      "Schematic of {}: {} as boxes from left to right as the water falls, joined by {}. Every box "
      "and pipe carries its figures, which the tables of this report repeat.",
      subject.farm.name,
      counted(subject.farm.places.size(), "place"),
      counted(subject.farm.pipes.size(), "pipe"));
  return {"schematic",
          "Schematic",
          {picture_or_reason(drawn.bytes, drawn.problem, "schematic-", "Schematic", words)}};
}

}  // namespace leat::render::report
