#include "render/document/json_text.h"

#include <array>
#include <charconv>
#include <cmath>

namespace leat::render {

namespace {

void append_string(std::string& text, const Json& value) {
  text += value.dump(-1, ' ', false, Json::error_handler_t::replace);
}

void append_number(std::string& text, double value) {
  if (!std::isfinite(value)) {
    text += "null";
    return;
  }
  // to_chars, as nlohmann's own printing is not always the shortest.
  std::array<char, 32> buffer{};
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
  text.append(buffer.data(), end.ptr);
}

void append_on_one_line(std::string& text, const Json& value) {
  if (value.is_object()) {
    text += '{';
    const char* separator = "";
    for (const auto& item : value.items()) {
      text += separator;
      append_string(text, Json(item.key()));
      text += ": ";
      append_on_one_line(text, item.value());
      separator = ", ";
    }
    text += '}';
  } else if (value.is_array()) {
    text += '[';
    const char* separator = "";
    for (const Json& item : value) {
      text += separator;
      append_on_one_line(text, item);
      separator = ", ";
    }
    text += ']';
  } else if (value.is_number_float()) {
    append_number(text, value.get<double>());
  } else {
    append_string(text, value);
  }
}

bool is_list_of_objects(const Json& value) {
  return value.is_array() && !value.empty() && value.front().is_object();
}

void append_rows(std::string& text, const Json& rows) {
  text += "[\n";
  const char* separator = "";
  for (const Json& row : rows) {
    text += separator;
    text += "    ";
    append_on_one_line(text, row);
    separator = ",\n";
  }
  text += "\n  ]";
}

}  // namespace

Json json_number(double value) {
  if (!std::isfinite(value)) {
    return nullptr;
  }
  return value == 0.0 ? 0.0 : value;
}

Json json_number(const std::optional<double>& value) {
  return value ? json_number(*value) : Json(nullptr);
}

std::string json_text(const Json& object) {
  std::string text = "{\n";
  const char* separator = "";
  for (const auto& item : object.items()) {
    text += separator;
    text += "  ";
    append_string(text, Json(item.key()));
    text += ": ";
    if (is_list_of_objects(item.value())) {
      append_rows(text, item.value());
    } else {
      append_on_one_line(text, item.value());
    }
    separator = ",\n";
  }
  text += "\n}\n";
  return text;
}

}  // namespace leat::render
