// What CSV prints is what JSON of the same run holds, rounded: every command, every farm.
#include <cmath>
#include <cstdlib>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/render/all_farms.h"
#include "tests/render/run_words.h"

namespace leat::render {

namespace {

using Json = nlohmann::ordered_json;
using Words = std::vector<std::string>;

/// A run, what makes CSV of it, and the lists of its JSON whose objects are the rows:
/// "troughs/months" are the months of each trough, with the trough's keys where they have none of
/// their own.
struct Projection {
  Words words;
  std::string csv;
  Words lists;
};

const Words three_days = {"--from", "2026-08-01", "--to", "2026-08-03", "--step", "6 h"};

Words joined(Words words, const Words& more) {
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

std::vector<Projection> runs_on(const std::string& farm) {
  const Words season = joined({"season", farm}, three_days);
  const Words spread = joined(season, {"--spread", "2"});
  return {{{"solve", farm}, "--csv", {"places"}},
          {{"solve", farm}, "--csv=pipes", {"pipes"}},
          {{"solve", farm}, "--csv=flags", {"flags"}},
          {{"solve", farm, "--case", "static"}, "--csv", {"places"}},
          {{"solve", farm, "--spread", "5"}, "--csv", {"places"}},
          {{"read", farm}, "--csv", {"pipes"}},
          {{"profile", farm}, "--csv", {"points"}},
          {season, "--csv", {"troughs/months"}},
          {season, "--csv=tanks", {"tanks"}},
          {season, "--csv=ponds", {"ponds"}},
          {season, "--csv=levels", {"tanks/levels", "ponds/levels"}},
          {season, "--csv=balance", {"balance"}},
          {spread, "--csv", {"troughs"}},
          {spread, "--csv=tanks", {"tanks"}},
          {spread, "--csv=ponds", {"ponds"}},
          {joined({"compare", farm, farm}, three_days), "--csv", {"farms"}},
          {{"improve", farm}, "--csv", {"changes"}},
          {{"size", farm}, "--csv", {"runs/parts"}},
          {{"fit", farm}, "--csv", {"causes"}}};
}

/// Lines of cells, quotes taken off.
std::vector<Words> cells_of(const std::string& csv) {
  std::vector<Words> lines;
  bool quoted = false;
  bool begun = false;
  for (std::size_t i = 0; i < csv.size(); ++i) {
    const char letter = csv[i];
    if (!begun) {
      lines.push_back({""});
      begun = true;
    }
    if (quoted && letter == '"' && i + 1 < csv.size() && csv[i + 1] == '"') {
      lines.back().back() += '"';
      ++i;
    } else if (letter == '"') {
      quoted = !quoted;
    } else if (!quoted && letter == ',') {
      lines.back().emplace_back();
    } else if (!quoted && letter == '\n') {
      begun = false;
    } else {
      lines.back().back() += letter;
    }
  }
  return lines;
}

/// The objects of a list. Those within objects get the keys of these, where they have none such.
void add_rows(const Json& object, const std::string& list, std::vector<Json>& rows) {
  const std::size_t slash = list.find('/');
  const Json& found = object.at(list.substr(0, slash));
  if (found.is_object()) {
    rows.push_back(found);
    return;
  }
  for (const Json& row : found) {
    if (slash == std::string::npos) {
      rows.push_back(row);
      continue;
    }
    for (const Json& part : row.at(list.substr(slash + 1))) {
      rows.push_back(row);
      rows.back().update(part);
    }
  }
}

/// The value under a heading: the row's own, or "summit_at_m" as at_m of summit.
const Json* value_under(const Json& row, const std::string& heading) {
  if (row.contains(heading)) {
    return &row.at(heading);
  }
  static const Json none = nullptr;
  for (const auto& [key, value] : row.items()) {
    if (heading.starts_with(key + "_")) {
      const std::string rest = heading.substr(key.size() + 1);
      if (value.is_null()) {
        return &none;
      }
      if (value.is_object() && value.contains(rest)) {
        return &value.at(rest);
      }
    }
  }
  return nullptr;
}

bool is_rounded(const std::string& cell, double value) {
  char* end = nullptr;
  const double shown = std::strtod(cell.c_str(), &end);
  if (cell.empty() || *end != '\0') {
    return false;
  }
  const std::size_t point = cell.find('.');
  const double decimals =
      point == std::string::npos ? 0.0 : static_cast<double>(cell.size() - point - 1);
  // JSON of the catalogues holds nine digits, CSV more.
  return std::abs(shown - value) <= 0.5 * std::pow(10.0, -decimals) + 5e-9 * std::abs(value);
}

std::string text_of(const Json& value) {
  return value.is_string() ? value.get<std::string>() : value.dump();
}

/// Several values in one cell: texts with "; " between, numbers with blanks, flags "code at place".
std::string cell_of_list(const Json& list) {
  std::string cell;
  for (const Json& part : list) {
    cell += cell.empty() ? "" : part.is_number() ? " " : "; ";
    cell += part.is_object() ? text_of(part.at("code")) + " at " + text_of(part.at("where"))
                             : text_of(part);
  }
  return cell;
}

bool says(const std::string& cell, const Json& value) {
  if (value.is_null()) {
    return cell.empty();
  }
  if (value.is_number()) {
    return is_rounded(cell, value.get<double>());
  }
  return cell == (value.is_array() ? cell_of_list(value) : text_of(value));
}

void check_projection(const Projection& run) {
  CAPTURE(run.words, run.csv);
  const Outcome csv = run_words(joined(run.words, {run.csv}));
  const Outcome json = run_words(joined(run.words, {"--json"}));
  CHECK(csv.status == json.status);
  if (json.status > 1) {
    CHECK(csv.out.empty());
    return;
  }
  const Json object = Json::parse(json.out);
  std::vector<Json> rows;
  for (const std::string& list : run.lists) {
    add_rows(object, list, rows);
  }
  const std::vector<Words> lines = cells_of(csv.out);
  REQUIRE(lines.size() == rows.size() + 1);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    REQUIRE(lines[i + 1].size() == lines[0].size());
    for (std::size_t j = 0; j < lines[0].size(); ++j) {
      CAPTURE(i, lines[0][j], lines[i + 1][j]);
      const Json* const value = value_under(rows[i], lines[0][j]);
      REQUIRE(value != nullptr);
      CHECK(says(lines[i + 1][j], *value));
    }
  }
}

}  // namespace

TEST_CASE("what CSV prints of a farm is what JSON holds, rounded") {
  for (const char* const folder : {"networks-demo", "tests/farms"}) {
    for (const std::string& farm : farms_in(folder)) {
      for (const Projection& run : runs_on(farm)) {
        check_projection(run);
      }
    }
  }
}

TEST_CASE("what CSV prints of a catalogue is what JSON holds, rounded") {
  for (const char* const command : {"pipes", "fittings", "herd"}) {
    check_projection({{command}, "--csv", {command}});
  }
}

}  // namespace leat::render
