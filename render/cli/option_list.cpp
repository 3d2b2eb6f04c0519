#include "render/cli/option_list.h"

#include <cctype>
#include <span>
#include <string_view>

#include <CLI/CLI.hpp>

#include "model/farm/month_series.h"
#include "render/cli/command_table.h"
#include "render/cli/option_words.h"
#include "render/commands/report/report.h"

namespace leat::render {

namespace {

/// The endings that a sentence such as "name.svg, .pdf or .png" tells, without their dots.
std::vector<std::string> endings_told(std::string_view sentence) {
  std::vector<std::string> endings;
  for (std::size_t at = sentence.find('.'); at != std::string_view::npos;
       at = sentence.find('.', at + 1)) {
    std::size_t end = at + 1;
    while (end < sentence.size() && std::islower(static_cast<unsigned char>(sentence[end])) != 0) {
      ++end;
    }
    if (end > at + 1) {
      endings.emplace_back(sentence.substr(at + 1, end - at - 1));
    }
  }
  return endings;
}

std::vector<std::string> words_of(Command command, const OptionEntry& option) {
  std::vector<std::string> words;
  if (option.value == "CASE") {
    for (const auto& choice : load_cases) {
      // A command that cannot do with a case leaves it out of its sentence.
      if (option.sentence.find(choice.first) != std::string::npos) {
        words.emplace_back(choice.first);
      }
    }
  } else if (option.value == "UNITS") {
    words = {std::string(unit_systems[0].first), std::string(unit_systems[1].first)};
  } else if (option.value == "MONTH") {
    words.assign(model::month_names.begin(), model::month_names.end());
  } else if (option.value == "LIST") {
    words.assign(report::chapter_names.begin(), report::chapter_names.end());
  } else if (option.value == "[=TABLE]") {
    for (const auto& form : csv_forms(command)) {
      words.emplace_back(form.first);
    }
  }
  return words;
}

std::vector<std::string> endings_of(const OptionEntry& option) {
  const std::string& name = option.names.front();
  if (option.value == "NEW" || (option.is_argument && (name == "FILE" || name == "FILES"))) {
    return {"yaml", "yml"};
  }
  return option.value == "OUT" ? endings_told(option.sentence) : std::vector<std::string>();
}

}  // namespace

std::vector<OptionEntry> options_of_command(Command command) {
  RawOptions unread;
  CLI::App app;
  declare_options(app, command, unread);
  std::vector<OptionEntry> entries;
  bool has_argument = false;
  for (const CLI::Option* const option : app.get_options()) {
    OptionEntry entry;
    for (const std::string& name : option->get_snames()) {
      entry.names.push_back("-" + name);
    }
    for (const std::string& name : option->get_lnames()) {
      entry.names.push_back("--" + name);
    }
    entry.is_argument = entry.names.empty();
    if (entry.is_argument) {
      entry.names.push_back(option->get_name(true));
      // A farm file is wanted, what may stand behind it is not.
      entry.is_optional = command == Command::New || has_argument;
      has_argument = true;
      entry.is_repeated = option->get_expected_max() > 1;
    }
    entry.value = option->get_type_name();
    entry.sentence = option->get_description();
    entry.words = words_of(command, entry);
    entry.endings = endings_of(entry);
    entries.push_back(std::move(entry));
  }
  return entries;
}

bool wants_value(const OptionEntry& option) {
  return !option.value.empty() && option.value.front() != '[';
}

bool may_have_value(const OptionEntry& option) {
  return !option.value.empty() && option.value.front() == '[';
}

}  // namespace leat::render
