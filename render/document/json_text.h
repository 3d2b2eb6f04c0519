// Ordered JSON values as text, numbers in the shortest form that reads back the same.
#pragma once

#include <optional>
#include <string>

#include <nlohmann/json.hpp>

namespace leat::render {

using Json = nlohmann::ordered_json;

/// A number, or null where it is not finite. Never a negative zero.
[[nodiscard]] Json json_number(double value);
/// A number, or null where it is absent or not finite.
[[nodiscard]] Json json_number(const std::optional<double>& value);

/// The whole object as text: one line a key, and one line an object of a list, so that two runs
/// compare line by line. Ends in a newline. Text that is not UTF-8 is made so.
[[nodiscard]] std::string json_text(const Json& object);

}  // namespace leat::render
