// A directed graph as plain values, and the functions that hand it to Graphviz.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace leat::render {

/// How Graphviz is to read an attribute's value. Markup is for text of our own only: user text in
/// a malformed markup label would silently turn into the name of its node.
enum class AttributeText { Plain, Markup };

struct Attribute {
  std::string name;
  std::string value;
  AttributeText text = AttributeText::Plain;
};
using Attributes = std::vector<Attribute>;

/// A point of the page [1/72 in], y upward.
struct PagePoint {
  double x = 0.0;
  double y = 0.0;
};

struct GraphNode {
  std::string id;  // [a-z0-9_]: it becomes an XML id, user text does not belong here
  Attributes attributes;
  std::string group;                 // nodes of one group stand side by side; empty: stands alone
  std::optional<PagePoint> at = {};  // of its middle; all nodes of a page have one, or none
};

struct GraphEdge {
  std::size_t tail = 0;  // index into GraphPage::nodes
  std::size_t head = 0;
  std::string key;  // keeps two edges between the same nodes apart
  Attributes attributes;
};

/// Everything drawn. All nodes lie in nested frames, outermost first; a frame carries a label.
struct GraphPage {
  Attributes graph;
  Attributes node_defaults;
  Attributes edge_defaults;
  std::vector<Attributes> frames;
  std::vector<GraphNode> nodes;
  std::vector<GraphEdge> edges;
  double readability = 1.0;  // against other versions at the same size: their scale times this
  int room = 10;  // between the nodes and the frames' labels [points], more where lines need it
};

struct GraphBytes {
  std::string bytes;
  std::string problem;      // empty when fine
  std::size_t version = 0;  // the one of several that was written
};

/// The size a drawing is shrunk to when it is larger [points of 1/72 in].
struct PageSize {
  double width = 0.0;
  double height = 0.0;
};

/// Lays out each version of a page, shrinks it to fit `size`, and writes the one that is then read
/// most easily, in a Graphviz output format such as "svg" or "png:cairo". Versions after one that
/// is shrunk by less than a tenth are not tried. One call at a time runs, as Graphviz cannot be
/// used by two threads. No line runs over a frame's label: a page whose lines bulge past its nodes
/// is given more room.
[[nodiscard]] GraphBytes render_best(const std::vector<GraphPage>& versions,
                                     const PageSize& size,
                                     const std::string& format);

/// The same for pages whose nodes all have a point (`at`): the boxes stay there but for being
/// pushed apart where they overlap, the lines bend round them (on a
/// page of more than a hundred boxes they are straight), frames' labels stand above and below
/// all.
[[nodiscard]] GraphBytes render_best_in_place(const std::vector<GraphPage>& versions,
                                              const PageSize& size,
                                              const std::string& format);

/// The text of the graph in the DOT language, without positions but for nodes' own points: it does
/// not depend on fonts.
[[nodiscard]] GraphBytes graph_text(const GraphPage& page);

}  // namespace leat::render
