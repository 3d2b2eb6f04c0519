// The size of a pipe: a catalogue name, `choose`, or a bore of one's own.
#pragma once

#include <optional>
#include <string>
#include <unordered_map>

#include "model/farm/farm.h"
#include "model/keys/key.h"

namespace leat::model {

/// The keys of a bore of one's own.
[[nodiscard]] const Keys<PipeSize>& own_size_keys();

/// Reads sizes; remembers catalogue names it has looked up, since a farm repeats a few of them.
class SizeReader {
 public:
  /// The size, or nothing where a problem was reported. `choose` gives a size without a bore.
  [[nodiscard]] std::optional<PipeSize> read(const YamlNode& node,
                                             const Subject& pipe,
                                             LoadContext& context);

 private:
  [[nodiscard]] std::optional<PipeSize> look_up(const YamlNode& node,
                                                const Subject& pipe,
                                                ProblemList& problems);

  std::unordered_map<std::string, std::optional<PipeSize>> known_;
  int guesses_ = 0;
};

}  // namespace leat::model
