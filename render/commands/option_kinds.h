// Options by the kind of value they take: each maker says how that kind is read, refused and
// completed. The place where the value goes must outlive the option.
#pragma once

#include <charconv>
#include <cstddef>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <system_error>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "model/farm/farm.h"
#include "render/commands/option.h"

namespace leat::render {

using OptionNames = std::vector<std::string>;

/// A word and what it stands for.
template <class Value>
using Choice = std::pair<std::string_view, Value>;

/// "FLAG cannot be 'VALUE'" (code bad-value).
[[nodiscard]] UsageProblem bad_value(std::string_view flag,
                                     std::string_view value,
                                     std::string hint);

/// Two options that cannot stand together, or one that needs another (code flags-clash).
[[nodiscard]] UsageProblem flags_clash(std::string text, std::string hint);

/// A switch: on when it is given.
[[nodiscard]] Option switch_option(OptionNames names, std::string sentence, bool& is_on);

/// One of some words. All of `choices` are read; the words offered are those of the option, which
/// may leave some out. `choices` must outlive the option; `target` may be an optional.
template <class Value, class Target>
[[nodiscard]] Option word_option(OptionNames names,
                                 std::string value,
                                 std::string sentence,
                                 std::span<const Choice<Value>> choices,
                                 std::string hint,
                                 Target& target) {
  Option option;
  option.names = std::move(names);
  option.place = ValuePlace::Next;
  option.value = std::move(value);
  option.sentence = std::move(sentence);
  for (const Choice<Value>& choice : choices) {
    option.words.emplace_back(choice.first);
  }
  option.put = [flag = option.names.back(), choices, hint = std::move(hint), &target](
                   const std::string& text) -> std::optional<UsageProblem> {
    for (const Choice<Value>& choice : choices) {
      if (choice.first == text) {
        target = choice.second;
        return std::nullopt;
      }
    }
    return bad_value(flag, text, hint);
  };
  return option;
}

/// A whole number from `least` to `most`.
template <class Number>
[[nodiscard]] Option whole_number_option(OptionNames names,
                                         std::string sentence,
                                         Number least,
                                         Number most,
                                         std::optional<Number>& target) {
  Option option;
  option.names = std::move(names);
  option.place = ValuePlace::Next;
  option.value = "N";
  option.sentence = std::move(sentence);
  option.put = [flag = option.names.back(), least, most, &target](
                   const std::string& text) -> std::optional<UsageProblem> {
    Number number{};
    const char* const end = text.data() + text.size();
    const std::from_chars_result read = std::from_chars(text.data(), end, number);
    if (read.ec != std::errc() || read.ptr != end || number < least || number > most) {
      return bad_value(flag, text, fmt::format("write a whole number from {} to {}", least, most));
    }
    target = number;
    return std::nullopt;
  };
  return option;
}

/// The name of a place or a pipe, which only the farm can judge.
[[nodiscard]] Option name_option(OptionNames names,
                                 std::string value,
                                 std::string sentence,
                                 std::optional<std::string>& target);

/// Amounts with their unit, above zero.
[[nodiscard]] Option flow_option(OptionNames names,
                                 std::string sentence,
                                 std::optional<Flow>& target);
[[nodiscard]] Option pressure_option(OptionNames names,
                                     std::string sentence,
                                     std::optional<Pressure>& target);

/// A time with its unit, from a minute to a week [s].
[[nodiscard]] Option step_option(OptionNames names,
                                 std::string sentence,
                                 std::optional<double>& target_s);

/// A day of the calendar, and one that must not come before another.
[[nodiscard]] Option date_option(OptionNames names,
                                 std::string sentence,
                                 std::optional<model::Date>& target);
[[nodiscard]] Option last_date_option(OptionNames names,
                                      std::string sentence,
                                      const std::optional<model::Date>& first,
                                      std::optional<model::Date>& target);

/// Some of the `known` words, with commas between them. Others are refused as "`whole` has no
/// `part` 'x'": "a report", "chapter".
[[nodiscard]] Option list_option(OptionNames names,
                                 std::string sentence,
                                 std::string whole,
                                 std::string part,
                                 std::vector<std::string> known,
                                 std::vector<std::string>& target);

/// A file to write: its name ends in one of `endings`, or is "-" for stdout.
[[nodiscard]] Option output_option(std::string sentence,
                                   std::vector<std::string> endings,
                                   std::string& target);

/// A new farm file to write.
[[nodiscard]] Option new_farm_option(std::string sentence, std::string& target);

/// Arguments: a farm file, several of them, the name of a pipe or a run of pipes.
[[nodiscard]] Option farm_file_argument(std::string sentence, std::string& target);
[[nodiscard]] Option farm_files_argument(std::string sentence, std::vector<std::string>& target);
[[nodiscard]] Option name_argument(std::string name,
                                   std::string sentence,
                                   std::optional<std::string>& target);

/// --csv: one of the command's tables, the first where none is named. `choose` is told which.
[[nodiscard]] Option csv_option(std::string sentence,
                                std::vector<std::string> tables,
                                std::function<void(std::size_t table)> choose);

/// The same where several tables can be had: `is_asked` tells that one was asked for.
template <class Table>
[[nodiscard]] Option csv_option(std::string sentence,
                                std::span<const Choice<Table>> tables,
                                bool& is_asked,
                                Table& target) {
  std::vector<std::string> names;
  for (const Choice<Table>& table : tables) {
    names.emplace_back(table.first);
  }
  return csv_option(std::move(sentence), std::move(names), [tables, &is_asked, &target](auto at) {
    is_asked = true;
    target = tables[at].second;
  });
}

/// The same of a command with one table; `the_only_table` where it needs no name.
inline constexpr const char* the_only_table = "all";
[[nodiscard]] Option csv_option(std::string table, bool& is_asked);

}  // namespace leat::render
