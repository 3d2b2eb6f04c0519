// Where in the farm file a thing was written.
#pragma once

namespace leat::model {

/// Line and column of a farm file, both counted from 1; 0 means "not from a file".
struct SourcePosition {
  int line = 0;
  int column = 0;

  friend bool operator==(const SourcePosition&, const SourcePosition&) = default;
};

}  // namespace leat::model
