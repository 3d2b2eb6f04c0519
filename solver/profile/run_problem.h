// Why the words for a run of pipes name none, as values.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace leat::solver {

struct UnknownPipe {
  std::string name;
  std::optional<std::string> near;  // the pipe that may be meant
  bool is_place = false;            // a place is named so
};

struct UnknownPlace {
  std::string name;
  std::optional<std::string> near;  // the place that may be meant
};

/// The run would end where it starts.
struct RunToItself {
  std::string words;  // as asked for, "FROM..TO"
};

struct NotJoined {
  std::string from;
  std::string to;
};

/// Several routes of equally few pipes.
struct SeveralRoutes {
  std::string words;                             // as asked for, "FROM..TO"
  std::vector<std::vector<std::string>> routes;  // pipes of the first of them
  bool has_more = false;                         // than these
};

using RunProblem = std::variant<UnknownPipe, UnknownPlace, RunToItself, NotJoined, SeveralRoutes>;

}  // namespace leat::solver
