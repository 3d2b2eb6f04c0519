// Hours of the day.
#pragma once

#include "model/quantity/quantity.h"

namespace leat::model {

/// Hours of the day, counted from midnight, 0 to 24 h. `to` before `from` runs past midnight.
struct ClockRange {
  Duration from;
  Duration to;
};

}  // namespace leat::model
