#include "model/keys/schema.h"

#include <algorithm>
#include <array>
#include <optional>

#include <fmt/format.h>

#include "model/keys/farm_keys.h"

namespace leat::model {
namespace {

constexpr std::size_t line_width = 100;

std::vector<JsonTree> texts(const std::vector<std::string_view>& words) {
  return {words.begin(), words.end()};
}

JsonTree required(const std::vector<std::string_view>& names) {
  return JsonTree().add("required", texts(names));
}

/// {"anyOf": [{"required": ["length"]}, ...]}: at least one of the keys; or "oneOf".
JsonTree required_of(const char* how_many, const KeyGroup& group) {
  std::vector<JsonTree> each;
  for (const std::string_view name : group.names) {
    each.push_back(required({name}));
  }
  return JsonTree().add(how_many, std::move(each));
}

std::vector<std::string_view> required_names(const KeyTable& table) {
  std::vector<std::string_view> names;
  for (const KeyRow& row : table.rows()) {
    if (!row.words.required.empty()) {
      names.push_back(row.name);
    }
  }
  return names;
}

bool is_bare_number(std::string_view text) {
  return text.find_first_not_of("0123456789.") == std::string_view::npos;
}

/// Whether the keys stand in a list: a variant then replaces them all, and may leave out none.
enum class Stands { InMap, InList };

/// Makes the objects of the schema, and remembers which definitions they refer to.
class SchemaMaker {
 public:
  [[nodiscard]] JsonTree properties(const KeyTable& table) {
    JsonTree all;
    for (const KeyRow& row : table.rows()) {
      all.add(row.name, property(row));
    }
    return all;
  }

  /// The kinds that vary by month, and the tables that have a name, in the order they were met.
  [[nodiscard]] const std::vector<std::string_view>& monthly() const { return monthly_; }
  [[nodiscard]] const std::vector<std::pair<std::string_view, JsonTree>>& tables() const {
    return tables_;
  }

 private:
  [[nodiscard]] JsonTree property(const KeyRow& row) {
    JsonTree property = JsonTree().add("description", row.words.sentence);
    std::vector<JsonTree> examples;
    for (const std::string_view example : row.words.examples) {
      examples.push_back(is_bare_number(example) ? JsonTree::written(example) : JsonTree(example));
    }
    if (!examples.empty()) {
      property.add("examples", std::move(examples));
    }
    property.add_all(value_of(row.kind));
    return property;
  }

  [[nodiscard]] JsonTree value_of(const Kind& kind) {
    JsonTree one = schema_any_of(alternatives(kind));
    if (kind.is_by_name) {
      return JsonTree()
          .add("type", "object")
          .add("propertyNames", schema_reference("names"))
          .add("additionalProperties", std::move(one));
    }
    return kind.is_list ? JsonTree().add("type", "array").add("items", std::move(one)) : one;
  }

  [[nodiscard]] std::vector<JsonTree> alternatives(const Kind& kind) {
    std::vector<JsonTree> all;
    if (!kind.definition.empty()) {
      all.push_back(kind.by_month ? by_month(kind.definition) : schema_reference(kind.definition));
    }
    if (kind.may_repeat) {
      all.push_back(JsonTree()
                        .add("type", "array")
                        .add("items", schema_reference(kind.definition))
                        .add("minItems", 1));
    }
    if (kind.numbers) {
      const Range<double>& range = *kind.numbers;
      JsonTree bounds;
      bounds.add(range.low_included ? "minimum" : "exclusiveMinimum", range.low);
      bounds.add("maximum", range.high);
      for (JsonTree& number : schema_numbers(std::move(bounds), range.low < 0.0)) {
        all.push_back(std::move(number));
      }
    }
    if (kind.or_csv) {
      all.push_back(schema_reference("csv_file"));
    }
    if (!kind.words.empty()) {
      all.push_back(JsonTree().add("enum", texts(kind.words)));
    }
    if (kind.keys != nullptr) {
      all.push_back(map_of(*kind.keys, kind.is_list ? Stands::InList : Stands::InMap));
    }
    return all;
  }

  [[nodiscard]] JsonTree by_month(std::string_view definition) {
    if (std::find(monthly_.begin(), monthly_.end(), definition) == monthly_.end()) {
      monthly_.push_back(definition);
    }
    return schema_reference(fmt::format("{}_by_month", definition));
  }

  /// The map with those keys, or a reference to it where it has a name.
  [[nodiscard]] JsonTree map_of(const KeyTable& table, Stands stands) {
    const std::string_view name = table.words().name;
    if (name.empty()) {
      return object(table, stands);
    }
    const auto known = std::find_if(
        tables_.begin(), tables_.end(), [name](const auto& one) { return one.first == name; });
    if (known == tables_.end()) {
      tables_.emplace_back(name, object(table, stands));
    }
    // What such a map must have stands in the branch of whole farms; beside that branch the server
    // for YAML offers a key twice whose value is a plain reference.
    const bool is_wanted_elsewhere = stands == Stands::InMap && !required_names(table).empty();
    return is_wanted_elsewhere
               ? JsonTree().add("allOf", std::vector<JsonTree>{schema_reference(name)})
               : schema_reference(name);
  }

