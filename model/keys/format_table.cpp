#include "model/keys/format_table.h"

#include <algorithm>
#include <stdexcept>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "model/keys/creek.h"
#include "model/keys/farm_keys.h"
#include "model/keys/measured.h"
#include "model/keys/outlet.h"
#include "model/keys/pipe.h"
#include "model/keys/place_keys.h"
#include "model/keys/pond.h"
#include "model/keys/pond_shape.h"
#include "model/keys/pump_and_ram.h"
#include "model/keys/site.h"
#include "model/keys/size.h"
#include "model/keys/spring.h"
#include "model/keys/tank.h"
#include "model/keys/tee.h"
#include "model/keys/trough.h"
#include "model/keys/valve.h"
#include "model/keys/vent_and_regulator.h"
#include "model/keys/weather.h"

namespace leat::model {
namespace {

constexpr std::string_view mark_start = "<!-- keys: ";
constexpr std::string_view mark_end = "<!-- end of keys -->\n";

std::string name_cell(const KeyRow& row) {
  return row.words.required.empty() ? std::string(row.name) : fmt::format("**{}**", row.name);
}

/// A cell with a blank on either side; an empty one is one blank.
std::string cell(std::string_view text) {
  return text.empty() ? " |" : fmt::format(" {} |", text);
}

std::string line(const std::vector<std::string>& names,
                 std::string_view told,
                 std::string_view if_absent) {
  return fmt::format(
      "|{}{}{}\n", cell(fmt::format("{}", fmt::join(names, ", "))), cell(told), cell(if_absent));
}

}  // namespace

std::vector<FormatTable> format_tables() {
  return {{"farm", "key", farm_keys()},
          {"site", "key", site_keys()},
          {"place", "key", place_keys()},
          {"spring", "key", spring_keys()},
          {"creek", "key", creek_keys()},
          {"pond", "key", pond_keys()},
          {"dug pond", "key", dug_pond_keys()},
          {"catchment", "key", catchment_keys()},
          {"tank", "key", tank_keys()},
          {"trough", "key", trough_keys()},
          {"outlet", "key", outlet_keys()},
          {"tee", "key", tee_keys()},
          {"pipe", "key", pipe_keys()},
          {"size", "key", own_size_keys()},
          {"valve", "key", valve_keys()},
          {"vent", "key of a vent", vent_keys()},
          {"regulator", "key of a regulator", regulator_keys()},
          {"pump", "key", pump_keys()},
          {"ram", "key", ram_keys()},
          {"weather", "key", weather_keys()},
          {"measured", "key", measured_keys()}};
}

std::string table_text(const FormatTable& table) {
  std::string text = fmt::format("| {} | what | if absent |\n|---|---|---|\n", table.heading);
  const std::vector<KeyRow>& rows = table.keys.rows();
  const std::size_t own = rows.size() - table.keys.shared_count();
  for (std::size_t first = 0; first < own;) {
    std::vector<std::string> names = {name_cell(rows[first])};
    std::size_t next = first + 1;
    for (; next < own && rows[next].words.told.empty(); ++next) {
      names.push_back(name_cell(rows[next]));
    }
    text += line(names, rows[first].words.told, rows[first].words.if_absent);
    first = next;
  }
  if (own < rows.size()) {
    std::vector<std::string> names;
    for (std::size_t i = own; i < rows.size(); ++i) {
      names.push_back(name_cell(rows[i]));
    }
    text += line(names, "as for every place", "");
  }
  return text;
}

std::string with_format_tables(std::string_view document) {
  const std::vector<FormatTable> tables = format_tables();
  std::vector<bool> is_written(tables.size());
  std::string text;
  for (std::size_t at = document.find(mark_start); at != std::string_view::npos;
       at = document.find(mark_start)) {
    const std::size_t line_end = document.find('\n', at);
    const std::size_t end = document.find(mark_end, at);
    const std::string_view mark =
        document.substr(at + mark_start.size(), document.find(" -->", at) - at - mark_start.size());
    const auto table = std::find_if(
        tables.begin(), tables.end(), [mark](const FormatTable& one) { return one.mark == mark; });
    if (table == tables.end() || end == std::string_view::npos) {
      throw std::invalid_argument(fmt::format("'{}' marks no table of keys", mark));
    }
    is_written[static_cast<std::size_t>(table - tables.begin())] = true;
    text += document.substr(0, line_end + 1);
    text += table_text(*table);
    text += mark_end;
    document.remove_prefix(end + mark_end.size());
  }
  const auto missing = std::find(is_written.begin(), is_written.end(), false);
  if (missing != is_written.end()) {
    throw std::invalid_argument(
        fmt::format("the table of keys '{}' has no marks",
                    tables[static_cast<std::size_t>(missing - is_written.begin())].mark));
  }
  return text + std::string(document);
}

}  // namespace leat::model
