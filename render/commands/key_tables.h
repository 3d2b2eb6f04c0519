// The tables of keys that OUTPUT.md holds, made of the columns of each command's answer.
#pragma once

#include <string>
#include <vector>

namespace leat::render {

/// A table and the word of the mark between which it stands there: "solve places".
struct KeyTable {
  std::string mark;
  std::string text;
};

[[nodiscard]] std::vector<KeyTable> key_tables();

}  // namespace leat::render
