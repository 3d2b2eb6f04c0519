#include "render/pictures/schematic/graph_page.h"

#include <algorithm>
#include <clocale>
#include <cmath>
#include <limits>
#include <memory>
#include <mutex>
#include <utility>

#include <fmt/format.h>
#include <graphviz/cgraph.h>
#include <graphviz/gvc.h>

namespace leat::render {
namespace {

// Graphviz keeps global state: two threads inside it crash, even with a context each.
std::mutex graphviz_mutex;
std::string graphviz_complaint;  // guarded by graphviz_mutex

int keep_complaint(char* text) {
  graphviz_complaint += text;
  return 0;
}

/// While it lives Graphviz's messages go to `graphviz_complaint` instead of stderr, and this thread
/// reads "0.1" as a number whatever the locale: where that has a decimal comma, Graphviz would not.
class QuietGraphviz {
 public:
  QuietGraphviz()
      : previous_(agseterrf(keep_complaint)),
        plain_(newlocale(LC_ALL_MASK, "C.UTF-8", nullptr)),
        before_(plain_ == nullptr ? nullptr : uselocale(plain_)) {
    graphviz_complaint.clear();
  }
  ~QuietGraphviz() {
    agseterrf(previous_);
    if (plain_ != nullptr) {
      uselocale(before_);
      freelocale(plain_);
    }
  }
  QuietGraphviz(const QuietGraphviz&) = delete;
  QuietGraphviz& operator=(const QuietGraphviz&) = delete;

 private:
  agusererrf previous_;
  locale_t plain_;
  locale_t before_;
};

struct CloseGraph {
  void operator()(Agraph_t* graph) const { agclose(graph); }
};
using GraphHandle = std::unique_ptr<Agraph_t, CloseGraph>;

/// The one context of the process, made at first use. It is never freed: Graphviz's text measuring
/// keeps a pointer to the last font's name, which belongs to the context, and reads it again when
/// the next drawing begins (found with AddressSanitizer on 2.42).
GVC_t* shared_context() {
  static GVC_t* const context = gvContext();
  return context;
}

/// Graphviz's signatures want char* for text that it only reads.
char* text_of(const std::string& text) {
  return const_cast<char*>(text.c_str());
}

void set_attributes(Agraph_t* graph, void* object, const Attributes& attributes) {
  for (const Attribute& attribute : attributes) {
    std::string nothing;
    if (attribute.text == AttributeText::Markup) {
      char* const markup = agstrdup_html(graph, text_of(attribute.value));
      agsafeset(object, text_of(attribute.name), markup, text_of(nothing));
      agstrfree(graph, markup);
    } else {
      agsafeset(object, text_of(attribute.name), text_of(attribute.value), text_of(nothing));
    }
  }
}

void set_defaults(Agraph_t* graph, int kind, const Attributes& attributes) {
  for (const Attribute& attribute : attributes) {
    agattr(graph, kind, text_of(attribute.name), text_of(attribute.value));
  }
}

constexpr double points_per_inch = 72.0;

const std::string room_name = "cluster_room";

/// The frame inside all others, without a label: the nodes and room around them.
Agraph_t* room_in(Agraph_t* frame, int room) {
  Agraph_t* const inner = agsubg(frame, text_of(room_name), 1);
  set_attributes(agroot(frame),
                 inner,
                 {{"label", ""}, {"margin", std::to_string(room)}, {"pencolor", "transparent"}});
  return inner;
}

/// The group of that name, made at its first use; it draws nothing itself.
Agraph_t* group_in(Agraph_t* frame, const std::string& name) {
  const std::string full_name = "cluster_" + name;
  Agraph_t* group = agsubg(frame, text_of(full_name), 0);
  if (group == nullptr) {
    group = agsubg(frame, text_of(full_name), 1);
    set_attributes(
        agroot(frame), group, {{"label", ""}, {"margin", "1"}, {"pencolor", "transparent"}});
  }
  return group;
}

/// As Graphviz reads a position. Whole hundredths, whatever the locale.
std::string point_text(const PagePoint& point) {
  return fmt::format("{:.2f},{:.2f}", point.x, point.y);
}

GraphHandle built(const GraphPage& page, Agdisc_t* services) {
  GraphHandle graph(agopen(text_of("farm"), Agdirected, services));
  set_defaults(graph.get(), AGRAPH, page.graph);
  set_defaults(graph.get(), AGNODE, page.node_defaults);
  set_defaults(graph.get(), AGEDGE, page.edge_defaults);
  Agraph_t* frame = graph.get();
  for (std::size_t i = 0; i < page.frames.size(); ++i) {
    // Graphviz draws a subgraph as a frame only when its name starts with this word.
    frame = agsubg(frame, text_of("cluster_frame_" + std::to_string(i)), 1);
    set_attributes(graph.get(), frame, page.frames[i]);
  }
  frame = room_in(frame, page.room);
  std::vector<Agnode_t*> nodes;
  nodes.reserve(page.nodes.size());
  for (const GraphNode& node : page.nodes) {
    Agraph_t* const home = node.group.empty() ? frame : group_in(frame, node.group);
    nodes.push_back(agnode(home, text_of(node.id), 1));
    set_attributes(graph.get(), nodes.back(), node.attributes);
    if (node.at) {
      set_attributes(graph.get(), nodes.back(), {{"pos", point_text(*node.at)}});
    }
  }
  for (const GraphEdge& edge : page.edges) {
    Agedge_t* const line =
        agedge(frame, nodes.at(edge.tail), nodes.at(edge.head), text_of(edge.key), 1);
    set_attributes(graph.get(), line, edge.attributes);
  }
  return graph;
}

/// A graph with positions, and how much it shrinks to fit the page (1: not at all).
class LaidOut {
 public:
  LaidOut(GVC_t* context, GraphHandle graph, const PageSize& size, const char* engine = "dot")
      : context_(context), graph_(std::move(graph)) {
    is_fine_ = gvLayout(context_, graph_.get(), engine) == 0;
    if (is_fine_) {
      const boxf bounds = GD_bb(graph_.get());
      const double width = bounds.UR.x - bounds.LL.x;
      const double height = bounds.UR.y - bounds.LL.y;
      scale_ = std::min({1.0, size.width / width, size.height / height});
    }
  }
  ~LaidOut() { gvFreeLayout(context_, graph_.get()); }
  LaidOut(const LaidOut&) = delete;
  LaidOut& operator=(const LaidOut&) = delete;

