#include "solver/nodal/reach.h"

namespace leat::nodal {

namespace {

bool runs_both_ways(EdgeKind kind) {
  return kind == EdgeKind::Link || kind == EdgeKind::Crest;
}

struct Step {
  std::size_t next = 0;
  std::size_t to = 0;
};

}  // namespace

std::vector<bool> nodes_reached(const Problem& problem) {
  constexpr std::size_t none = outside;
  std::vector<std::size_t> first(problem.nodes.size(), none);
  std::vector<Step> steps;
  steps.reserve(2 * problem.edges.size());
  const auto add_step = [&](std::size_t from, std::size_t to) {
    steps.push_back({first[from], to});
    first[from] = steps.size() - 1;
  };
  std::vector<bool> reached(problem.nodes.size(), false);
  std::vector<std::size_t> open;
  const auto reach = [&](std::size_t node) {
    if (!reached[node]) {
      reached[node] = true;
      open.push_back(node);
    }
  };
  for (std::size_t node = 0; node < problem.nodes.size(); ++node) {
    const Node& data = problem.nodes[node];
    if (data.fixed_head_m || data.has_store || data.inflow_m3_s != 0.0) {
      reach(node);
    }
  }
  for (const Edge& edge : problem.edges) {
    if (edge.closed || edge.down == outside) {
      continue;
    }
    if (edge.kind == EdgeKind::Ram) {
      // What drives it decides whether water comes.
      const Edge& driver = problem.edges[edge.driver];
      if (!driver.closed && driver.up != outside) {
        add_step(driver.up, edge.down);
      }
      continue;
    }
    if (edge.up == outside) {
      reach(edge.down);
      continue;
    }
    add_step(edge.up, edge.down);
    if (runs_both_ways(edge.kind)) {
      add_step(edge.down, edge.up);
    }
  }
  while (!open.empty()) {
    const std::size_t node = open.back();
    open.pop_back();
    for (std::size_t step = first[node]; step != none; step = steps[step].next) {
      reach(steps[step].to);
    }
  }
  return reached;
}

}  // namespace leat::nodal
