// What can be told of files without reading them.
#pragma once

#include <string>
#include <vector>

namespace leat::render {

/// Number, size and time of each file, so that a change of one shows; one that is missing shows
/// too.
[[nodiscard]] std::string look_of(const std::vector<std::string>& files);

/// The file of that name in the folder of another.
[[nodiscard]] std::string beside(const std::string& file, const std::string& name);

/// The name of a file without folder and ending.
[[nodiscard]] std::string stem_of(const std::string& file);

/// Whether the name is taken: by a file, a folder, or a link that leads to nothing.
[[nodiscard]] bool is_taken(const std::string& path);

}  // namespace leat::render
