// From which day to which a season runs when the command line does not say.
#pragma once

#include <optional>
#include <string>

#include "model/farm/farm.h"

namespace leat::render {

struct SeasonDates {
  model::Date from;
  model::Date to;
  std::string chosen;  // how a year nobody asked for was found: "the year of ..."; else empty
};

/// Both as asked; the end of the year `from` lies in; the start of the year `to` lies in; without
/// both the latest year in which the farm file dates a float that breaks, else weather, else
/// yields, levels and temperatures of a record, else a measurement; else the year `today` lies in.
[[nodiscard]] SeasonDates season_dates(const model::Farm& farm,
                                       std::optional<model::Date> from,
                                       std::optional<model::Date> to,
                                       model::Date today);

}  // namespace leat::render
