// The program run on words as a shell would give them, with what it printed.
#pragma once

#include <sstream>
#include <string>
#include <vector>

#include "render/cli/run.h"

namespace leat::render {

struct Outcome {
  int status = 0;
  std::string out;
  std::string err;
};

[[nodiscard]] inline Outcome run_words(const std::vector<std::string>& words) {
  std::ostringstream out;
  std::ostringstream err;
  const int status = run(words, out, err, Terminal{});
  return {status, out.str(), err.str()};
}

}  // namespace leat::render
