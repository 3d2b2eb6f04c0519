// The columns of an answer, described once: of one list are made a JSON object, a CSV line, the
// cells of a table on the screen and the table of keys in OUTPUT.md.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "render/document/csv_text.h"
#include "render/document/json_text.h"
#include "render/document/key_table.h"
#include "render/document/scale.h"
#include "render/document/text_table.h"

namespace leat::render {

/// A member of what a row carries as its `answer`.
template <class Answer, class Member>
auto in_answer(Member Answer::*member) {
  return [member](const auto& row) { return row.answer.*member; };
}

/// One column of rows of a kind. Its readers may be members of the row.
template <class Row>
struct Column {
  std::string key;
  std::string meaning;
  std::function<Json(const Row&)> json;
  /// The figure in SI; none for what is no figure.
  std::function<std::optional<double>(const Row&)> figure;
  Scale scale;
  std::vector<std::string> csv_keys;  // none: only in JSON
  std::vector<int> csv_decimals;      // beside them
  /// How CSV writes what JSON holds in several values; absent for all others.
  std::function<std::string(const Json&)> one_cell;
  std::vector<ToldKey> parts;  // keys of the objects in it

  /// A figure [SI], null where absent or not finite.
  template <class Figure>
  static Column number(std::string key, Scale scale, Figure figure, std::string meaning = "") {
    Column column;
    column.json = [figure, scale](const Row& row) {
      const std::optional<double> si = std::invoke(figure, row);
      return si ? json_number(scale.printed(*si)) : Json(nullptr);
    };
    column.figure = figure;
    column.scale = scale;
    column.csv_keys = {key};
    column.csv_decimals = {scale.decimals};
    column.key = std::move(key);
    column.meaning = std::move(meaning);
    return column;
  }

  /// Anything else that JSON holds in one value: text, true or false, a count, a list of texts.
  template <class Value>
  static Column value(std::string key, Value value, std::string meaning = "") {
    Column column;
    column.json = [value](const Row& row) { return Json(std::invoke(value, row)); };
    column.csv_keys = {key};
    column.csv_decimals = {usual_csv_decimals};
    column.key = std::move(key);
    column.meaning = std::move(meaning);
    return column;
  }

  /// Text, null where it is empty.
  template <class Text>
  static Column text_or_null(std::string key, Text text, std::string meaning = "") {
    return value(
        std::move(key),
        [text](const Row& row) {
          const std::string found(std::invoke(text, row));
          return found.empty() ? Json(nullptr) : Json(found);
        },
        std::move(meaning));
  }

  /// An object of its own columns, or null. In CSV its keys follow the column's: summit_at_m.
  template <class Part, class Find>
  static Column object(std::string key,
                       const std::vector<Column<Part>>& columns,
                       Find find,  // gives std::optional<Part>
                       std::string meaning = "");

  /// A list of objects; CSV leaves it out.
  template <class Part, class List>
  static Column list(std::string key,
                     const std::vector<Column<Part>>& columns,
                     List list,  // gives std::vector<Part>
                     std::string meaning = "");

  /// The same column where CSV has it in one cell, written so.
  [[nodiscard]] Column in_csv_as(std::function<std::string(const Json&)> cell) const {
    Column column = *this;
    column.csv_keys = {key};
    column.one_cell = std::move(cell);
    return column;
  }

