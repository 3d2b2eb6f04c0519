#include "render/cli/parse.h"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <fmt/ranges.h>

#include "model/text/nearest_word.h"
#include "render/cli/completion.h"
#include "render/cli/help.h"
#include "render/cli/manual_page.h"
#include "render/commands/registry.h"

namespace leat::render {

namespace {

/// What CLI11 finds of one option.
struct Found {
  bool is_on = false;              // a switch
  std::string text;                // the value; empty: none
  std::vector<std::string> texts;  // of an argument that may stand several times
};

std::string nearest_hint(std::string_view word, const std::vector<std::string>& candidates) {
  const std::optional<std::string> nearest = model::nearest_word(word, candidates);
  return nearest ? fmt::format("did you mean '{}'?", *nearest) : std::string();
}

UsageProblem unknown_command(const std::string& word) {
  std::vector<std::string> words;
  for (const auto& command : all_commands()) {
    words.emplace_back(command->head().word);
  }
  return {word,
          "unknown-command",
          fmt::format("there is no command '{}'", word),
          nearest_hint(word, words)};
}

/// Tells CLI11 of the options; `found` is filled when `app` parses, in the same order.
void declare(CLI::App& app, const std::vector<Option>& options, std::vector<Found>& found) {
  app.set_help_flag();
  app.allow_extras();
  for (std::size_t i = 0; i < options.size(); ++i) {
    const std::string names = fmt::format("{}", fmt::join(options[i].names, ","));
    if (options[i].place == ValuePlace::Nowhere) {
      app.add_flag(names, found[i].is_on)->multi_option_policy(CLI::MultiOptionPolicy::TakeLast);
    } else if (options[i].is_repeated()) {
      app.add_option(names, found[i].texts);
    } else {
      app.add_option(names, found[i].text)->multi_option_policy(CLI::MultiOptionPolicy::TakeLast);
    }
  }
}

/// An argument nothing has taken.
std::optional<UsageProblem> extra_argument(std::string_view command,
                                           const std::vector<Option>& options,
                                           const CLI::App& app) {
  std::vector<std::string> extras = app.remaining();
  // CLI11 counts the mark that ends the flags among what is left over.
  extras.erase(std::remove(extras.begin(), extras.end(), "--"), extras.end());
  if (extras.empty()) {
    return std::nullopt;
  }
  const std::string& extra = extras.front();
  if (extra.size() > 1 && extra.front() == '-') {
    std::vector<std::string> flags;
    for (const Option& option : options) {
      if (!option.is_argument()) {
        flags.push_back(option.names.back());
      }
    }
    const std::string flag = extra.substr(0, extra.find('='));
    return UsageProblem{std::nullopt,
                        "unknown-flag",
                        fmt::format("'leat {}' has no flag '{}'", command, flag),
                        nearest_hint(flag, flags)};
  }
  return UsageProblem{std::nullopt,
                      "extra-argument",
                      fmt::format("'{}' is one word too many for 'leat {}'", extra, command),
                      "put quotes around a name with spaces"};
}

/// A flag given twice that has a value.
std::optional<UsageProblem> repeated_flag(const CLI::App& app) {
  for (const CLI::Option* option : app.get_options()) {
    const bool takes_several = option->get_expected_max() > 1;
    if (!takes_several && option->get_expected_min() > 0 && option->count() > 1) {
      return UsageProblem{std::nullopt,
                          "repeated-flag",
                          fmt::format("{} is given more than once", option->get_name()),
                          ""};
    }
  }
  return std::nullopt;
}

bool looks_like_number(const std::string& text) {
  return !text.empty() && text.find_first_not_of("0123456789.,+-e") == std::string::npos;
}

/// The option whose value may be left out, by its name.
const Option* option_with_usual_value(const std::vector<Option>& options, const std::string& name) {
  const auto option = std::find_if(options.begin(), options.end(), [&](const Option& each) {
    return !each.usual.empty() && each.names.back() == name;
  });
  return option == options.end() ? nullptr : &*option;
}

/// The arguments after the command, last first as CLI11 takes them, options that stand without
/// their value given the usual one (else they would swallow the word after them).
std::vector<std::string> for_parser(const std::vector<Option>& options,
                                    std::span<const std::string> arguments) {
  std::vector<std::string> reversed;
  bool flags_end = false;
  for (std::size_t i = 0; i < arguments.size(); ++i) {
    const std::string& argument = arguments[i];
    flags_end = flags_end || argument == "--";
    const Option* const option = flags_end ? nullptr : option_with_usual_value(options, argument);
    if (option == nullptr) {
      reversed.push_back(argument);
    } else if (option->place == ValuePlace::NumberNext && i + 1 < arguments.size() &&
               looks_like_number(arguments[i + 1])) {
      reversed.push_back(fmt::format("{}={}", argument, arguments[++i]));
    } else {
      reversed.push_back(fmt::format("{}={}", argument, option->usual));
    }
  }
  std::reverse(reversed.begin(), reversed.end());
  return reversed;
}

/// Gives the options what was found; the first problem otherwise. An empty value is as none.
std::optional<UsageProblem> put_values(const std::vector<Option>& options,
                                       const std::vector<Found>& found) {
  for (std::size_t i = 0; i < options.size(); ++i) {
    std::vector<std::string> values = found[i].texts;
    if (found[i].is_on || !found[i].text.empty()) {
      values.push_back(found[i].text);
    }
    for (const std::string& value : values) {
      if (auto problem = options[i].put(value)) {
        return problem;
      }
    }
  }
  return std::nullopt;
}

/// Reads what follows the command's word into the command.
std::optional<UsageProblem> read_arguments(Command& command,
                                           std::span<const std::string> arguments) {
  const std::vector<Option> options = command.options();
  std::vector<Found> found(options.size());
  CLI::App app;
  declare(app, options, found);
  try {
    app.parse(for_parser(options, arguments));
  } catch (const CLI::ArgumentMismatch& mismatch) {
    const std::string message = mismatch.what();
    return UsageProblem{std::nullopt,
                        "missing-value",
                        fmt::format("{} wants a value", message.substr(0, message.find(':'))),
                        ""};
  } catch (const CLI::ParseError&) {
    return UsageProblem{std::nullopt, "bad-flag", "a flag is not written as leat reads it", ""};
  }
  command.help = found.front().is_on;  // --help is every command's first option
  if (command.help) {
    return std::nullopt;
  }
  std::optional<UsageProblem> problem = extra_argument(command.head().word, options, app);
  if (!problem) {
    problem = repeated_flag(app);
  }
  if (!problem) {
    problem = put_values(options, found);
  }
  return problem ? problem : command.check();
}

ParsedCommandLine parse_command(std::unique_ptr<Command> command,
                                std::span<const std::string> arguments) {
  if (std::optional<UsageProblem> problem = read_arguments(*command, arguments)) {
    problem->command = std::string(command->head().word);
    return *std::move(problem);
  }
  if (command->help) {
    return Explanation{help_of(*command)};
  }
  return command;
}

ParsedCommandLine completion_of(std::span<const std::string> shells) {
  const std::string shell = shells.size() == 1 ? shells.front() : "";
  if (shell == "bash") {
    return Explanation{bash_completion()};
  }
  if (shell == "zsh") {
    return Explanation{zsh_completion()};
  }
  return UsageProblem{std::nullopt,
                      "bad-value",
                      shell.empty() ? "--completion wants the name of one shell"
                                    : fmt::format("--completion cannot be '{}'", shell),
                      "write --completion bash or --completion zsh"};
}

}  // namespace

ParsedCommandLine parse_command_line(std::span<const std::string> arguments) {
  if (arguments.empty()) {
    return UsageProblem{std::nullopt, "no-command", "no command is given", ""};
  }
  const std::string& word = arguments.front();
  if (word == "--help" || word == "-h" || word == "help") {
    return Explanation{overview()};
  }
  if (word == "--version") {
    return Explanation{version_text()};
  }
  if (word == "--manual") {
    return Explanation{manual_page()};
  }
  if (word == "--completion") {
    return completion_of(arguments.subspan(1));
  }
  for (std::unique_ptr<Command>& command : all_commands()) {
    if (command->head().word == word) {
      return parse_command(std::move(command), arguments.subspan(1));
    }
  }
  if (word.size() > 1 && word.front() == '-') {
    return UsageProblem{std::nullopt,
                        "no-command",
                        fmt::format("'{}' stands where the command should", word),
                        "the command comes first, as in leat solve FILE --json"};
  }
  return unknown_command(word);
}

bool asks_for_json(std::span<const std::string> arguments) {
  for (const std::string& argument : arguments) {
    if (argument == "--") {
      return false;
    }
    if (argument == "--json") {
      return true;
    }
  }
  return false;
}

}  // namespace leat::render
