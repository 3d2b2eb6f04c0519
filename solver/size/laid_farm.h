// A farm whose runs are laid: each in one size, or in parts of several with a tee between them.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/farm/farm.h"

namespace leat::solver {

/// A length of one size, in the order of the run from its `from` end.
struct LaidPart {
  model::PipeSize size;
  double length_m = 0.0;
};

/// One pipe of the farm and what it is laid in; the lengths add up to the pipe's own.
struct LaidRun {
  std::size_t pipe = 0;
  std::vector<LaidPart> parts;
};

/// A laid farm, and where its pipes and joints come from.
struct LaidFarm {
  model::Farm farm;
  std::vector<std::size_t> origin;        // by pipe: which pipe of the first farm it was
  std::vector<std::size_t> joint_origin;  // by place beyond the first farm's: the pipe it joints
};

/// The farm with every run laid, none of its sizes left to choose. A run of one part keeps its name
/// and place in the farm's order. A run of several becomes pipes in line, named "NAME a", "NAME b"
/// ..., with tees "NAME joint", "NAME joint 2" ... on its path between them; what is placed goes
/// with the part it lies in, fittings spread over the run and a valve without a place go with the
/// longest part. A joint within half a metre of a vertex of the path is moved half a metre beyond
/// it, in favour of the first part. `month` is for levels that vary.
[[nodiscard]] LaidFarm laid_farm(const model::Farm& farm,
                                 const std::vector<LaidRun>& runs,
                                 std::optional<model::Month> month);

}  // namespace leat::solver
