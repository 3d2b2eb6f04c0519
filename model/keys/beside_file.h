// Files a farm file names: CSV files that stand beside it, the file it is based on.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "model/keys/map_reader.h"

namespace leat::model {

/// A file beside the farm file: its name from where the program runs, and its text.
struct BesideFile {
  std::string name;
  std::string text;
};

/// Whether a value is the name of a CSV file.
[[nodiscard]] bool names_csv(const YamlNode& node);

/// A name written in a file, as it is found from where the program runs: from that file's folder.
[[nodiscard]] std::string name_beside(std::string_view name, const std::string& file);

/// Whether two names lead to one file, whatever links and dots are on the way.
[[nodiscard]] bool is_same_file(const std::string& one, const std::string& other);

/// Reads the file a value names, from the folder of the file it stands in (code unreadable).
[[nodiscard]] std::optional<BesideFile> read_beside(const YamlNode& node,
                                                    std::string_view what,
                                                    LoadContext& context);

}  // namespace leat::model
