// The keys of a pipe.
#pragma once

#include <optional>

#include "model/farm/farm.h"
#include "model/keys/key.h"
#include "model/keys/name_registry.h"
#include "model/keys/placement_reader.h"
#include "model/keys/size.h"

namespace leat::model {

/// A pipe while it is read, and what its keys must know of the farm.
struct PipeDraft {
  Pipe pipe;
  const Farm& farm;
  const NameRegistry& names;
  SizeReader& sizes;
  std::optional<std::size_t> from;  // where the name is known
  std::optional<std::size_t> to;
  std::optional<PipeReach> reach;
};

[[nodiscard]] const Keys<PipeDraft>& pipe_keys();

/// A pipe as far as it could be read.
struct ReadPipe {
  Pipe pipe;
  bool joined = false;  // both ends name places
  bool sound = false;   // nothing at all is wrong with it
};

/// Reads pipes one by one, after all places.
class PipeReader {
 public:
  PipeReader(const Farm& farm, const NameRegistry& names, LoadContext& context)
      : farm_(farm), names_(names), context_(context) {}

  [[nodiscard]] ReadPipe read(const YamlEntry& entry);

 private:
  const Farm& farm_;
  const NameRegistry& names_;
  LoadContext& context_;
  SizeReader sizes_;
};

}  // namespace leat::model
