// Words as they are compared, whatever their letters' case.
#pragma once

#include <cctype>
#include <string>
#include <string_view>

namespace leat::model {

/// `text` with every ASCII capital made small; other bytes stay.
inline std::string in_lower_case(std::string_view text) {
  std::string lower(text);
  for (char& letter : lower) {
    letter = static_cast<char>(std::tolower(static_cast<unsigned char>(letter)));
  }
  return lower;
}

}  // namespace leat::model
