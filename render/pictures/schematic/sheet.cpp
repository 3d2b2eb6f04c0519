#include "render/pictures/schematic/sheet.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "render/io/clock.h"
#include "render/pictures/schematic/attention.h"
#include "render/pictures/schematic/legend.h"
#include "render/pictures/schematic/pipe_label.h"
#include "render/pictures/schematic/place_label.h"
#include "render/pictures/schematic/plain_label.h"
#include "render/pictures/schematic/pressure_scale.h"
#include "render/words/figure_text.h"
#include "render/words/situation_text.h"

namespace leat::render {
namespace {

/// All that the pieces of one drawing are made from.
struct Subject {
  const model::Farm& farm;
  const solver::SteadyAnswer& answer;
  model::UnitSystem units;
  SheetForm form;
};

double widest_flow(const solver::SteadyAnswer& answer) {
  double widest = 0.0;
  for (const solver::PipeAnswer& pipe : answer.pipes) {
    widest = std::max(widest, std::abs(pipe.flow_m3_s));
  }
  return widest;
}

/// Line width [points], by the square root of the flow: small flows stay apart.
std::string pen_width(double flow, double widest) {
  const double share = widest > 0.0 ? std::sqrt(std::abs(flow) / widest) : 0.0;
  return fmt::format("{:.2f}", 0.7 + 3.3 * share);
}

void add_outline(Attributes& attributes, Outline outline) {
  if (outline == Outline::Heavy) {
    attributes.push_back({"peripheries", "2"});
    attributes.push_back({"penwidth", "2"});
    attributes.push_back({"color", "black"});
  }
}

/// Where pipes' texts share a column with places, the first pipe that leads to a place stands by
/// it. Further ones keep columns of their own, else lines of a loop would run to and fro.
std::string group_of_place(const Subject& subject, std::size_t place) {
  return subject.form.pipes == PipeColumn::Own ? "" : fmt::format("group_{}", place);
}

std::string group_of_pipe(const Subject& subject, std::size_t pipe) {
  const std::vector<model::Pipe>& pipes = subject.farm.pipes;
  const std::size_t place = pipes[pipe].to;
  const auto first = std::find_if(
      pipes.begin(), pipes.end(), [place](const model::Pipe& other) { return other.to == place; });
  const bool is_first = first - pipes.begin() == static_cast<std::ptrdiff_t>(pipe);
  return is_first ? group_of_place(subject, place) : "";
}

GraphNode box(const std::string& id, const BoxText& shown, const BoxText& text, std::size_t width) {
  return {id, {{"id", id}, {"label", box_label(shown, width)}, {"tooltip", box_tooltip(text)}}, ""};
}

GraphNode place_node(const Subject& subject, std::size_t index) {
  const model::Place& place = subject.farm.places[index];
  const solver::PlaceAnswer& seen = subject.answer.places[index];
  const BoxText text = place_text(subject.farm, subject.answer, index, subject.units);
  const BoxText shown = subject.form.is_short
                            ? short_place_text(subject.farm, subject.answer, index, subject.units)
                            : text;
  GraphNode node = box(fmt::format("place_{}", index), shown, text, subject.form.place_width);
  node.group = group_of_place(subject, index);
  node.attributes.push_back({"class", fmt::format("place {}", model::kind_word(place))});
  if (seen.pressure_Pa) {
    node.attributes.push_back({"fillcolor", pressure_colour(*seen.pressure_Pa, subject.units)});
  }
  if (model::is_open_water(place)) {
    node.attributes.push_back({"style", "filled,rounded"});
  }
  add_outline(node.attributes, attention_at(place.name, seen.state, subject.answer).outline);
  return node;
}

GraphNode pipe_node(const Subject& subject, std::size_t index) {
  const solver::PipeAnswer& seen = subject.answer.pipes[index];
  const BoxText text = pipe_text(subject.farm, subject.answer, index, subject.units);
  const BoxText shown = subject.form.is_short
                            ? short_pipe_text(subject.farm, subject.answer, index, subject.units)
                            : text;
  GraphNode node = box(fmt::format("pipe_{}", index), shown, text, subject.form.pipe_width);
  node.group = group_of_pipe(subject, index);
  node.attributes.push_back({"class", "pipe"});
  const bool is_filled = seen.lowest_pressure_Pa && *seen.lowest_pressure_Pa < 0.0;
  if (is_filled) {
    node.attributes.push_back(
        {"fillcolor", pressure_colour(*seen.lowest_pressure_Pa, subject.units)});
  }
  const std::string& name = subject.farm.pipes[index].name;
  const Outline outline = attention_at(name, seen.state, subject.answer).outline;
  if (outline == Outline::Plain) {
    node.attributes.push_back({"peripheries", "0"});
  }
  const bool is_bare = outline == Outline::Plain && !is_filled;
  node.attributes.push_back({"margin", is_bare ? "0.05,0.02" : "0.11,0.02"});
  add_outline(node.attributes, outline);
  return node;
}

/// The two halves of a pipe's line. The layout runs as the farmer wrote the pipe, so that all load
/// cases give the same picture; the arrow alone shows which way the water runs.
void add_pipe_line(GraphPage& page, const Subject& subject, std::size_t index) {
  const model::Pipe& pipe = subject.farm.pipes[index];
  const solver::PipeAnswer& seen = subject.answer.pipes[index];
  const std::size_t text_node = subject.farm.places.size() + index;
  const std::string id = fmt::format("pipe_{}", index);
  Attributes line{{"penwidth", pen_width(seen.flow_m3_s, widest_flow(subject.answer))}};
  if (is_still(seen)) {
    line.push_back({"style", "dashed"});
  }
  Attributes above = line;
  Attributes below = line;
  above.push_back({"id", id + "_from"});
  below.push_back({"id", id + "_to"});
  if (!is_still(seen) && seen.flow_m3_s > 0.0) {
    below.push_back({"dir", "forward"});
  } else if (!is_still(seen)) {
    above.push_back({"dir", "back"});
  }
  if (!group_of_pipe(subject, index).empty()) {
    below.push_back({"minlen", "0"});
  }
  page.edges.push_back({pipe.from, text_node, id + "_from", above});
  page.edges.push_back({text_node, pipe.to, id + "_to", below});
}

std::string title_words(const model::Farm& farm, const solver::SteadyAnswer& answer) {
  return "Drawn by leat, " + drawing_date() + "; not a survey; " + situation_text(farm, answer);
}

Attributes page_attributes(const Subject& subject) {
  const bool has_own_column = subject.form.pipes == PipeColumn::Own;
  return {{"rankdir", "LR"},
          {"charset", "UTF-8"},
          {"fontname", "DejaVu Sans"},
          {"labeljust", "l"},
          {"nodesep", has_own_column ? "0.09" : "0.17"},
          {"ranksep", has_own_column ? "0.19" : "0.25"},
          {"outputorder", "edgesfirst"},  // a wide arrow's tip ends under the box, not in its text
          {"margin", "0.1"},
          {"size", "11.2,7.8"},
          {"bgcolor", "white"}};
}

/// How well a form reads at the same size. Short lines break facts in two. Where pipes' texts share
/// columns with places, the pipes' lines run up and down and cross more.
double readability_of(const SheetForm& form) {
  const double breaks_facts = form.pipe_width < 17 ? 0.95 : 1.0;
  return breaks_facts * (form.pipes == PipeColumn::Own ? 1.0 : 0.8);
}

/// Frame with a label at its top or bottom that starts at the same left edge as all others.
Attributes labelled_frame(const Attribute& label,
                          const std::string& side,
                          const std::string& font) {
  return {
      label, {"labelloc", side}, {"fontsize", font}, {"margin", "0"}, {"pencolor", "transparent"}};
}

/// From outside: the farm's name, the words under it, the key.
std::vector<Attributes> frames(const Subject& subject) {
  const std::vector<solver::PipeAnswer>& pipes = subject.answer.pipes;
  const bool runs = !std::all_of(pipes.begin(), pipes.end(), is_still);
  const std::string most =
      runs ? one_line(flow_figure(widest_flow(subject.answer), subject.units)) : "";
  const std::string words = title_words(subject.farm, subject.answer) + subject.form.remark;
  return {labelled_frame({"label", plain_label({subject.farm.name}, 70, LineEnd::Left)}, "t", "15"),
          labelled_frame({"label", plain_label({words}, 130, LineEnd::Left)}, "t", "10"),
          labelled_frame(
              {"label", legend_markup(subject.units, most), AttributeText::Markup}, "b", "10")};
}

}  // namespace

GraphPage schematic_sheet(const model::Farm& farm,
                          const solver::SteadyAnswer& answer,
                          model::UnitSystem units,
                          const SheetForm& form) {
  const Subject subject{farm, answer, units, form};
  GraphPage page;
  page.graph = page_attributes(subject);
  page.readability = readability_of(form);
  page.node_defaults = {{"shape", "box"},
                        {"style", "filled"},
                        {"fillcolor", no_pressure_colour()},
                        {"color", "gray35"},
                        {"fontname", "DejaVu Sans"},
                        {"fontsize", "10"},
                        {"penwidth", "1"},
                        {"width", "0"},
                        {"height", "0"},
                        {"margin", "0.09,0.04"}};
  page.edge_defaults = {{"color", "gray20"}, {"dir", "none"}, {"arrowsize", "0.7"}};
  page.frames = frames(subject);
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    page.nodes.push_back(place_node(subject, i));
  }
  for (std::size_t i = 0; i < farm.pipes.size(); ++i) {
    page.nodes.push_back(pipe_node(subject, i));
    add_pipe_line(page, subject, i);
  }
  return page;
}

}  // namespace leat::render
