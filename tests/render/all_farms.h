// The farms that come with leat: the tour and those of the tests.
#pragma once

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

namespace leat::render {

/// The farm files of a folder of the repository, by name.
[[nodiscard]] inline std::vector<std::string> farms_in(const std::string& folder) {
  std::vector<std::string> farms;
  for (const auto& entry :
       std::filesystem::directory_iterator(std::string(LEAT_SOURCE_DIR) + "/" + folder)) {
    if (entry.path().extension() == ".yaml") {
      farms.push_back(entry.path().string());
    }
  }
  std::sort(farms.begin(), farms.end());
  return farms;
}

}  // namespace leat::render
