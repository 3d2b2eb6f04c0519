// Files a farm file names: CSV files that stand beside it.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "model/map_reader.h"

namespace leat::model {

/// A file beside the farm file: its name from where the program runs, and its text.
struct BesideFile {
  std::string name;
  std::string text;
};

/// Whether a value is the name of a CSV file.
[[nodiscard]] bool names_csv(const YamlNode& node);

/// Reads the file a value names, from the folder of the farm file (code unreadable).
[[nodiscard]] std::optional<BesideFile> read_beside(const YamlNode& node,
                                                    std::string_view what,
                                                    Reading& reading);

}  // namespace leat::model
