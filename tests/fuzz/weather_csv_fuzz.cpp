// Any bytes as the CSV file of the weather, and as one of a yield or a level measured on dates.
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "model/keys/dated_record.h"
#include "model/keys/weather_csv.h"
#include "model/text/problem_list.h"

namespace {

void demand(bool is_so) {
  if (!is_so) {
    __builtin_trap();
  }
}

/// What was refused said why; what was read has dates that rise.
template <class Table, class Days>
void judge(const Table& table, const Days& days, const leat::model::ProblemList& problems) {
  demand(table.has_value() == (problems.count() == 0));
  if (table) {
    const auto& list = days(*table);
    for (std::size_t i = 1; i < list.size(); ++i) {
      demand(list[i - 1].on < list[i].on);
    }
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  using namespace leat::model;
  const std::string_view text(reinterpret_cast<const char*>(bytes), size);
  ProblemList of_weather("fuzz.yaml");
  judge(
      read_weather_csv(text, "fuzz.csv", of_weather),
      [](const WeatherTable& table) -> const auto& { return table.days; },
      of_weather);
  ProblemList of_flows("fuzz.yaml");
  judge(
      read_record_csv(text, "fuzz.csv", flow_record, of_flows),
      [](const auto& record) -> const auto& { return record; },
      of_flows);
  ProblemList of_levels("fuzz.yaml");
  judge(
      read_record_csv(text, "fuzz.csv", level_record, of_levels),
      [](const auto& record) -> const auto& { return record; },
      of_levels);
  return 0;
}
