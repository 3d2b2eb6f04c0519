#include <string_view>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "render/cli/completion.h"
#include "render/commands/registry.h"

namespace leat::render {

namespace {

// Bash splits words at "=" as well: "--csv=pl" comes as three words, "--csv=" as two.
constexpr std::string_view beginning =
    R"(# Completion of leat for bash, written by 'leat --completion bash'.

_leat_files() {
  local each pattern="" found
  for each in $1; do pattern+="${pattern:+|}*.$each"; done
  compopt -o filenames 2>/dev/null
  while IFS= read -r found; do
    [[ -d $found || $found == @($pattern) ]] && COMPREPLY+=("$found")
  done < <(compgen -f -- "$2")
}

_leat() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} behind_equals=""
  local words="" endings="" options="" files=""
  COMPREPLY=()
  if [ "$word" = "=" ]; then
    word="" behind_equals=yes
  elif [ "$before" = "=" ]; then
    before=${COMP_WORDS[COMP_CWORD-2]} behind_equals=yes
  fi
)";

constexpr std::string_view end = R"(  if [ -n "$endings" ]; then
    _leat_files "$endings" "$word"
  elif [ -n "$words" ]; then
    COMPREPLY=($(compgen -W "$words" -- "$word"))
  elif [ -n "$behind_equals" ]; then
    return
  elif [[ $word == -* ]]; then
    COMPREPLY=($(compgen -W "$options" -- "$word"))
  elif [ -n "$files" ]; then
    _leat_files "$files" "$word"
  fi
}

complete -F _leat leat
)";

/// The patterns of `case` under which the option's value is written: "solve --case".
std::string patterns_of(std::string_view command, const Option& option) {
  std::string patterns;
  for (const std::string& name : option.names) {
    patterns += fmt::format("{}'{} {}'", patterns.empty() ? "" : "|", command, name);
  }
  return patterns;
}

/// What is done where the option's value is written.
std::string value_lines(std::string_view command, const Option& option) {
  std::string what = "return";
  if (!option.words.empty()) {
    what = fmt::format("words='{}'", fmt::join(option.words, " "));
  } else if (!option.endings.empty()) {
    what = fmt::format("endings='{}'", fmt::join(option.endings, " "));
  }
  if (option.may_have_value()) {
    what = option.words.empty() ? "[ -z \"$behind_equals\" ] || return"
                                : "[ -z \"$behind_equals\" ] || " + what;
  }
  return fmt::format("    {}) {} ;;\n", patterns_of(command, option), what);
}

}  // namespace

std::string bash_completion() {
  std::string words;
  std::string values;
  std::string options;
  for (const auto& command : all_commands()) {
    const CommandHead head = command->head();
    words += (words.empty() ? "" : " ") + std::string(head.word);
    std::string flags;
    std::string files;
    for (const Option& option : command->options()) {
      if (option.is_argument()) {
        files += option.endings.empty()
                     ? ""
                     : fmt::format(" files='{}'", fmt::join(option.endings, " "));
        continue;
      }
      flags += fmt::format("{}{}", flags.empty() ? "" : " ", fmt::join(option.names, " "));
      if (option.wants_value() || option.may_have_value()) {
        values += value_lines(head.word, option);
      }
    }
    options += fmt::format("    {}) options='{}'{} ;;\n", head.word, flags, files);
  }
  std::string text(beginning);
  text += fmt::format(
      "  if [ \"$COMP_CWORD\" -eq 1 ]; then\n"
      "    COMPREPLY=($(compgen -W '{} --help --version --manual --completion' -- \"$word\"))\n"
      "    return\n  fi\n",
      words);
  text +=
      "  case \"${COMP_WORDS[1]} $before\" in\n    '--completion --completion') words='bash zsh' "
      ";;\n";
  text += values + "  esac\n  case \"${COMP_WORDS[1]}\" in\n" + options + "  esac\n";
  return text.append(end);
}

}  // namespace leat::render