  /// The same column where CSV leaves it out.
  [[nodiscard]] Column only_in_json() const {
    Column column = *this;
    column.csv_keys.clear();
    column.csv_decimals.clear();
    return column;
  }
};

template <class Row>
using Columns = std::vector<Column<Row>>;

/// Two lists as one.
template <class Row>
Columns<Row> joined(Columns<Row> first, const Columns<Row>& second) {
  first.insert(first.end(), second.begin(), second.end());
  return first;
}

/// One row as an object.
template <class Row>
Json json_row(const Columns<Row>& columns, const Row& row) {
  Json object = Json::object();
  for (const Column<Row>& column : columns) {
    object[column.key] = column.json(row);
  }
  return object;
}

/// Rows as a list of objects.
template <class Row>
Json json_rows(const Columns<Row>& columns, const std::vector<Row>& rows) {
  Json list = Json::array();
  for (const Row& row : rows) {
    list.push_back(json_row(columns, row));
  }
  return list;
}

/// The cells of CSV's heading line.
template <class Row>
std::vector<std::string> csv_headings(const Columns<Row>& columns) {
  std::vector<std::string> headings;
  for (const Column<Row>& column : columns) {
    headings.insert(headings.end(), column.csv_keys.begin(), column.csv_keys.end());
  }
  return headings;
}

/// The cells of one line, made of the row's JSON.
template <class Row>
std::vector<std::string> csv_cells(const Columns<Row>& columns, const Row& row) {
  std::vector<std::string> cells;
  for (const Column<Row>& column : columns) {
    if (column.csv_keys.empty()) {
      continue;
    }
    const Json value = column.json(row);
    if (column.one_cell) {
      cells.push_back(column.one_cell(value));
      continue;
    }
    if (column.parts.empty()) {
      cells.push_back(csv_cell(value, column.csv_decimals.front()));
      continue;
    }
    for (std::size_t i = 0; i < column.csv_keys.size(); ++i) {
      cells.push_back(
          value.is_null() ? "" : csv_cell(value.at(column.parts[i].key), column.csv_decimals[i]));
    }
  }
  return cells;
}

/// Heading line and a line a row.
template <class Row>
std::string csv_text(const Columns<Row>& columns, const std::vector<Row>& rows) {
  std::string text = csv_line(csv_headings(columns));
  for (const Row& row : rows) {
    text += csv_line(csv_cells(columns, row));
  }
  return text;
}

template <class Row>
std::vector<ToldKey> told_keys(const Columns<Row>& columns) {
  std::vector<ToldKey> keys;
  for (const Column<Row>& column : columns) {
    keys.push_back({column.key, meaning_with_keys(column.meaning, column.parts)});
  }
  return keys;
}

/// A column of a table on the screen: whose figure or text it shows, under which heading, and where
/// the column's own cell will not do, how.
template <class Row>
struct Shown {
  std::string heading;
  std::string key;
  std::function<std::string(const Row&, model::UnitSystem)> cell{};
  std::optional<Align> align{};  // figures to the right, all else to the left, unless said
};

/// The column of that key. Throws std::logic_error where there is none, a fault of the program.
template <class Row>
const Column<Row>& column_of(const Columns<Row>& columns, std::string_view key) {
  for (const Column<Row>& column : columns) {
    if (column.key == key) {
      return column;
    }
  }
  throw std::logic_error("no column " + std::string(key));
}

/// What the column itself makes of a row's cell.
template <class Row>
std::string screen_cell(const Column<Row>& column, const Row& row, model::UnitSystem units) {
  if (column.figure && column.scale.cell != nullptr) {
    return column.scale.cell(column.figure(row), units);
  }
  const Json value = column.json(row);
  return value.is_null() ? "-" : csv_cell(value, column.scale.decimals);
}

/// The headings of a table; figures stand to the right.
template <class Row>
std::vector<Heading> screen_headings(const Columns<Row>& columns,
                                     const std::vector<Shown<Row>>& shown) {
  std::vector<Heading> headings;
  for (const Shown<Row>& each : shown) {
    const bool is_figure = static_cast<bool>(column_of(columns, each.key).figure);
    const Align usual = is_figure ? Align::Right : Align::Left;
    headings.push_back({each.heading, each.align.value_or(usual)});
  }
  return headings;
}

/// One row of a table.
template <class Row>
std::vector<std::string> screen_cells(const Columns<Row>& columns,
                                      const std::vector<Shown<Row>>& shown,
                                      const Row& row,
                                      model::UnitSystem units) {
  std::vector<std::string> cells;
  for (const Shown<Row>& each : shown) {
    cells.push_back(each.cell ? each.cell(row, units)
                              : screen_cell(column_of(columns, each.key), row, units));
  }
  return cells;
}

/// Rows as a table of the screen.
template <class Row>
TextTable table_of(const Columns<Row>& columns,
                   const std::vector<Shown<Row>>& shown,
                   const std::vector<Row>& rows,
                   model::UnitSystem units) {
  TextTable table{screen_headings(columns, shown), {}};
  for (const Row& row : rows) {
    table.rows.push_back(screen_cells(columns, shown, row, units));
  }
  return table;
}

template <class Row>
template <class Part, class Find>
Column<Row> Column<Row>::object(std::string key,
                                const std::vector<Column<Part>>& columns,
                                Find find,
                                std::string meaning) {
  Column column;
  column.json = [find, columns](const Row& row) {
    const std::optional<Part> part = std::invoke(find, row);
    return part ? json_row(columns, *part) : Json(nullptr);
  };
  column.parts = told_keys(columns);
  for (const Column<Part>& part : columns) {
    column.csv_keys.push_back(key + '_' + part.key);
    column.csv_decimals.push_back(part.scale.decimals);
  }
  column.key = std::move(key);
  column.meaning = std::move(meaning);
  return column;
}

template <class Row>
template <class Part, class List>
Column<Row> Column<Row>::list(std::string key,
                              const std::vector<Column<Part>>& columns,
                              List list,
                              std::string meaning) {
  Column column;
  column.json = [list, columns](const Row& row) {
    return json_rows(columns, std::invoke(list, row));
  };
  column.parts = told_keys(columns);
  column.key = std::move(key);
  column.meaning = std::move(meaning);
  return column;
}

}  // namespace leat::render
