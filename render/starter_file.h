// The farm file a newcomer begins with.
#pragma once

#include <string>

namespace leat::render {

/// A commented farm in the format of model/FORMAT.md. It loads without a problem and solves.
[[nodiscard]] std::string starter_file();

/// The comment that names the schema to editors, as a file's first line; empty where the path holds
/// letters that an editor would not read as part of it.
[[nodiscard]] std::string schema_line(const std::string& schema_path);

}  // namespace leat::render
