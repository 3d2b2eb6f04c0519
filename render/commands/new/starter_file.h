// The farm file a newcomer begins with.
#pragma once

#include <string>

namespace leat::render {

/// A commented farm in the format of model/FORMAT.md. It loads without a problem and solves.
[[nodiscard]] std::string starter_file();

}  // namespace leat::render
