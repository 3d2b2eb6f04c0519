#include "model/text/utf8.h"

namespace leat::model {
namespace {

bool is_continuation(std::string_view text, std::size_t at) {
  return at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U;
}

}  // namespace

std::size_t utf8_length(std::string_view text, std::size_t at) {
  const auto lead = static_cast<unsigned char>(text[at]);
  if (lead < 0x80) {
    return 1;
  }
  const auto second = [&](unsigned char low, unsigned char high) {
    return is_continuation(text, at + 1) && static_cast<unsigned char>(text[at + 1]) >= low &&
           static_cast<unsigned char>(text[at + 1]) <= high;
  };
  if (lead >= 0xC2 && lead <= 0xDF) {
    return is_continuation(text, at + 1) ? 2 : 0;
  }
  if (lead >= 0xE0 && lead <= 0xEF) {
    // No overlong forms, no surrogates (Unicode 15, table 3-7).
    const unsigned char low = lead == 0xE0 ? 0xA0 : 0x80;
    const unsigned char high = lead == 0xED ? 0x9F : 0xBF;
    return second(low, high) && is_continuation(text, at + 2) ? 3 : 0;
  }
  if (lead >= 0xF0 && lead <= 0xF4) {
    const unsigned char low = lead == 0xF0 ? 0x90 : 0x80;
    const unsigned char high = lead == 0xF4 ? 0x8F : 0xBF;
    return second(low, high) && is_continuation(text, at + 2) && is_continuation(text, at + 3) ? 4
                                                                                               : 0;
  }
  return 0;
}

Character character_at(std::string_view text, std::size_t at) {
  const auto lead = static_cast<unsigned char>(text[at]);
  const std::size_t length = utf8_length(text, at);
  if (length <= 1) {
    return {lead, 1, length == 1};
  }
  // The lead byte holds 5, 4 or 3 bits of the code, each byte behind it 6.
  std::uint32_t code = lead & (0x7FU >> length);
  for (std::size_t i = 1; i < length; ++i) {
    code = (code << 6U) | (static_cast<unsigned char>(text[at + i]) & 0x3FU);
  }
  return {code, length, true};
}

bool is_control(std::uint32_t code) {
  return code < 0x20 || (code >= 0x7F && code < 0xA0);
}

std::string_view whole_characters(std::string_view text, std::size_t most) {
  std::size_t end = text.size();
  if (most < text.size()) {
    end = most;
    while (end > 0 && is_continuation(text, end)) {
      --end;
    }
  }
  return text.substr(0, end);
}

int count_characters(std::string_view text) {
  int count = 0;
  for (const char c : text) {
    count += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1 : 0;
  }
  return count;
}

}  // namespace leat::model
