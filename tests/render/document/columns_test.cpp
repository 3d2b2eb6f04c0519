// One list of columns makes JSON, CSV, a table of the screen and what the document says.
#include "render/document/columns.h"

#include <stdexcept>

#include <catch2/catch.hpp>

namespace leat::render {

namespace {

struct Mouth {
  double at_m = 0.0;
  bool is_shut = false;
};

struct Well {
  std::string name;
  std::optional<double> pressure_Pa;
  std::optional<Mouth> mouth;
  std::vector<Mouth> all;
};

const Columns<Mouth>& mouth_columns() {
  static const Columns<Mouth> columns = {
      Column<Mouth>::number(
          "at_m", scale::length, [](const Mouth& mouth) { return mouth.at_m; }, "from the top"),
      Column<Mouth>::value("shut", [](const Mouth& mouth) { return mouth.is_shut; })};
  return columns;
}

const Columns<Well>& well_columns() {
  static const Columns<Well> columns = {
      Column<Well>::value("name", [](const Well& well) { return well.name; }),
      Column<Well>::number(
          "pressure_kPa",
          scale::pressure,
          [](const Well& well) { return well.pressure_Pa; },
          "gauge"),
      Column<Well>::object(
          "mouth",
          mouth_columns(),
          [](const Well& well) { return well.mouth; },
          "the lowest: {keys}"),
      Column<Well>::list(
          "mouths", mouth_columns(), [](const Well& well) { return well.all; }, "all"),
      Column<Well>::number(
          "spare_kPa", scale::pressure, [](const Well&) { return 1500.0; }, "kept")
          .only_in_json()};
  return columns;
}

const std::vector<Well> wells = {{"old, deep", 96400.0, Mouth{1.5, true}, {{1.5, true}}},
                                 {"new", std::nullopt, std::nullopt, {}}};

}  // namespace

TEST_CASE("a row's JSON has the columns' keys in their order, scaled, null for what is absent") {
  CHECK(json_rows(well_columns(), wells).dump() ==
        R"([{"name":"old, deep","pressure_kPa":96.4,"mouth":{"at_m":1.5,"shut":true},)"
        R"("mouths":[{"at_m":1.5,"shut":true}],"spare_kPa":1.5},)"
        R"({"name":"new","pressure_kPa":null,"mouth":null,"mouths":[],"spare_kPa":1.5}])");
}

TEST_CASE("CSV has objects flattened, no lists, and figures rounded to their scale's decimals") {
  CHECK(csv_text(well_columns(), wells) ==
        "name,pressure_kPa,mouth_at_m,mouth_shut\n"
        "\"old, deep\",96.400,1.5000,true\n"
        "new,,,\n");
}

TEST_CASE("a table of the screen shows columns by key, figures to the right, in people's units") {
  const TextTable table =
      table_of(well_columns(),
               {{"wells", "name"},
                {"psi", "pressure_kPa"},
                {"low",
                 "mouth",
                 [](const Well& well, model::UnitSystem) { return well.mouth ? "yes" : "no"; }}},
               wells,
               model::UnitSystem::Us);
  CHECK(table_text(table.columns, table.rows) ==
        "wells       psi  low\n"
        "old, deep  14.0  yes\n"
        "new           -  no\n");
  CHECK_THROWS_AS(column_of(well_columns(), "depth_m"), std::logic_error);
}

TEST_CASE("keys without a sentence are told with the next that has one") {
  CHECK(key_table("key of `wells`", told_keys(well_columns())) ==
        "| key of `wells` | meaning |\n"
        "|---|---|\n"
        "| name, pressure_kPa | gauge |\n"
        "| mouth | the lowest: at_m (from the top), shut |\n"
        "| mouths | all |\n"
        "| spare_kPa | kept |\n");
}

}  // namespace leat::render
