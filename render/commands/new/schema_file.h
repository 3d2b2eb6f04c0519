// The JSON Schema of the farm file: what editors complete and check it with.
#pragma once

#include <optional>
#include <string>

namespace leat::render {

/// The name it has everywhere.
inline constexpr const char* schema_name = "farm.schema.json";

/// The schema itself, made of the keys that this leat reads.
[[nodiscard]] std::string schema_text();

/// Where the schema stands on this machine, seen from the program: share/leat beside the folder of
/// an installed leat, model/ above a build folder. Nothing where it stands in neither.
[[nodiscard]] std::optional<std::string> schema_on_this_machine();

/// The line at the top of a farm file by which editors find the schema: `where` is a path, from the
/// farm file's folder or from the root.
[[nodiscard]] std::string schema_line(const std::string& where);

}  // namespace leat::render
