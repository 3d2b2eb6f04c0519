#include "solver/nodal/pattern.h"

#include <cstddef>

namespace leat::nodal {

bool have_one_pattern(const Problem& a, const Problem& b) {
  if (a.nodes.size() != b.nodes.size() || a.edges.size() != b.edges.size()) {
    return false;
  }
  for (std::size_t i = 0; i < a.nodes.size(); ++i) {
    if (a.nodes[i].has_store != b.nodes[i].has_store ||
        a.nodes[i].fixed_head_m.has_value() != b.nodes[i].fixed_head_m.has_value()) {
      return false;
    }
  }
  for (std::size_t i = 0; i < a.edges.size(); ++i) {
    const Edge& one = a.edges[i];
    const Edge& other = b.edges[i];
    if (one.kind != other.kind || one.up != other.up || one.down != other.down ||
        one.closed != other.closed) {
      return false;
    }
  }
  return true;
}

}  // namespace leat::nodal
