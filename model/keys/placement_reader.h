// Where along a pipe a thing sits.
#pragma once

#include <optional>
#include <string>

#include "model/farm/farm.h"
#include "model/keys/map_reader.h"

namespace leat::model {

/// What the readers of a pipe's parts need to know about the pipe.
struct PipeReach {
  Subject pipe;
  Length bore;
  std::optional<Length>
      reach;  // greatest distance along it; unknown where path or length is faulty
  bool has_summit = false;
};

/// A distance along the pipe; beyond its end is an error (code beyond-the-pipe).
[[nodiscard]] std::optional<Length> read_distance(const YamlNode& node,
                                                  const std::string& what,
                                                  const PipeReach& reach,
                                                  ProblemList& problems);

/// start, end, or a distance along the pipe.
[[nodiscard]] std::optional<Placement> read_placement(const YamlNode& node,
                                                      const std::string& what,
                                                      const PipeReach& reach,
                                                      ProblemList& problems);

}  // namespace leat::model