  [[nodiscard]] bool is_fine() const { return is_fine_; }
  [[nodiscard]] double scale() const { return scale_; }
  [[nodiscard]] Agraph_t* graph() const { return graph_.get(); }

 private:
  GVC_t* context_;
  GraphHandle graph_;
  bool is_fine_ = false;
  double scale_ = 0.0;
};

Agraph_t* room_of(Agraph_t* graph) {
  for (Agraph_t* inner = agfstsubg(graph); inner != nullptr; inner = agfstsubg(inner)) {
    if (agnameof(inner) == room_name) {
      return inner;
    }
  }
  return graph;
}

/// How far a line reaches over or under the room around the nodes [points], below zero where all
/// stay inside. A curve lies within its control points, so it may be less.
double reach_past_room(Agraph_t* graph) {
  const boxf room = GD_bb(room_of(graph));
  double reach = std::numeric_limits<double>::lowest();
  for (Agnode_t* node = agfstnode(graph); node != nullptr; node = agnxtnode(graph, node)) {
    for (Agedge_t* edge = agfstout(graph, node); edge != nullptr; edge = agnxtout(graph, edge)) {
      const splines* const curves = ED_spl(edge);
      for (std::size_t i = 0; curves != nullptr && i < static_cast<std::size_t>(curves->size);
           ++i) {
        const bezier& curve = curves->list[i];
        for (std::size_t j = 0; j < static_cast<std::size_t>(curve.size); ++j) {
          const double y = curve.list[j].y;
          reach = std::max({reach, y - room.UR.y, room.LL.y - y});
        }
      }
    }
  }
  return reach;
}

GraphBytes rendered(GVC_t* context, Agraph_t* graph, const std::string& format) {
  char* data = nullptr;
  unsigned int size = 0;
  const int status = gvRenderData(context, graph, format.c_str(), &data, &size);
  GraphBytes result;
  if (status == 0 && data != nullptr && size > 0) {
    result.bytes.assign(data, size);
  } else {
    result.problem = "Graphviz could not write the drawing as '" + format + "'";
    if (!graphviz_complaint.empty()) {
      result.problem += ": " + graphviz_complaint;
    }
  }
  gvFreeRenderData(data);
  return result;
}

/// Lays the page out, again with more room where a line reaches beyond it, and writes it.
GraphBytes render_with_room(GVC_t* context,
                            GraphPage page,
                            const PageSize& size,
                            const std::string& format) {
  constexpr double clearance = 3.0;  // half the widest line, and a little
  constexpr int most_tries = 4;      // one more does, unless the room itself moves lines
  for (int tries = 1;; ++tries) {
    const LaidOut tried(context, built(page, nullptr), size);
    if (!tried.is_fine()) {
      return {"", "Graphviz could not lay the farm out: " + graphviz_complaint, 0};
    }
    const double lacking = reach_past_room(tried.graph()) + clearance;
    if (lacking <= 0.0 || tries == most_tries) {
      return rendered(context, tried.graph(), format);
    }
    page.room += static_cast<int>(std::ceil(lacking));
  }
}

/// Lays nodes out at their own points.
constexpr const char* in_place = "nop";

/// A node's middle and its size, as laid out [points].
struct BoxPlace {
  PagePoint middle;
  double width = 0.0;
  double height = 0.0;
};

/// The middles and sizes of a page's nodes in place, in order, after `overlap` was dealt with in
/// Graphviz's way of that name.
std::vector<BoxPlace> boxes_in_place(GVC_t* context,
                                     GraphPage page,
                                     const std::string& overlap,
                                     const PageSize& size) {
  page.frames.clear();
  page.edges.clear();
  page.graph.push_back({"overlap", overlap});
  page.graph.push_back({"sep", "+4"});
  page.graph.push_back({"overlap_scaling", "0"});  // else all is blown up before it is pushed apart
  const LaidOut tried(context, built(page, nullptr), size, in_place);
  std::vector<BoxPlace> boxes;
  for (const GraphNode& node : page.nodes) {
    Agnode_t* const found = agnode(tried.graph(), text_of(node.id), 0);
    boxes.push_back({{ND_coord(found).x, ND_coord(found).y},
                     ND_width(found) * points_per_inch,
                     ND_height(found) * points_per_inch});
  }
  return boxes;
}

bool is_at_top(const Attributes& frame) {
  return std::any_of(frame.begin(), frame.end(), [](const Attribute& attribute) {
    return attribute.name == "labelloc" && attribute.value == "t";
  });
}

/// The frames' labels as nodes without an outline: only layouts that choose the places of nodes
/// draw frames.
std::vector<GraphNode> label_nodes(const GraphPage& page) {
  std::vector<GraphNode> nodes;
  for (std::size_t i = 0; i < page.frames.size(); ++i) {
    GraphNode node;
    node.id = fmt::format("label_{}", i);
    for (const Attribute& attribute : page.frames[i]) {
      if (attribute.name == "label" || attribute.name == "fontsize") {
        node.attributes.push_back(attribute);
      }
    }
    node.attributes.insert(
        node.attributes.end(),
        {{"shape", "none"}, {"style", ""}, {"peripheries", "0"}, {"margin", "0,0"}});
    constexpr double far_apart = 1e4;
    node.at = PagePoint{0.0, -far_apart * static_cast<double>(i)};
    nodes.push_back(node);
  }
  return nodes;
}

struct Bounds {
  double left = std::numeric_limits<double>::max();
  double right = std::numeric_limits<double>::lowest();
  double bottom = std::numeric_limits<double>::max();
  double top = std::numeric_limits<double>::lowest();

