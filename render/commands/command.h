// Room: a command is a folder, and nothing but the registry knows which there are.
//
// A command: its word and texts, its options, what must stand together, what it does. Each stands
// in a folder of its own; registry.cpp lists them.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "render/commands/command_result.h"
#include "render/commands/option.h"
#include "render/io/terminal_style.h"

namespace leat::render {

/// How a command is called and told.
struct CommandHead {
  std::string_view word;      // as it is typed
  std::string_view summary;   // one line
  std::string_view examples;  // lines of its help
};

/// How an answer is printed.
enum class AnswerForm { Screen, Json, Csv };

/// A command as it was asked for. What its options were given stands in members, which the command
/// declares in public: it holds no invariant, and tests look at them.
class Command {
 public:
  Command() = default;
  Command(const Command&) = delete;
  Command& operator=(const Command&) = delete;
  Command(Command&&) = delete;
  Command& operator=(Command&&) = delete;
  virtual ~Command() = default;

  [[nodiscard]] virtual CommandHead head() const = 0;

  /// --help, --json and the command's own, in the order help tells them. They put their values into
  /// this object.
  [[nodiscard]] std::vector<Option> options();

  /// What is missing, or cannot stand together, once all options have their values.
  [[nodiscard]] virtual std::optional<UsageProblem> check() const;

  /// Does what was asked for. Writes files only where the command says so; prints nothing.
  [[nodiscard]] virtual CommandResult run(const Terminal& terminal) const = 0;

  [[nodiscard]] AnswerForm form() const;

  bool help = false;
  bool json = false;
  bool csv = false;  // of the commands that have --csv

 protected:
  [[nodiscard]] virtual std::vector<Option> own_options() = 0;
};

}  // namespace leat::render
