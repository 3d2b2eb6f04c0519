#include "model/edit/yaml_scalar.h"

#include <algorithm>
#include <cctype>

#include <fmt/format.h>

#include "model/quantity/written_number.h"

namespace leat::model {
namespace {

constexpr int foot_decimals = 2;
constexpr int metre_decimals = 3;

/// Letters, digits, what is not ASCII, and a few signs that mean nothing to YAML inside a text.
bool is_plain(char letter) {
  const auto byte = static_cast<unsigned char>(letter);
  return byte >= 0x80U || std::isalnum(byte) != 0 ||
         std::string_view(" -_./()+").find(letter) != std::string_view::npos;
}

std::string trimmed(double value, int decimals) {
  return without_end_zeros(fmt::format("{:.{}f}", value, decimals));
}

std::string distance_scalar(double value_m, UnitSystem units) {
  return units == UnitSystem::Us ? trimmed(value_m / metres_per_foot, foot_decimals) + " ft"
                                 : trimmed(value_m, metre_decimals) + " m";
}

}  // namespace

std::string yaml_scalar(std::string_view text) {
  const bool starts_plain =
      !text.empty() && (static_cast<unsigned char>(text.front()) >= 0x80U ||
                        std::isalnum(static_cast<unsigned char>(text.front())) != 0);
  if (starts_plain && text.back() != ' ' && std::all_of(text.begin(), text.end(), is_plain)) {
    return std::string(text);
  }
  std::string quoted = "\"";
  for (const char letter : text) {
    quoted += letter == '"' || letter == '\\' ? std::string("\\") + letter : std::string(1, letter);
  }
  return quoted + '"';
}

std::string length_scalar(Length length, UnitSystem units) {
  return distance_scalar(in_metres(length), units);
}

std::string level_scalar(Elevation level, UnitSystem units) {
  return distance_scalar(in_metres(level), units);
}

}  // namespace leat::model
