// What the readers of a farm file share while it is loaded.
#pragma once

#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "model/text/problem_list.h"

namespace leat::model {

/// Everything a reader needs besides the values: where problems go, and what was assumed.
struct LoadContext {
  ProblemList& problems;
  std::vector<std::string>& notes;
};

}  // namespace leat::model
