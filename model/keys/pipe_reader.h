// The pipes of a farm file.
#pragma once

#include <optional>

#include "model/farm/farm.h"
#include "model/keys/map_reader.h"
#include "model/keys/name_registry.h"
#include "model/keys/size_reader.h"

namespace leat::model {

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
  [[nodiscard]] std::optional<std::size_t> read_end(const MapReader& map, std::string_view key);
  void check_end_kinds(const MapReader& map, const ReadPipe& read);
  void read_length_and_path(const MapReader& map, Pipe& pipe);
  void read_ends(const MapReader& map, const ReadPipe& read, Pipe& pipe);

  const Farm& farm_;
  const NameRegistry& names_;
  LoadContext& context_;
  SizeReader sizes_;
};

}  // namespace leat::model
