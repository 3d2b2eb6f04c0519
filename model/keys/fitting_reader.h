// The fittings of a pipe, resolved by the catalogue.
#pragma once

#include <vector>

#include "model/farm/farm.h"
#include "model/keys/placement_reader.h"

namespace leat::model {

/// The list of fittings, each resolved by the catalogue.
[[nodiscard]] std::vector<Fitting> read_fittings(const YamlNode& node,
                                                 const PipeReach& reach,
                                                 ProblemList& problems);

}  // namespace leat::model
