#include <string_view>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "render/cli/completion.h"
#include "render/commands/registry.h"

namespace leat::render {

namespace {

/// The text inside single quotes, with the letters marked that mean something in a specification.
std::string quoted_part(std::string_view text) {
  std::string out;
  for (const char letter : text) {
    if (letter == '\'') {
      out += "'\\''";
      continue;
    }
    if (letter == '[' || letter == ']' || letter == ':' || letter == '\\') {
      out += '\\';
    }
    out += letter;
  }
  return out;
}

/// What completes a value: a list of words, files by their endings, or nothing but its name.
std::string action_of(const Option& option) {
  if (!option.words.empty()) {
    return fmt::format("({})", fmt::join(option.words, " "));
  }
  if (!option.endings.empty()) {
    return fmt::format("_files -g \"*.({})(-.)\"", fmt::join(option.endings, "|"));
  }
  return " ";
}

/// "FILE" becomes "file".
std::string message_of(std::string_view name) {
  std::string out;
  for (const char letter : name) {
    if (letter >= 'A' && letter <= 'Z') {
      out += static_cast<char>(letter - 'A' + 'a');
    }
  }
  return out;
}

std::string specification(const Option& option) {
  if (option.is_argument()) {
    return fmt::format("'{}{}:{}'",
                       option.is_repeated() ? "*:"
                       : option.is_optional ? "::"
                                            : ":",
                       message_of(option.names.front()),
                       action_of(option));
  }
  std::string value;
  std::string mark;
  if (option.wants_value()) {
    value = fmt::format(":{}:{}", message_of(option.value), action_of(option));
    mark = "=";
  } else if (option.may_have_value()) {
    value = fmt::format("::{}:{}", message_of(option.value), action_of(option));
    mark = "=-";
  }
  const std::string sentence = quoted_part(option.sentence);
  if (option.names.size() == 1) {
    return fmt::format("'{}{}[{}]{}'", option.names.front(), mark, sentence, value);
  }
  // A short name stands apart from its value, a long one may be joined to it by "=".
  return fmt::format("'({0} {1})'{{{0},{1}{2}}}'[{3}]{4}'",
                     option.names[0],
                     option.names[1],
                     mark,
                     sentence,
                     value);
}

}  // namespace

std::string zsh_completion() {
  std::string commands;
  std::string cases;
  for (const auto& command : all_commands()) {
    const CommandHead head = command->head();
    commands += fmt::format("    '{}:{}'\n", head.word, quoted_part(head.summary));
    std::string arguments;
    for (const Option& option : command->options()) {
      arguments += fmt::format(" \\\n        {}", specification(option));
    }
    cases += fmt::format("    {})\n      _arguments{}\n      ;;\n", head.word, arguments);
  }
  return fmt::format(
      "#compdef leat\n"
      "# Completion of leat for zsh, written by 'leat --completion zsh'.\n\n"
      "_leat() {{\n"
      "  local -a commands\n"
      "  commands=(\n{}  )\n"
      "  if (( CURRENT == 2 )); then\n"
      "    if [[ $words[2] == -* ]]; then\n"
      "      compadd -- --help --version --manual --completion\n"
      "    else\n"
      "      _describe -t commands 'command of leat' commands\n"
      "    fi\n"
      "    return\n"
      "  fi\n"
      "  local command=$words[2]\n"
      "  shift words\n"
      "  (( CURRENT-- ))\n"
      "  case $command in\n"
      "    --completion)\n      compadd bash zsh\n      ;;\n"
      "{}"
      "  esac\n"
      "}}\n\n"
      "_leat \"$@\"\n",
      commands,
      cases);
}

}  // namespace leat::render
