#include "render/flag_json.h"

namespace leat::render {

namespace {

Json flag_json(const solver::Flag& flag) {
  Json row;
  row["code"] = flag.code;
  row["severity"] = solver::word_of(flag.severity);
  row["where"] = flag.where;
  row["text"] = flag.text;
  row["value"] = json_number(flag.value);
  row["limit"] = json_number(flag.limit);
  row["unit"] = flag.unit;
  row["case"] = solver::word_of(flag.load_case);
  return row;
}

}  // namespace

Json flag_list(const solver::SteadyAnswer& answer) {
  Json rows = Json::array();
  for (const solver::Flag& flag : answer.flags) {
    rows.push_back(flag_json(flag));
  }
  return rows;
}

}  // namespace leat::render