  void take_in(const BoxPlace& box) {
    left = std::min(left, box.middle.x - box.width / 2.0);
    right = std::max(right, box.middle.x + box.width / 2.0);
    bottom = std::min(bottom, box.middle.y - box.height / 2.0);
    top = std::max(top, box.middle.y + box.height / 2.0);
  }
};

/// The page with its boxes pushed apart and its labels stacked at the left edge, the outermost
/// frame's farthest out; and how much it shrinks.
struct FixedPage {
  GraphPage page;
  double scale = 0.0;
};

FixedPage fixed(GVC_t* context, GraphPage page, const PageSize& size) {
  Bounds bounds;
  const std::vector<BoxPlace> boxes = boxes_in_place(context, page, "prism", size);
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    page.nodes[i].at = boxes[i].middle;
    bounds.take_in(boxes[i]);
  }
  GraphPage labels = page;
  labels.nodes = label_nodes(page);
  const std::vector<BoxPlace> texts = boxes_in_place(context, labels, "true", size);
  const double left = bounds.left;
  constexpr double gap = 8.0;
  bounds.top += page.room;
  bounds.bottom -= page.room;
  for (std::size_t i = texts.size(); i-- > 0;) {
    BoxPlace text = texts[i];
    text.middle.x = left + text.width / 2.0;
    const bool above = is_at_top(page.frames[i]);
    text.middle.y =
        above ? bounds.top + gap + text.height / 2.0 : bounds.bottom - gap - text.height / 2.0;
    labels.nodes[i].at = text.middle;
    bounds.take_in(text);
    page.nodes.push_back(labels.nodes[i]);
  }
  page.frames.clear();
  page.graph.push_back({"overlap", "true"});
  // Finding ways round n boxes takes some n^3: 3 s for 120, beyond a minute for 400.
  constexpr std::size_t most_to_bend_round = 100;
  page.graph.push_back({"splines", page.nodes.size() > most_to_bend_round ? "line" : "true"});
  page.graph.push_back(
      {"esep", "+2"});  // lines keep so far from boxes; boxes closer: straight lines
  return {std::move(page),
          std::min({1.0,
                    size.width / (bounds.right - bounds.left),
                    size.height / (bounds.top - bounds.bottom)})};
}

int append_to_string(void* channel, const char* text) {
  static_cast<std::string*>(channel)->append(text);
  return 0;
}

int nothing_to_flush(void* /*channel*/) {
  return 0;
}

}  // namespace

