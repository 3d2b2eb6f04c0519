// The options of a command as data, from the same declarations that read the command line: the
// manual and the shells' completion are made from it.
#pragma once

#include <string>
#include <vector>

#include "render/cli/command_line.h"

namespace leat::render {

/// An option, or an argument that is known by its place.
struct OptionEntry {
  std::vector<std::string> names;  // "-o", "--output"; an argument's own: "FILE"
  std::string value;               // "CASE"; empty: takes none; "[N]", "[=TABLE]": may be left out
  std::string sentence;            // as in the help
  bool is_argument = false;
  bool is_optional = false;          // an argument that may be left out
  bool is_repeated = false;          // an argument that may stand several times
  std::vector<std::string> words;    // what the value is chosen from; empty: not from a list
  std::vector<std::string> endings;  // of the file that it names, without dot; empty: no file
};

/// All that the command takes, as in its help. Arguments come in the order they are written.
[[nodiscard]] std::vector<OptionEntry> options_of_command(Command command);

/// Whether the option wants a value as a word after it or behind "=".
[[nodiscard]] bool wants_value(const OptionEntry& option);

/// Whether a value may follow, but behind "=" only.
[[nodiscard]] bool may_have_value(const OptionEntry& option);

}  // namespace leat::render
