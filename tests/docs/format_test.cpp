// model/FORMAT.md: complete against the schema, and every example in it a farm that loads.
#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "model/keys/farm_file.h"
#include "model/text/problem_list.h"
#include "model/text/yaml_tree.h"
#include "tests/docs/shown_runs.h"

namespace leat::tests {

namespace {

using Json = nlohmann::json;
using Names = std::set<std::string>;

const std::string format_page = "model/FORMAT.md";

/// The objects of the schema whose keys are fixed, by where they stand in it.
using SchemaObjects = std::map<std::string, Names>;

void collect_objects(const Json& node, const std::string& where, SchemaObjects& objects) {
  if (node.is_array()) {
    for (const Json& one : node) {
      collect_objects(one, where, objects);
    }
    return;
  }
  if (!node.is_object()) {
    return;
  }
  const Json properties = node.value("properties", Json::object());
  for (const auto& [key, value] : properties.items()) {
    objects[where].insert(key);
    collect_objects(value, where + "/" + key, objects);
  }
  const Json definitions = node.value("definitions", Json::object());
  for (const auto& [name, value] : definitions.items()) {
    collect_objects(value, name, objects);
  }
  for (const char* const part : {"items", "anyOf", "oneOf", "allOf", "additionalProperties"}) {
    if (node.contains(part)) {
      collect_objects(node[part], where, objects);
    }
  }
}

SchemaObjects schema_objects() {
  SchemaObjects objects;
  collect_objects(Json::parse(document("model/keys/farm.schema.json")), "", objects);
  return objects;
}

/// The section of FORMAT.md in which an object of the schema is told, key by key in tables.
const std::map<std::string, std::string> sections = {
    {"", "At the top"},
    {"/site", "Site"},
    {"/weather", "Weather"},
    {"spring", "Springs"},
    {"creek", "Creeks"},
    {"pond", "Ponds"},
    {"pond/shape", "A dug pond's shape"},
    {"pond/catchment", "A pond's catchment"},
    {"tank", "Tanks"},
    {"trough", "Troughs"},
    {"outlet", "Outlets"},
    {"tee", "Tees"},
    {"pipe", "Pipes"},
    {"size", "Sizes"},
    {"valve", "Valves"},
    {"vents", "Vents and regulators"},
    {"regulator", "Vents and regulators"},
    {"pump", "Pumps"},
    {"ram", "Rams"},
    {"measured", "Measured"},
};

/// The page's own part of a section: without the sections below it.
std::string own_part(const std::string& heading) {
  const std::string whole = "\n" + section(document(format_page), heading);
  return whole.substr(0, whole.find("\n#"));
}

Names told_keys(const std::string& heading) {
  Names names;
  for (const std::vector<std::string>& row : table_rows(own_part(heading))) {
    for (const std::string& name : names_in_cell(row.at(0))) {
      names.insert(name);
    }
  }
  return names;
}

/// The keys of a section's tables that are written bold: **from**, **to**.
Names bold_keys(const std::string& heading) {
  Names names;
  for (const std::vector<std::string>& row : table_rows(own_part(heading))) {
    if (row.at(0).starts_with("**")) {
      for (const std::string& name : names_in_cell(row.at(0))) {
        names.insert(name);
      }
    }
  }
  return names;
}

bool holds_months(const Names& names) {
  return names.contains("Jan") && names.size() == 12;
}

/// Every key of a farm file's tree.
void collect_keys(const model::YamlNode& node, Names& keys) {
  for (const model::YamlEntry& entry : node.entries) {
    keys.insert(entry.key);
    collect_keys(entry.value, keys);
  }
  for (const model::YamlNode& item : node.items) {
    collect_keys(item, keys);
  }
}

}  // namespace

TEST_CASE("FORMAT.md tells every key the schema knows, and no key that it does not know") {
  std::map<std::string, Names> wanted;  // by section
  for (const auto& [where, keys] : schema_objects()) {
    if (holds_months(keys) || where.starts_with("herd")) {
      continue;
    }
    CAPTURE(where);
    REQUIRE(sections.contains(where));
    wanted[sections.at(where)].insert(keys.begin(), keys.end());
  }
  for (const auto& [heading, keys] : wanted) {
    CAPTURE(heading);
    CHECK(told_keys(heading) == keys);
  }
}

TEST_CASE("FORMAT.md writes bold the keys that a whole farm requires, and no other") {
  const std::map<std::string, std::string> headings = {{"springs", "Springs"},
                                                       {"creeks", "Creeks"},
                                                       {"ponds", "Ponds"},
                                                       {"tanks", "Tanks"},
                                                       {"troughs", "Troughs"},
                                                       {"outlets", "Outlets"},
                                                       {"tees", "Tees"},
                                                       {"pipes", "Pipes"},
                                                       {"pumps", "Pumps"},
                                                       {"rams", "Rams"}};
  // What is not based on another file.
  const Json whole = Json::parse(document("model/keys/farm.schema.json")).at("else");
  CHECK(bold_keys("At the top") == whole.at("required").get<Names>());
  CHECK(bold_keys("Measured") == Names{"at"});
  for (const auto& [plural, heading] : headings) {
    CAPTURE(heading);
    const Json& one = whole.at("properties").at(plural).at("additionalProperties");
    CHECK(bold_keys(heading) == one.at("required").get<Names>());
  }
}

TEST_CASE("FORMAT.md names every month and every kind of stock the schema knows") {
  const SchemaObjects objects = schema_objects();
  const std::vector<std::string> spans = code_spans(own_part("Herds"));
  const std::string writing = section(document(format_page), "How to write things");
  const Names& months = objects.at("flow_by_month");
  for (const std::string& name : objects.at("herd")) {  // heads may be told by month there
    CAPTURE(name);
    CHECK((months.contains(name) || std::count(spans.begin(), spans.end(), name) == 1));
  }
  for (const std::string& month : months) {
    CAPTURE(month);
    CHECK(writing.find(month) != std::string::npos);
  }
}

TEST_CASE("every farm that FORMAT.md shows loads, but the one that shows what is wrong") {
  const std::string text = document(format_page);
  const ExampleFolder folder(text);
  int farms = 0;
  for (const FencedBlock& block : fenced_blocks(text)) {
    if (block.kind != "yaml") {
      continue;
    }
    const std::string name = name_of(block);
    INFO(format_page << ":" << block.line);
    REQUIRE(!name.empty());
    const model::LoadedFarm loaded = model::load_farm_file(name);
    CHECK(loaded.farm.has_value() == (name != "slips.yaml"));
    ++farms;
  }
  CHECK(farms > 10);
}

TEST_CASE("every key that the schema knows stands in a farm that FORMAT.md shows") {
  Names shown;
  for (const FencedBlock& block : fenced_blocks(document(format_page))) {
    if (block.kind == "yaml" && name_of(block) != "slips.yaml") {
      model::ProblemList problems(name_of(block));
      collect_keys(model::read_yaml(text_of(block.lines), problems), shown);
    }
  }
  for (const auto& [where, keys] : schema_objects()) {
    // Months and kinds of stock are many, and all written alike.
    if (holds_months(keys) || where.starts_with("herd")) {
      continue;
    }
    for (const std::string& key : keys) {
      CAPTURE(where, key);
      CHECK(shown.contains(key));
    }
  }
}

TEST_CASE("what FORMAT.md shows of leat is what leat prints", "[golden]") {
  check_shown_runs(format_page);
}

}  // namespace leat::tests