GraphBytes render_best(const std::vector<GraphPage>& versions,
                       const PageSize& size,
                       const std::string& format) {
  const std::lock_guard<std::mutex> one_at_a_time(graphviz_mutex);
  const QuietGraphviz quiet;
  GVC_t* const context = shared_context();
  if (context == nullptr) {
    return {"", "Graphviz could not be started"};
  }
  // Graphviz keeps pointers into the graph laid out last in globals, so only one may live at a time
  // and the chosen version is laid out again.
  constexpr double large_enough = 0.9;
  std::size_t best = 0;
  double best_score = 0.0;
  for (std::size_t i = 0; versions.size() > 1 && i < versions.size(); ++i) {
    const LaidOut tried(context, built(versions[i], nullptr), size);
    const double score = std::min(tried.scale(), large_enough) * versions[i].readability;
    if (score > best_score) {
      best = i;
      best_score = score;
    }
    if (best_score >= large_enough) {
      break;
    }
  }
  GraphBytes drawn = render_with_room(context, versions.at(best), size, format);
  drawn.version = best;
  return drawn;
}

GraphBytes render_best_in_place(const std::vector<GraphPage>& versions,
                                const PageSize& size,
                                const std::string& format) {
  const std::lock_guard<std::mutex> one_at_a_time(graphviz_mutex);
  const QuietGraphviz quiet;
  GVC_t* const context = shared_context();
  if (context == nullptr) {
    return {"", "Graphviz could not be started"};
  }
  FixedPage best;
  double best_score = -1.0;
  for (const GraphPage& version : versions) {
    FixedPage tried = fixed(context, version, size);
    const double score = tried.scale * version.readability;
    if (score > best_score) {
      best_score = score;
      best = std::move(tried);
    }
  }
  const LaidOut laid_out(context, built(best.page, nullptr), size, in_place);
  if (!laid_out.is_fine()) {
    return {"", "Graphviz could not draw the farm by position: " + graphviz_complaint};
  }
  return rendered(context, laid_out.graph(), format);
}

GraphBytes graph_text(const GraphPage& page) {
  const std::lock_guard<std::mutex> one_at_a_time(graphviz_mutex);
  const QuietGraphviz quiet;
  Agiodisc_t into_string{AgIoDisc.afread, append_to_string, nothing_to_flush};
  Agdisc_t services{&AgMemDisc, &AgIdDisc, &into_string};
  const GraphHandle graph = built(page, &services);
  GraphBytes result;
  if (agwrite(graph.get(), &result.bytes) != 0) {
    result.problem = "Graphviz could not write the text of the graph: " + graphviz_complaint;
  }
  return result;
}

}  // namespace leat::render
