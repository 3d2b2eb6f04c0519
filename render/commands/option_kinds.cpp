#include "render/commands/option_kinds.h"

#include <algorithm>
#include <variant>

#include <fmt/ranges.h>

#include "model/farm/date.h"
#include "model/quantity/quantity_text.h"
#include "model/text/nearest_word.h"

namespace leat::render {

namespace {

const std::vector<std::string> farm_file_endings = {"yaml", "yml"};

/// Takes the text as it is.
template <class Target>
auto put_into(Target& target) {
  return [&target](const std::string& text) {
    target = text;
    return std::nullopt;
  };
}

Option option_with_value(OptionNames names, std::string value, std::string sentence) {
  Option option;
  option.names = std::move(names);
  option.place = ValuePlace::Next;
  option.value = std::move(value);
  option.sentence = std::move(sentence);
  return option;
}

Option argument(std::string name, std::string sentence) {
  Option option;
  option.names = {std::move(name)};
  option.place = ValuePlace::Itself;
  option.sentence = std::move(sentence);
  return option;
}

/// Reads an amount above zero; the problem says how it is written.
template <class Value>
std::optional<UsageProblem> read_amount(const std::string& flag,
                                        const std::string& text,
                                        const model::Parsed<Value>& parsed,
                                        std::optional<Value>& target) {
  if (const auto* const problem = std::get_if<model::QuantityProblem>(&parsed)) {
    return UsageProblem{
        std::nullopt, "bad-value", fmt::format("{}: {}", flag, problem->text), problem->hint};
  }
  const Value value = std::get<Value>(parsed);
  if (!(value.in_si() > 0.0)) {
    return bad_value(flag, text, "write more than 0");
  }
  target = value;
  return std::nullopt;
}

std::optional<UsageProblem> read_date(const std::string& flag,
                                      const std::string& text,
                                      std::optional<model::Date>& target) {
  target = model::parse_date(text);
  if (!target) {
    return bad_value(
        flag, text, "write a day of the calendar as year-month-day, such as 2026-08-14");
  }
  return std::nullopt;
}

std::string_view without_blanks_around(std::string_view text) {
  const std::size_t first = text.find_first_not_of(' ');
  return first == std::string_view::npos
             ? std::string_view()
             : text.substr(first, text.find_last_not_of(' ') + 1 - first);
}

/// "write --csv=places, --csv=pipes or --csv=flags": all the tables the command has.
std::string csv_hint(const std::vector<std::string>& tables) {
  if (tables.size() == 1) {
    return tables.front() == the_only_table
               ? "write --csv alone"
               : fmt::format("write --csv or --csv={}", tables.front());
  }
  std::string text = "write ";
  for (std::size_t i = 0; i < tables.size(); ++i) {
    const char* const joint = i == 0 ? "" : i + 1 < tables.size() ? ", " : " or ";
    text += fmt::format("{}--csv={}", joint, tables[i]);
  }
  return text;
}

}  // namespace

UsageProblem bad_value(std::string_view flag, std::string_view value, std::string hint) {
  return {
      std::nullopt, "bad-value", fmt::format("{} cannot be '{}'", flag, value), std::move(hint)};
}

UsageProblem flags_clash(std::string text, std::string hint) {
  return {std::nullopt, "flags-clash", std::move(text), std::move(hint)};
}

Option switch_option(OptionNames names, std::string sentence, bool& is_on) {
  Option option;
  option.names = std::move(names);
  option.sentence = std::move(sentence);
  option.put = [&is_on](const std::string& /*value*/) {
    is_on = true;
    return std::nullopt;
  };
  return option;
}

Option name_option(OptionNames names,
                   std::string value,
                   std::string sentence,
                   std::optional<std::string>& target) {
  Option option = option_with_value(std::move(names), std::move(value), std::move(sentence));
  option.put = put_into(target);
  return option;
}

Option flow_option(OptionNames names, std::string sentence, std::optional<Flow>& target) {
  Option option = option_with_value(std::move(names), "FLOW", std::move(sentence));
  option.put = [flag = option.names.back(), &target](const std::string& text) {
    return read_amount(flag, text, model::parse_flow(text), target);
  };
  return option;
}

Option pressure_option(OptionNames names, std::string sentence, std::optional<Pressure>& target) {
  Option option = option_with_value(std::move(names), "PRESSURE", std::move(sentence));
  option.put = [flag = option.names.back(), &target](const std::string& text) {
    return read_amount(flag, text, model::parse_pressure(text), target);
  };
  return option;
}

Option step_option(OptionNames names, std::string sentence, std::optional<double>& target_s) {
  Option option = option_with_value(std::move(names), "TIME", std::move(sentence));
  option.put = [flag = option.names.back(),
                &target_s](const std::string& text) -> std::optional<UsageProblem> {
    std::optional<Duration> step;
    if (auto problem = read_amount(flag, text, model::parse_duration(text), step)) {
      return problem;
    }
    constexpr double shortest_s = 60.0;
    constexpr double longest_s = 7.0 * 86400.0;
    target_s = in_seconds(*step);
    if (*target_s < shortest_s || *target_s > longest_s) {
      return bad_value(flag, text, "write from 1 min to 7 day; 1 h does for most farms");
    }
    return std::nullopt;
  };
  return option;
}

Option date_option(OptionNames names, std::string sentence, std::optional<model::Date>& target) {
  Option option = option_with_value(std::move(names), "DATE", std::move(sentence));
  option.put = [flag = option.names.back(), &target](const std::string& text) {
    return read_date(flag, text, target);
  };
  return option;
}

Option last_date_option(OptionNames names,
                        std::string sentence,
                        const std::optional<model::Date>& first,
                        std::optional<model::Date>& target) {
  Option option = option_with_value(std::move(names), "DATE", std::move(sentence));
  option.put = [flag = option.names.back(), &first, &target](
                   const std::string& text) -> std::optional<UsageProblem> {
    if (auto problem = read_date(flag, text, target)) {
      return problem;
    }
    if (first && *target < *first) {
      return UsageProblem{
          std::nullopt,
          "bad-value",
          fmt::format("{} {} comes before --from {}", flag, text, model::date_text(*first)),
          "a season over the turn of a year runs as from 2026-11-01 to 2027-03-31"};
    }
    return std::nullopt;
  };
  return option;
}

Option list_option(OptionNames names,
                   std::string sentence,
                   std::string whole,
                   std::string part,
                   std::vector<std::string> known,
                   std::vector<std::string>& target) {
  Option option = option_with_value(std::move(names), "LIST", std::move(sentence));
  option.words = std::move(known);
  option.put = [words = option.words, whole = std::move(whole), part = std::move(part), &target](
                   const std::string& text) -> std::optional<UsageProblem> {
    std::string_view rest = text;
    for (;;) {
      const std::size_t comma = rest.find(',');
      const std::string name(without_blanks_around(rest.substr(0, comma)));
      if (std::find(words.begin(), words.end(), name) == words.end()) {
        const std::optional<std::string> nearest = model::nearest_word(name, words);
        return UsageProblem{std::nullopt,
                            "bad-value",
                            fmt::format("{} has no {} '{}'", whole, part, name),
                            nearest ? fmt::format("did you mean '{}'?", *nearest)
                                    : fmt::format("its {}s: {}", part, fmt::join(words, ", "))};
      }
      target.push_back(name);
      if (comma == std::string_view::npos) {
        return std::nullopt;
      }
      rest.remove_prefix(comma + 1);
    }
  };
  return option;
}

Option output_option(std::string sentence, std::vector<std::string> endings, std::string& target) {
  Option option = option_with_value({"-o", "--output"}, "OUT", std::move(sentence));
  option.endings = std::move(endings);
  option.put = put_into(target);
  return option;
}

Option new_farm_option(std::string sentence, std::string& target) {
  Option option = option_with_value({"--write"}, "NEW", std::move(sentence));
  option.endings = farm_file_endings;
  option.put = put_into(target);
  return option;
}

Option farm_file_argument(std::string sentence, std::string& target) {
  Option option = argument("FILE", std::move(sentence));
  option.endings = farm_file_endings;
  option.put = put_into(target);
  return option;
}

Option farm_files_argument(std::string sentence, std::vector<std::string>& target) {
  Option option = argument("FILES", std::move(sentence));
  option.place = ValuePlace::ItselfRepeated;
  option.endings = farm_file_endings;
  option.put = [&target](const std::string& text) {
    target.push_back(text);
    return std::nullopt;
  };
  return option;
}

Option name_argument(std::string name, std::string sentence, std::optional<std::string>& target) {
  Option option = argument(std::move(name), std::move(sentence));
  option.is_optional = true;
  option.put = put_into(target);
  return option;
}

Option csv_option(std::string sentence,
                  std::vector<std::string> tables,
                  std::function<void(std::size_t table)> choose) {
  Option option;
  option.names = {"--csv"};
  option.place = ValuePlace::BehindEquals;
  option.sentence = std::move(sentence);
  option.usual = tables.front();
  if (tables.size() > 1) {
    option.value = "TABLE";
    option.words = tables;
  }
  option.put = [tables = std::move(tables), choose = std::move(choose)](
                   const std::string& text) -> std::optional<UsageProblem> {
    const auto found = std::find(tables.begin(), tables.end(), text);
    if (found == tables.end()) {
      return bad_value("--csv", text, csv_hint(tables));
    }
    choose(static_cast<std::size_t>(found - tables.begin()));
    return std::nullopt;
  };
  return option;
}

Option csv_option(std::string table, bool& is_asked) {
  return csv_option(
      "print CSV", {std::move(table)}, [&is_asked](std::size_t /*table*/) { is_asked = true; });
}

}  // namespace leat::render
