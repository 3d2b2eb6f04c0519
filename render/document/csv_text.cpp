#include "render/document/csv_text.h"

#include <cstddef>
#include <string_view>

#include "render/words/number_text.h"

namespace leat::render {

std::string csv_line(const std::vector<std::string>& cells) {
  std::string line;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    line += i == 0 ? "" : ",";
    if (cells[i].find_first_of(",\"\r\n") == std::string::npos) {
      line += cells[i];
      continue;
    }
    line += '"';
    for (const char letter : cells[i]) {
      line += letter == '"' ? "\"\"" : std::string(1, letter);
    }
    line += '"';
  }
  return line + '\n';
}

std::string csv_cell(const Json& value, int decimals) {
  if (value.is_null()) {
    return "";
  }
  if (value.is_string()) {
    return value.get<std::string>();
  }
  if (value.is_number_float()) {
    return cell_text(value.get<double>(), decimals);
  }
  if (value.is_array()) {
    std::string parts;
    for (const Json& part : value) {
      const std::string_view between = part.is_number() ? " " : "; ";
      parts.append(parts.empty() ? "" : between).append(csv_cell(part, decimals));
    }
    return parts;
  }
  return value.dump();
}

}  // namespace leat::render
