#include "model/keys/month_map_reader.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace leat::model {

void note_assumed_months(const std::array<bool, 12>& assumed,
                         GapRule rule,
                         std::string_view what,
                         std::vector<std::string>& notes) {
  std::vector<std::string_view> months;
  for (std::size_t month = 0; month < assumed.size(); ++month) {
    if (assumed[month]) {
      months.push_back(month_names[month]);
    }
  }
  if (months.empty()) {
    return;
  }
  const char* taken = "the straight line between the months around them";
  if (rule == GapRule::Lower) {
    taken = "the lower of the months around them";
  } else if (rule == GapRule::Higher) {
    taken = "the higher of the months around them";
  }
  notes.push_back(
      fmt::format("{}: {} not given, taken as {}", what, fmt::join(months, ", "), taken));
}

}  // namespace leat::model
