#include "render/io/clock.h"

#include <charconv>
#include <cstdint>
#include <cstdlib>
#include <ctime>
#include <optional>
#include <string_view>

#include <fmt/format.h>

namespace leat::render {
namespace {

std::optional<std::time_t> asked_moment() {
  const char* const given = std::getenv("SOURCE_DATE_EPOCH");
  if (given == nullptr) {
    return std::nullopt;
  }
  const std::string_view text(given);
  std::int64_t seconds = 0;
  const std::from_chars_result read =
      std::from_chars(text.data(), text.data() + text.size(), seconds);
  if (text.empty() || read.ec != std::errc() || read.ptr != text.data() + text.size()) {
    return std::nullopt;
  }
  return static_cast<std::time_t>(seconds);
}

}  // namespace

std::string drawing_date() {
  const std::optional<std::time_t> asked = asked_moment();
  const std::time_t moment = asked ? *asked : std::time(nullptr);
  std::tm day{};
  const std::tm* const found = asked ? gmtime_r(&moment, &day) : localtime_r(&moment, &day);
  if (found == nullptr) {
    return "no date";
  }
  return fmt::format("{:04d}-{:02d}-{:02d}", day.tm_year + 1900, day.tm_mon + 1, day.tm_mday);
}

}  // namespace leat::render
