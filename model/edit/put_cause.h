// What is wrong with a farm put into a copy of its file: the text is spliced, so that remarks stay.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <variant>

#include "model/farm/farm.h"
#include "model/keys/farm_file.h"

namespace leat::model {

/// A loss coefficient more in a pipe: at its start, or spread along it.
struct ExtraLoss {
  std::size_t pipe = 0;
  double k = 0.0;
  Placement::Where where = Placement::Where::Spread;
};
/// How far the valve a pipe has stands open, 0 to 1.
struct ValveStands {
  std::size_t pipe = 0;
  double open = 1.0;
};
/// A place at another level, with the intake it has.
struct PlaceRaised {
  std::size_t place = 0;
  Length by;
};
/// The level at which a pipe ends (`ends`).
struct PipeEndRaised {
  std::size_t pipe = 0;
  Length by;
};
/// The site's water, colder by so many degrees.
struct WaterCooled {
  double by_C = 0.0;
};
/// A spring that yields less in every month: the share that is missing, 0 to 1.
struct YieldLessened {
  std::size_t place = 0;
  double missing = 0.0;
};
using CauseInFile =
    std::variant<ExtraLoss, ValveStands, PlaceRaised, PipeEndRaised, WaterCooled, YieldLessened>;

/// The source of a sound farm with the cause put in, every other byte as it was; none where the
/// file has no place for it.
[[nodiscard]] std::optional<std::string> text_with_cause(const LoadedFarm& loaded,
                                                         const CauseInFile& cause);

}  // namespace leat::model
