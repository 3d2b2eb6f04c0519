// Any bytes as a number with a unit.
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "model/quantity/quantity_text.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  using namespace leat::model;
  const std::string_view text(reinterpret_cast<const char*>(bytes), size);
  (void)parse_length(text);
  (void)parse_elevation(text);
  (void)parse_flow(text);
  (void)parse_volume(text);
  (void)parse_area(text);
  (void)parse_pressure(text);
  (void)parse_temperature(text);
  (void)parse_duration(text);
  (void)parse_depth_rate(text);
  (void)parse_number(text);
  (void)parse_share(text);
  (void)parse_need(text);
  return 0;
}