  [[nodiscard]] JsonTree object(const KeyTable& table, Stands stands) {
    JsonTree object;
    if (!table.words().sentence.empty()) {
      object.add("description", table.words().sentence);
    }
    object.add("type", "object");
    const std::vector<std::string_view> wanted = required_names(table);
    if (stands == Stands::InList && !wanted.empty()) {
      object.add_all(required(wanted));
    }
    object.add("additionalProperties", false);
    object.add("properties", properties(table));
    object.add_all(rules(table, stands));
    return object;
  }

  /// Which keys may not stand beside each other, and which words may.
  [[nodiscard]] static JsonTree rules(const KeyTable& table, Stands stands) {
    JsonTree rules;
    std::vector<JsonTree> all;
    for (const KeyGroup& group : table.groups()) {
      if (group.stand == KeyGroup::Stand::ExactlyOne && stands == Stands::InList) {
        rules.add_all(required_of("oneOf", group));
        continue;
      }
      if (group.stand == KeyGroup::Stand::AtLeastOne) {
        continue;  // a variant may leave them to its base
      }
      for (std::size_t i = 0; i < group.names.size(); ++i) {
        for (std::size_t j = i + 1; j < group.names.size(); ++j) {
          all.push_back(JsonTree().add("not", required({group.names[i], group.names[j]})));
        }
      }
    }
    for (const WordsBeside& limited : table.words_beside()) {
      const JsonTree words = JsonTree().add("enum", texts(limited.words));
      all.push_back(
          JsonTree()
              .add("if", required({limited.beside, limited.key}))
              .add("then", JsonTree().add("properties", JsonTree().add(limited.key, words))));
    }
    if (!all.empty()) {
      rules.add("allOf", std::move(all));
    }
    return rules;
  }

  std::vector<std::string_view> monthly_;
  std::vector<std::pair<std::string_view, JsonTree>> tables_;
};

/// What a whole farm must have and a variant may leave to its base; empty where that is nothing.
JsonTree wanted_of(const KeyTable& table) {
  JsonTree wanted;
  if (const auto names = required_names(table); !names.empty()) {
    wanted.add_all(required(names));
  }
  for (const KeyGroup& group : table.groups()) {
    if (group.stand != KeyGroup::Stand::AtMostOne) {
      wanted.add_all(required_of("anyOf", group));
    }
  }
  JsonTree inner;
  for (const KeyRow& row : table.rows()) {
    const Kind& kind = row.kind;
    JsonTree below = kind.keys == nullptr || kind.is_list ? JsonTree() : wanted_of(*kind.keys);
    if (!below.is_empty()) {
      inner.add(row.name,
                kind.is_by_name ? JsonTree().add("additionalProperties", std::move(below)) : below);
    }
    if (row.name == "remove") {
      inner.add(
          row.name,
          JsonTree()
              .add("not", JsonTree())
              .add("errorMessage", "remove stands only in a variant: write based on as well"));
    }
  }
  if (!inner.is_empty()) {
    wanted.add("properties", std::move(inner));
  }
  return wanted;
}

/// One value, or a map of months with such values.
JsonTree months_of(std::string_view definition) {
  constexpr std::array<std::string_view, 12> full_names = {"January",
                                                           "February",
                                                           "March",
                                                           "April",
                                                           "May",
                                                           "June",
                                                           "July",
                                                           "August",
                                                           "September",
                                                           "October",
                                                           "November",
                                                           "December"};
  JsonTree months;
  for (std::size_t month = 0; month < full_names.size(); ++month) {
    JsonTree value =
        JsonTree().add("description", fmt::format("The value for {}.", full_names[month]));
    value.add_all(schema_reference(definition));
    months.add(month_names[month], std::move(value));
  }
  return schema_any_of({schema_reference(definition),
                        JsonTree()
                            .add("type", "object")
                            .add("properties", std::move(months))
                            .add("additionalProperties", false)
                            .add("minProperties", 1)});
}

}  // namespace

std::string farm_schema() {
  SchemaMaker maker;
  JsonTree properties = maker.properties(farm_keys());
  JsonTree whole = JsonTree().add("description", "What only a variant may leave to its base.");
  whole.add_all(wanted_of(farm_keys()));
  JsonTree definitions;
  for (SchemaDefinition& definition : value_definitions()) {
    definitions.add(definition.name, std::move(definition.value));
  }
  std::vector<std::string_view> monthly = maker.monthly();
  monthly.push_back("count");  // heads of a herd
  for (const std::string_view definition : monthly) {
    definitions.add(fmt::format("{}_by_month", definition), months_of(definition));
  }
  for (const auto& [name, table] : maker.tables()) {
    definitions.add(name, table);
  }
  return JsonTree()
      .add("$schema", "http://json-schema.org/draft-07/schema#")
      .add("description", farm_keys().words().sentence)
      .add("type", "object")
      .add("if", required({"based on"}))
      .add("then", true)
      .add("else", std::move(whole))
      .add("additionalProperties", false)
      .add("properties", std::move(properties))
      .add("definitions", std::move(definitions))
      .laid_out(line_width);
}

}  // namespace leat::model
