#include "render/cli/help.h"

#include <string_view>
#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "render/commands/registry.h"
#include "render/io/installed_files.h"
#include "version.h"

namespace leat::render {

namespace {

constexpr std::string_view exit_status_help =
    "Exit status: 0 solved and nothing amiss that leat checks, 1 something starves or is flagged,\n"
    "2 the file, the command or the solution failed, 70 a fault of leat itself.\n";

/// "-o,--output OUT", "--csv [=TABLE]", "--spread [N]".
std::string option_term(const Option& option) {
  const std::string names = fmt::format("{}", fmt::join(option.names, ","));
  if (option.is_repeated()) {
    return names + " ...";
  }
  if (option.may_have_value()) {
    const char* const equals = option.place == ValuePlace::BehindEquals ? "=" : "";
    return fmt::format("{} [{}{}]", names, equals, option.value);
  }
  return option.value.empty() ? names : fmt::format("{} {}", names, option.value);
}

/// A term and, in a column of its own, what it means; below it where the term is too long.
std::string help_line(const std::string& term, std::string_view meaning) {
  constexpr std::size_t column = 30;
  const std::string start = "  " + term;
  return start.size() < column ? fmt::format("{:<{}}{}\n", start, column, meaning)
                               : fmt::format("{}\n{:<{}}{}\n", start, "", column, meaning);
}

}  // namespace

std::string overview() {
  std::string text =
      "leat: gravity water for a small farm\n\nUsage: leat COMMAND [FILE] [FLAGS]\n\n";
  for (const auto& command : all_commands()) {
    const CommandHead head = command->head();
    text += fmt::format("  {:<9} {}\n", head.word, head.summary);
  }
  text += "\n  leat COMMAND --help   says what a command takes\n";
  text += "  leat --version        prints the version, and where the demo farms are\n";
  text +=
      "  leat --manual         prints the manual page; read it with: leat --manual | man -l -\n";
  text += "  leat --completion bash (or zsh)  prints what the shell needs to complete words\n\n";
  text += "Examples:\n";
  text += "  leat new my-farm.yaml\n  leat solve my-farm.yaml\n\n";
  return text.append(exit_status_help);
}

std::string help_of(Command& command) {
  const CommandHead head = command.head();
  std::string usage = fmt::format("Usage: leat {} [OPTIONS]", head.word);
  std::string arguments;
  std::string options;
  for (const Option& option : command.options()) {
    if (option.is_argument()) {
      usage += fmt::format(" [{}{}]", option.names.front(), option.is_repeated() ? "..." : "");
      arguments += help_line(option_term(option), option.sentence);
    } else {
      options += help_line(option_term(option), option.sentence);
    }
  }
  if (!arguments.empty()) {
    arguments = "Positionals:\n" + arguments + '\n';
  }
  return fmt::format("{}\n{}\n\n{}Options:\n{}\n\nExamples:\n{}\n{}",
                     head.summary,
                     usage,
                     arguments,
                     options,
                     head.examples,
                     exit_status_help);
}

std::string version_text() {
  std::string text = fmt::format("leat {}, JSON format 1\n", program_version);
  const InstalledFiles files = installed_files();
  if (files.demo_farms) {
    text += fmt::format("demo farms: {}\n", *files.demo_farms);
  }
  if (files.schema) {
    text += fmt::format("schema for editors: {}\n", *files.schema);
  }
  return text;
}

}  // namespace leat::render
