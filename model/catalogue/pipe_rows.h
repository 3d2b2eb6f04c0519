// The rows of the pipe catalogue, made from the tables of the standards.
#pragma once

#include <vector>

#include "model/catalogue/pipe_catalogue.h"

namespace leat::model {

/// Every size sold that the catalogue knows, system by system.
[[nodiscard]] std::vector<CataloguePipe> make_pipe_rows();

}  // namespace leat::model
