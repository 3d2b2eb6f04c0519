// An option of a command: how it is written and told, and where its value goes.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace leat::render {

/// Why a command line cannot be followed.
struct UsageProblem {
  std::optional<std::string> command;  // as given
  std::string code;                    // "unknown-command", "unknown-flag", "bad-value" ...
  std::string text;                    // one sentence without a full stop
  std::string hint;                    // nearest word or how to write it; may be empty
};

/// Where the value of an option stands.
enum class ValuePlace {
  Nowhere,        // a switch: it has none
  Next,           // the word after it, or behind "="
  BehindEquals,   // only behind "="; it may be left out
  NumberNext,     // behind "=", or the word after it if that is a number; it may be left out
  Itself,         // an argument, known by its place: the word is the value
  ItselfRepeated  // the same, and several words may stand there
};

/// What help, manual and completion tell of an option, and what reading the command line does with
/// it. Made by option_kinds.h.
struct Option {
  std::vector<std::string> names;  // "-o", "--output"; of an argument what stands for it: "FILE"
  ValuePlace place = ValuePlace::Nowhere;
  std::string value;     // what stands for the value in help: "CASE"; empty: nothing is told of it
  std::string sentence;  // what it does
  std::vector<std::string> words;    // what the value is chosen from; empty: not from a list
  std::vector<std::string> endings;  // of the file the value names, without dot; empty: no file
  std::string usual;                 // the value meant where it is left out
  bool is_optional = false;          // an argument that may be left out
  /// Puts a value where the command finds it, or says why it cannot be. For a switch: turns it on.
  std::function<std::optional<UsageProblem>(const std::string& value)> put;

  [[nodiscard]] bool is_argument() const {
    return place == ValuePlace::Itself || place == ValuePlace::ItselfRepeated;
  }
  [[nodiscard]] bool is_repeated() const { return place == ValuePlace::ItselfRepeated; }
  /// Whether a value as a word after it, or behind "=", must be there.
  [[nodiscard]] bool wants_value() const { return place == ValuePlace::Next; }
  /// Whether a value may be there, and may be left out; one of which nothing is told does not
  /// count.
  [[nodiscard]] bool may_have_value() const {
    return !value.empty() && (place == ValuePlace::BehindEquals || place == ValuePlace::NumberNext);
  }
};

}  // namespace leat::render
