// Names of places and pipes: what they may look like, and which of them exist.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "model/text/problem_list.h"

namespace leat::model {

/// The longest name [characters].
inline constexpr int longest_name = 80;

/// Every name of the farm. No two things share one.
class NameRegistry {
 public:
  enum class Kind { Place, Pipe, Pump, Ram };

  /// Takes a name in; reports one that is malformed (bad-name) or taken (duplicate-name).
  /// `index` is the thing's place in its own list. Returns whether the name is sound.
  [[nodiscard]] bool add(Kind kind,
                         std::size_t index,
                         std::string_view name,
                         SourcePosition position,
                         ProblemList& problems);

  /// The index of a thing of that kind, or nothing.
  [[nodiscard]] std::optional<std::size_t> find(Kind kind, std::string_view name) const;

  /// Finds a thing named in a value; an unknown name is reported (unknown-place or unknown-pipe)
  /// with the nearest known one. `what` is "from of pipe 'main'".
  [[nodiscard]] std::optional<std::size_t> look_up(Kind kind,
                                                   std::string_view name,
                                                   SourcePosition position,
                                                   std::string_view what,
                                                   ProblemList& problems) const;

  /// A variant takes the thing of that name out of its base: who still names it is told so.
  void mark_removed(std::string_view name, SourcePosition position);

 private:
  struct Entry {
    Kind kind = Kind::Place;
    std::size_t index = 0;
    SourcePosition position;
  };
  [[nodiscard]] std::string nearest(Kind kind, std::string_view name) const;
  [[nodiscard]] std::string hint_for(Kind kind,
                                     std::string_view name,
                                     const ProblemList& problems) const;

  std::unordered_map<std::string, Entry> entries_;
  std::unordered_map<std::string, SourcePosition> removed_;
  std::vector<std::string> places_;  // in the order of the file, for "did you mean"
  std::vector<std::string> pipes_;
  mutable int guesses_ = 0;
};

}  // namespace leat::model
