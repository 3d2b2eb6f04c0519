#include "render/words/finding_figures.h"

namespace leat::render {

std::string_view unit_word(solver::Measure measure) {
  switch (measure) {
    case solver::Measure::Ratio:
      return "";
    case solver::Measure::Length:
      return "m";
    case solver::Measure::Pressure:
      return "kPa";
    case solver::Measure::Flow:
      return "L/s";
    case solver::Measure::Velocity:
      return "m/s";
    case solver::Measure::Volume:
      return "m3";
  }
  return "";
}

std::optional<double> printed_figure(const std::optional<double>& figure, solver::Measure measure) {
  if (!figure) {
    return std::nullopt;
  }
  switch (measure) {
    case solver::Measure::Pressure:
      return *figure / 1e3;  // not times 1e-3: 96400 Pa must read 96.4
    case solver::Measure::Flow:
      return *figure * 1e3;
    case solver::Measure::Ratio:
    case solver::Measure::Length:
    case solver::Measure::Velocity:
    case solver::Measure::Volume:
      break;
  }
  return figure;
}

}  // namespace leat::render
