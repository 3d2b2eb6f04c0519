// How one value of each kind is written, as patterns.
#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "model/catalogue/fitting_catalogue.h"
#include "model/catalogue/herd_catalogue.h"
#include "model/keys/key.h"
#include "model/keys/schema.h"
#include "model/quantity/unit_table.h"

namespace leat::model {
namespace {

using namespace std::string_literals;

/// 1-1/4, 3/4, 12, 12.5 or 1e3.
const std::string number_pattern =
    R"(([1-9]\d*-\d+/\d+|\d+/\d+|((0|[1-9]\d*)(\.\d*)?|\.\d+)([eE][-+]?\d+)?))";
const std::string signed_number = "^ *-?" + number_pattern + " *$";
const std::string unsigned_number = "^ *" + number_pattern + " *$";

/// The same letters in either case, blanks of any width.
std::string in_any_case(std::string_view name) {
  std::string pattern;
  for (const char c : name) {
    if (c >= 'a' && c <= 'z') {
      pattern += fmt::format("[{}{}]", c, static_cast<char>(c - 'a' + 'A'));
    } else {
      pattern += c == ' ' ? " +"s : std::string(1, c);
    }
  }
  return pattern;
}

/// The units of a kind as alternatives; the words whose case is free (unit_table.h) in either case.
std::string units_pattern(UnitKind kind) {
  std::vector<std::string> patterns;
  for (const Unit& unit : unit_table()) {
    if (unit.kind != kind) {
      continue;
    }
    std::string pattern(unit.spelling);
    for (const std::string_view word : {"gpm", "psi", "gal"}) {
      if (const std::size_t at = pattern.find(word); at != std::string::npos) {
        pattern.replace(at, word.size(), in_any_case(word));
      }
    }
    patterns.push_back(std::move(pattern));
  }
  return fmt::format("({})", fmt::join(patterns, "|"));
}

std::string amount(UnitKind kind) {
  return number_pattern + " *" + units_pattern(kind);
}

/// 6 ft 3 in.
std::string compound(UnitKind kind) {
  return fmt::format("{0}( +{0})*", amount(kind));
}

std::string flow_pattern() {
  return fmt::format("({}|{} +in +{})",
                     amount(UnitKind::Flow),
                     amount(UnitKind::Volume),
                     compound(UnitKind::Duration));
}

std::string whole(const std::string& pattern) {
  return "^ *" + pattern + " *$";
}

JsonTree object() {
  return JsonTree().add("type", "object");
}

JsonTree list_of(JsonTree items) {
  return JsonTree().add("type", "array").add("items", std::move(items));
}

JsonTree pair_of(JsonTree first, JsonTree second) {
  return JsonTree()
      .add("type", "array")
      .add("minItems", 2)
      .add("maxItems", 2)
      .add("items", std::vector<JsonTree>{std::move(first), std::move(second)});
}

JsonTree rising_list_of(JsonTree items) {
  return JsonTree().add("type", "array").add("minItems", 2).add("items", std::move(items));
}

JsonTree degrees(int most) {
  return schema_any_of(schema_numbers(JsonTree().add("minimum", -most).add("maximum", most), true));
}

JsonTree degrees_or_level(int most) {
  std::vector<JsonTree> alternatives =
      schema_numbers(JsonTree().add("minimum", -most).add("maximum", most), true);
  alternatives.push_back(schema_reference("level"));
  return schema_any_of(std::move(alternatives));
}

std::vector<SchemaDefinition> quantities() {
  return {
      {"length",
       schema_text(whole(compound(UnitKind::Length)),
                   "write a length with its unit, such as 120 ft, 6 ft 3 in or 36 m")},
      {"level",
       schema_text(whole("-?" + compound(UnitKind::Length)),
                   "write a level with its unit, such as 131.5 ft or 40 m")},
      {"flow",
       schema_text(whole(flow_pattern()),
                   "write a flow with its unit, such as 9 gal/min, 0.2 L/s or 1 gal in 16 s")},
      {"volume",
       schema_text(whole(amount(UnitKind::Volume)),
                   "write a volume with its unit, such as 300 gal or 1.2 m3")},
      {"area",
       schema_text(whole(amount(UnitKind::Area)),
                   "write an area with its unit, such as 50 m2 or 2 acre")},
      {"pressure",
       schema_text(whole(amount(UnitKind::Pressure)),
                   "write a pressure with its unit, such as 40 psi, 2 bar or 30 ft water")},
      {"temperature",
       schema_text(whole("-?" + amount(UnitKind::Temperature)),
                   "write a temperature with its unit, such as 55 F or 12 C")},
      {"duration",
       schema_text(whole(compound(UnitKind::Duration)),
                   "write a time with its unit, such as 6 h or 1 min 12 s")},
      {"depth_a_day",
       schema_text(whole(amount(UnitKind::DepthRate)),
                   "write a depth a day with its unit, such as 3 mm/day")},
      {"depth", schema_any_of({schema_reference("length"), schema_reference("depth_a_day")})},
      {"speed",
       schema_text(whole(amount(UnitKind::Speed)),
                   "write a speed with its unit, such as 2 m/s or 5 mph")},
      {"flow_at_pressure",
       schema_text(whole(flow_pattern() + " +at +" + amount(UnitKind::Pressure)),
                   "write a flow at a pressure, such as 9 gal/min at 40 psi")},
  };
}

std::vector<SchemaDefinition> numbers_and_texts() {
  const std::string share =
      R"(^ *((\d+/\d+)|((0|1)(\.\d*)?|\.\d+)([eE][-+]?\d+)?|((0|[1-9]\d?|100)(\.\d*)?|\.\d+)([eE][-+]?\d+)? *%) *$)";
  const std::string name = R"(^(?! )(?!.*\.\.)(?!.* #)[^{}\[\],:\u0000-\u001f\u007f]+(?<! )$)";
  const JsonTree text = JsonTree().add("type", std::vector<JsonTree>{"string", "number"});
  return {
      {"number", schema_any_of(schema_numbers({}, true))},
      {"share",
       schema_any_of({JsonTree().add("type", "number").add("minimum", 0).add("maximum", 1),
                      schema_text(share, "write a share from 0 to 1, such as 3/8, 0.4 or 40 %")})},
      {"count",
       schema_any_of({JsonTree().add("type", "integer").add("minimum", 0).add("maximum", 1000000),
                      schema_text(R"(^\d+$)")})},
      {truth_definition, JsonTree().add("enum", std::vector<JsonTree>{"yes", "no", true, false})},
      {"text", text},
      {"name", text},
      {"names",
       JsonTree()
           .add("maxLength", 80)
           .add("pattern", name)
           .add("errorMessage",
                "a name has 1 to 80 characters, none of { } [ ] , :, no ' #' and no '..'")},
      {"csv_file", schema_text(R"(\.csv$)", "write the name of a CSV file, such as yields.csv")},
      {"date",
       schema_text(R"(^\d{4}-\d{2}-\d{2}$)", "write a day of the calendar, such as 2026-08-14")},
  };
}

std::vector<SchemaDefinition> times() {
  const JsonTree clock_range =
      schema_text(R"(^ *([01]?\d|2[0-3]):[0-5]\d *- *(([01]?\d|2[0-3]):[0-5]\d|24:00) *$)",
                  "write hours of the clock, such as 6:00-9:00");
  return {
      {"clock_ranges", schema_any_of({clock_range, list_of(clock_range)})},
      {"run_times",
       schema_any_of({schema_reference("clock_ranges"),
                      schema_text("^ *" + amount(UnitKind::Duration) + " */day$")})},
  };
}

std::vector<SchemaDefinition> pairs() {
  return {
      {"map_point", pair_of(degrees_or_level(180), degrees_or_level(90))},
      {"map_origin", pair_of(degrees(180), degrees(85))},
      {"path_points",
       rising_list_of(pair_of(schema_reference("length"), schema_reference("level")))},
      {"stage_areas", rising_list_of(pair_of(schema_reference("level"), schema_reference("area")))},
      {"pump_curve", rising_list_of(pair_of(schema_reference("flow"), schema_reference("length")))},
      {"length_by_width", schema_text(" x ")},
      {"slope", schema_text("^.+:.+$")},
  };
}

JsonTree catalogue_size() {
  return schema_text(
      "^ *" + number_pattern +
          R"( +(in|mm) +([Ss][Ii][Dd][Rr] +[\d.]+|[Cc][Tt][Ss]|[Dd][Rr] +[\d.]+|[Pp][Ee](100|80) +[Ss][Dd][Rr] +[\d.]+|[Ss][Cc][Hh] +40 +([Pp][Vv][Cc]|[Ss][Tt][Ee][Ee][Ll])|([Ss][Uu][Cc][Tt][Ii][Oo][Nn] +)?[Hh][Oo][Ss][Ee]) *(, *.+)?$)",
      "no such size: leat pipes lists them, such as 1 in SIDR 15 or 32 mm PE100 SDR 11");
}

/// The catalogue's names but for those whose K needs a bore, which are told apart below.
JsonTree fitting() {
  std::vector<std::string> names;
  for (const CatalogueFitting& row : fitting_catalogue()) {
    if (row.name.find("BORE") == std::string::npos) {
      names.push_back(in_any_case(row.name));
    }
  }
  names.push_back("[kK] +" + number_pattern);
  const std::string changes = fmt::format("({}|{}) +{}",
                                          in_any_case("contraction from"),
                                          in_any_case("expansion to"),
                                          compound(UnitKind::Length));
  JsonTree value = JsonTree().add(
      "description",
      "A fitting, such as strainer, 2 elbow or k 1.5; leat fittings lists the names.");
  value.add_all(schema_text(fmt::format(R"(^ *(\d+ +)?({}|{}) *$)", fmt::join(names, "|"), changes),
                            "no such fitting: write strainer, 2 elbow, k 1.5, contraction from 26 "
                            "mm; leat fittings lists "
                            "the names"));
  return value;
}

/// Fittings as names, or as {name: place}.
JsonTree fittings() {
  return list_of(schema_any_of({schema_reference("fitting"),
                                object()
                                    .add("minProperties", 1)
                                    .add("maxProperties", 1)
                                    .add("additionalProperties", schema_reference("placement"))
                                    .add("propertyNames", schema_reference("fitting"))}));
}

std::vector<SchemaDefinition> pipe_parts() {
  return {
      {"placement",
       schema_any_of({JsonTree().add("enum", std::vector<JsonTree>{"start", "end"}),
                      schema_reference("length")})
           .add("errorMessage", "write start, end, or a distance along the pipe with its unit")},
      {"catalogue_size", catalogue_size()},
      {"fitting", fitting()},
      {"fittings", fittings()},
  };
}

JsonTree herd() {
  JsonTree animals;
  std::vector<std::string> names;
  for (const CatalogueAnimal& animal : herd_catalogue()) {
    const std::string what = animal.heads_per_unit > 1
                                 ? "Laying hens, each bird counted"
                                 : fmt::format("Heads of this stock: {}", animal.name);
    animals.add(animal.name,
                JsonTree()
                    .add("description", what + ": a count, or counts by month.")
                    .add("examples", std::vector<JsonTree>{24})
                    .add_all(schema_reference("count_by_month")));
    names.push_back(in_any_case(animal.name));
  }
  JsonTree any_case =
      JsonTree().add("description", "Heads; names are read without regard to case.");
  any_case.add_all(schema_reference("count_by_month"));
  return object()
      .add("properties", std::move(animals))
      .add("patternProperties",
           JsonTree().add(fmt::format("^ *({}) *$", fmt::join(names, "|")), std::move(any_case)))
      .add("additionalProperties", false);
}

JsonTree prices() {
  const JsonTree by_length = schema_text(R"(^ *[0-9.][0-9./eE+-]*( per |/| / *) *[0-9a-z].*$)",
                                         "write money for a length, such as 0.62 per ft");
  return object()
      .add("patternProperties", JsonTree().add("^ *[0-9/-]+ +([iI][nN]|[mM][mM]) ", by_length))
      .add("additionalProperties",
           JsonTree()
               .add("type", std::vector<JsonTree>{"string", "number"})
               .add("pattern", "^ *[0-9.][0-9./eE+-]*( each)? *$")
               .add("errorMessage", "write money for a piece, such as 2.40"));
}

std::vector<SchemaDefinition> catalogues() {
  return {
      {"herd", herd()},
      {"prices", prices()},
      {"stock", object().add("additionalProperties", schema_reference("length"))},
  };
}

}  // namespace

JsonTree schema_reference(std::string_view definition) {
  return JsonTree().add("$ref", fmt::format("#/definitions/{}", definition));
}

JsonTree schema_text(std::string_view pattern, std::string_view fault) {
  JsonTree text = JsonTree().add("type", "string").add("pattern", pattern);
  return fault.empty() ? text : std::move(text).add("errorMessage", fault);
}

JsonTree schema_any_of(std::vector<JsonTree> alternatives) {
  return alternatives.size() == 1 ? std::move(alternatives.front())
                                  : JsonTree().add("anyOf", std::move(alternatives));
}

std::vector<JsonTree> schema_numbers(JsonTree bounds, bool may_be_negative) {
  JsonTree number = JsonTree().add("type", "number");
  number.add_all(bounds);
  return {std::move(number), schema_text(may_be_negative ? signed_number : unsigned_number)};
}

std::vector<SchemaDefinition> value_definitions() {
  std::vector<SchemaDefinition> all;
  for (std::vector<SchemaDefinition> some :
       {quantities(), numbers_and_texts(), times(), pairs(), pipe_parts(), catalogues()}) {
    std::move(some.begin(), some.end(), std::back_inserter(all));
  }
  return all;
}

}  // namespace leat::model
