#include "render/commands/key_tables.h"

#include "render/commands/catalogues/catalogue_columns.h"
#include "render/commands/compare/compare_columns.h"
#include "render/commands/improve/improve_columns.h"
#include "render/commands/prime/prime_columns.h"
#include "render/commands/profile/profile_columns.h"
#include "render/commands/read/read_columns.h"
#include "render/commands/season/season_answer_columns.h"
#include "render/commands/season/season_spread_columns.h"
#include "render/commands/size/size_columns.h"
#include "render/commands/solve/answer_columns.h"
#include "render/commands/solve/pump_ram_columns.h"
#include "render/commands/solve/spread_columns.h"
#include "render/document/key_table.h"

namespace leat::render {

namespace {

template <class Row>
KeyTable table(const char* mark, const char* of, const Columns<Row>& columns) {
  return {mark, key_table(of, told_keys(columns))};
}

std::vector<KeyTable> answer_tables() {
  return {table("flags", "key of `flags`", flag_columns()),
          table("problems", "key of `problems`", problem_columns()),
          table("solve places", "key of `places`", place_columns()),
          table("solve pipes", "key of `pipes`", pipe_columns()),
          table("solve pumps", "key of `pumps`", pump_columns()),
          table("solve rams", "key of `rams`", ram_columns()),
          table("spread places", "key of `places`", place_spread_columns()),
          table("spread summits", "key of `summits`", summit_spread_columns()),
          table("spread causes", "key of `causes`", cause_columns())};
}

std::vector<KeyTable> season_tables() {
  return {table("season balance", "key of `balance`", balance_columns()),
          table("season troughs", "key of `troughs`", trough_season_columns()),
          table("season tanks", "key of `tanks`", tank_season_columns()),
          table("season ponds", "key of `ponds`", pond_season_columns()),
          table("season first short", "key of `first_short`", first_short_columns()),
          table("season pumps", "key of `pumps`", season_pump_columns()),
          table("season rams", "key of `rams`", season_ram_columns()),
          table("season broken siphons", "key of `broken_siphons`", broken_siphon_columns()),
          table("season spread troughs", "key of `troughs`", trough_spread_columns()),
          table("season spread stores", "key of `tanks` and `ponds`", pond_spread_columns()),
          table("season spread breaks", "key of `breaks`", break_spread_columns())};
}

std::vector<KeyTable> study_tables() {
  return {table("prime legs", "key of `legs`", prime_leg_columns()),
          table("prime steps", "key of `steps`", prime_step_columns()),
          table("prime air", "key of `air`", falling_leg_columns()),
          table("compare farms", "key of `farms`", compared_farm_columns()),
          table("improve changes", "key of `changes`", ranked_change_columns()),
          table("improve pair", "key of `pair`", pair_columns()),
          table("improve sensitivities", "key of `sensitivities`", small_change_columns()),
          table("size runs", "key of `runs`", sized_run_columns()),
          table("size stores", "key of `stores`", store_rule_columns()),
          table("size places", "key of `places`", needing_place_columns()),
          table("profile points", "key of `points`", profile_point_columns()),
          table("profile part full", "key of `part_full`", part_full_columns())};
}

std::vector<KeyTable> file_tables() {
  return {table("read places", "key of `places`", place_reading_columns()),
          table("read pipes", "key of `pipes`", pipe_reading_columns()),
          table("pipes", "key of `pipes`", catalogue_pipe_columns()),
          table("fittings", "key of `fittings`", catalogue_fitting_columns()),
          table("herd", "key of `herd`", catalogue_herd_columns())};
}

}  // namespace

std::vector<KeyTable> key_tables() {
  std::vector<KeyTable> all;
  for (const auto& tables : {answer_tables(), season_tables(), study_tables(), file_tables()}) {
    all.insert(all.end(), tables.begin(), tables.end());
  }
  return all;
}

}  // namespace leat::render
