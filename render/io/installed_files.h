// What stands beside the installed program: found from the program's own place, so that an
// installation can be moved as a whole.
#pragma once

#include <optional>
#include <string>

namespace leat::render {

/// Paths of what is there; absent where the program was not installed, or without it.
struct InstalledFiles {
  std::optional<std::string> demo_farms;  // a folder
  std::optional<std::string> schema;      // of the farm file, for editors
};

[[nodiscard]] InstalledFiles installed_files();

}  // namespace leat::render
