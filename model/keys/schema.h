// The schema of the farm file for editors, made of the rows of its keys.
#pragma once

#include <string>
#include <vector>

#include "model/text/json_tree.h"

namespace leat::model {

/// JSON Schema, draft 7: every key with its sentence, its examples and what may stand there. What a
/// schema cannot say (which names there are, whether levels fit), the reader tells.
[[nodiscard]] std::string farm_schema();

/// One value of each kind by the name of its definition ("level", "flow", "share"), in order.
struct SchemaDefinition {
  std::string_view name;
  JsonTree value;
};
[[nodiscard]] std::vector<SchemaDefinition> value_definitions();

/// {"$ref": "#/definitions/level"}.
[[nodiscard]] JsonTree schema_reference(std::string_view definition);
/// One of several; where there is one alone, that.
[[nodiscard]] JsonTree schema_any_of(std::vector<JsonTree> alternatives);
/// A text of that pattern, with what an editor says where it is none.
[[nodiscard]] JsonTree schema_text(std::string_view pattern, std::string_view fault = {});
/// A bare number, which YAML may hold as a number or as a text such as 3/8.
[[nodiscard]] std::vector<JsonTree> schema_numbers(JsonTree bounds, bool may_be_negative);

}  // namespace leat::model
