// What a drawn farm holds. Only its structure is looked at: positions depend on installed fonts.
#include "render/pictures/schematic/schematic.h"

#include <algorithm>
#include <cstddef>
#include <cstdlib>
#include <limits>
#include <locale>
#include <optional>
#include <random>
#include <string>
#include <string_view>
#include <thread>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

#include "model/quantity/quantity.h"
#include "render/pictures/schematic/box_text.h"
#include "render/pictures/schematic/pipe_label.h"

namespace {

using leat::model::Farm;
using leat::model::UnitSystem;
using leat::render::draw_schematic;
using leat::render::DrawFormat;
using leat::render::DrawResult;
using leat::solver::Finding;
using leat::solver::LoadCase;
using leat::solver::PipeAnswer;
using leat::solver::PipeState;
using leat::solver::PlaceAnswer;
using leat::solver::PlaceState;
using leat::solver::Severity;
using leat::solver::SteadyAnswer;

/// A farm and its answer, put together by hand: drawing needs no solver.
class DrawnFarm {
 public:
  explicit DrawnFarm(const std::string& name) {
    farm.name = name;
    farm.datum = "barn slab corner = 30 m";
    answer.converged = true;
    answer.air_pressure_Pa = 96400.0;
    answer.density_kg_m3 = 999.0;
  }

  std::size_t place(const std::string& name, leat::model::PlaceData data, PlaceAnswer seen) {
    leat::model::Place place;
    place.name = name;
    place.data = std::move(data);
    farm.places.push_back(place);
    answer.places.push_back(seen);
    return farm.places.size() - 1;
  }

  std::size_t pipe(const std::string& name, std::size_t from, std::size_t to, PipeAnswer seen) {
    leat::model::Pipe pipe;
    pipe.name = name;
    pipe.from = from;
    pipe.to = to;
    pipe.size.text = "1 in SIDR 15";
    pipe.length = leat::metres(120.0);
    farm.pipes.push_back(pipe);
    answer.pipes.push_back(seen);
    return farm.pipes.size() - 1;
  }

  [[nodiscard]] DrawResult drawn(DrawFormat format) const {
    return draw_schematic(farm, answer, {format, UnitSystem::Metric});
  }

  [[nodiscard]] std::string svg() const {
    const DrawResult result = drawn(DrawFormat::Svg);
    REQUIRE(result.problem.empty());
    return result.bytes;
  }

  Farm farm;
  SteadyAnswer answer;
};

PlaceAnswer standing_at(double elevation_m) {
  PlaceAnswer seen;
  seen.elevation_m = elevation_m;
  seen.head_m = elevation_m;
  return seen;
}

PipeAnswer running(double flow_m3_s) {
  PipeAnswer seen;
  seen.flow_m3_s = flow_m3_s;
  return seen;
}

/// A spring, one pipe and one trough that gets a quarter of its need.
DrawnFarm farm_with_a_starved_trough() {
  DrawnFarm drawing("Alder Hollow");
  const std::size_t spring = drawing.place("upper", leat::model::Spring{}, standing_at(40.0));
  PlaceAnswer seen = standing_at(32.9);
  seen.delivered_m3_s = 5e-5;
  seen.need_m3_s = 2e-4;
  seen.met = 0.25;
  seen.pressure_Pa = 4900.0;
  seen.state = PlaceState::Starved;
  const std::size_t trough = drawing.place("north", leat::model::Trough{}, seen);
  drawing.pipe("main", spring, trough, running(5e-5));
  return drawing;
}

std::string replaced(std::string text, std::string_view from, std::string_view to) {
  for (std::size_t at = text.find(from); at != std::string::npos;
       at = text.find(from, at + to.size())) {
    text.replace(at, from.size(), to);
  }
  return text;
}

/// The text as a reader of the XML sees it.
std::string without_entities(std::string text) {
  text = replaced(text, "&#45;", "-");
  text = replaced(text, "&#160;", " ");
  text = replaced(text, "&#39;", "'");
  text = replaced(text, "&quot;", "\"");
  text = replaced(text, "&lt;", "<");
  text = replaced(text, "&gt;", ">");
  return replaced(text, "&amp;", "&");
}

bool holds(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

std::size_t count_of(const std::string& text, std::string_view part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos;
       at = text.find(part, at + part.size())) {
    ++count;
  }
  return count;
}

/// The lines of the SVG from `id="..."` up to the next element with a title.
std::string element_with_id(const std::string& svg, const std::string& id) {
  const std::size_t start = svg.find("<g id=\"" + id + "\"");
  REQUIRE(start != std::string::npos);
  const std::size_t next = svg.find("\n<!-- ", start);
  return svg.substr(start, next == std::string::npos ? next : next - start);
}

/// Whether every `&` starts one of XML's own or numeric entities.
bool has_sound_entities(const std::string& xml) {
  for (std::size_t at = xml.find('&'); at != std::string::npos; at = xml.find('&', at + 1)) {
    const std::size_t end = xml.find(';', at);
    if (end == std::string::npos || end - at > 9) {
      return false;
    }
    const std::string name = xml.substr(at + 1, end - at - 1);
    const bool is_named =
        name == "amp" || name == "lt" || name == "gt" || name == "quot" || name == "apos";
    if (!is_named && name.front() != '#') {
      return false;
    }
  }
  return true;
}

/// Name of the element that a tag such as `g id="x"` or `/g` opens or closes.
std::string tag_name(const std::string& tag) {
  const std::size_t start = tag.front() == '/' ? 1 : 0;
  return tag.substr(start, tag.find_first_of(" \t\r\n/", start) - start);
}

/// Empty when tags open and close in order and entities are sound, else what is wrong first.
std::string xml_fault(const std::string& xml) {
  std::vector<std::string> open;
  for (std::size_t at = xml.find('<'); at != std::string::npos; at = xml.find('<', at)) {
    const bool is_comment = xml.compare(at, 4, "<!--") == 0;
    const std::string_view closing = is_comment ? "-->" : ">";
    const std::size_t end = xml.find(closing, at);
    if (end == std::string::npos) {
      return "a tag does not end";
    }
    const std::string tag = xml.substr(at + 1, end - at - 1);
    at = end + closing.size();
    if (tag.empty() || holds(tag, "<")) {
      return "a stray '<' before " + tag;
    }
    if (is_comment || tag.front() == '!' || tag.front() == '?' || tag.back() == '/') {
      continue;
    }
    if (tag.front() != '/') {
      open.push_back(tag_name(tag));
    } else if (open.empty() || open.back() != tag_name(tag)) {
      return "'" + tag + "' closes what is not open";
    } else {
      open.pop_back();
    }
  }
  if (!open.empty()) {
    return "'" + open.back() + "' stays open";
  }
  return has_sound_entities(xml) ? "" : "an unknown entity";
}

/// Sets a variable of the environment while it lives.
class EnvironmentValue {
 public:
  EnvironmentValue(std::string name, const std::string& value) : name_(std::move(name)) {
    const char* const before = std::getenv(name_.c_str());
    if (before != nullptr) {
      before_ = before;
    }
    setenv(name_.c_str(), value.c_str(), 1);
  }
  ~EnvironmentValue() {
    if (before_) {
      setenv(name_.c_str(), before_->c_str(), 1);
    } else {
      unsetenv(name_.c_str());
    }
  }
  EnvironmentValue(const EnvironmentValue&) = delete;
  EnvironmentValue& operator=(const EnvironmentValue&) = delete;

 private:
  std::string name_;
  std::optional<std::string> before_;
};

/// All y of the points that `attribute="..."` holds in the element.
std::vector<double> heights_in(const std::string& element, const std::string& attribute) {
  std::vector<double> heights;
  const std::string opening = " " + attribute + "=\"";
  for (std::size_t at = element.find(opening); at != std::string::npos;
       at = element.find(opening, at + 1)) {
    const std::size_t end = element.find('"', at + opening.size());
    for (std::size_t comma = element.find(',', at); comma < end;
         comma = element.find(',', comma + 1)) {
      heights.push_back(std::strtod(element.c_str() + comma + 1, nullptr));
    }
  }
  return heights;
}

/// The y of the text that begins with `words`.
double height_of_text(const std::string& svg, const std::string& words) {
  const std::size_t at = svg.find(">" + words);
  REQUIRE(at != std::string::npos);
  const std::string attribute = " y=\"";
  return std::strtod(svg.c_str() + svg.rfind(attribute, at) + attribute.size(), nullptr);
}

/// Two sources, three tees in a ring with a line across, and a trough at each tee.
DrawnFarm farm_with_a_ring() {
  DrawnFarm drawing("Heron Ring");
  const std::size_t spring = drawing.place("spring", leat::model::Spring{}, standing_at(46.0));
  const std::size_t creek = drawing.place("creek", leat::model::Creek{}, standing_at(32.0));
  const std::size_t head = drawing.place("head tee", leat::model::Tee{}, standing_at(27.0));
  const std::size_t north = drawing.place("north tee", leat::model::Tee{}, standing_at(25.0));
  const std::size_t south = drawing.place("south tee", leat::model::Tee{}, standing_at(24.0));
  const std::size_t far = drawing.place("far tee", leat::model::Tee{}, standing_at(22.0));
  drawing.pipe("spring line", spring, head, running(2e-4));
  drawing.pipe("creek line", creek, head, running(1e-4));
  drawing.pipe("north side", head, north, running(1e-4));
  drawing.pipe("south side", head, south, running(1e-4));
  drawing.pipe("far north", north, far, running(5e-5));
  drawing.pipe("far south", south, far, running(5e-5));
  drawing.pipe("cross pipe", north, south, running(-1e-5));
  for (const std::size_t tee : {head, north, south, far}) {
    const std::string name = "trough " + std::to_string(tee);
    const std::size_t trough = drawing.place(name, leat::model::Trough{}, standing_at(21.0));
    drawing.pipe("to " + name, tee, trough, running(5e-5));
  }
  return drawing;
}

class DecimalComma : public std::numpunct<char> {
 protected:
  char do_decimal_point() const override { return ','; }
  char do_thousands_sep() const override { return '.'; }
  std::string do_grouping() const override { return "\3"; }
};

}  // namespace

TEST_CASE("the check for well-formed XML itself finds faults", "[schematic]") {
  CHECK(xml_fault("<a><b/><c>x &amp; y</c></a>").empty());
  CHECK_FALSE(xml_fault("<a><b></a>").empty());
  CHECK_FALSE(xml_fault("<a>").empty());
  CHECK_FALSE(xml_fault("<a>x & y</a>").empty());
  CHECK_FALSE(xml_fault("<a>x < y</a>").empty());
}

TEST_CASE("every place and pipe of the farm is named on the drawing", "[schematic]") {
  const DrawnFarm drawing = farm_with_a_starved_trough();
  const std::string svg = drawing.svg();
  CHECK(xml_fault(svg).empty());
  for (const std::string text : {"Alder Hollow", "upper", "north", "main"}) {
    CAPTURE(text);
    CHECK(holds(svg, ">" + text + "<"));
  }
  CHECK(holds(svg, "spring, 40 m"));
  CHECK(holds(svg, "barn slab corner = 30 m"));
  CHECK(holds(svg, "load case: needs"));
  CHECK(holds(without_entities(svg), "not a survey"));
}

TEST_CASE("names with markup and backslashes are drawn as they were written", "[schematic]") {
  const std::string name = GENERATE(as<std::string>(),
                                    "A & B <x>",
                                    "C:\\temp\\N",
                                    "\\G\\L\\l\\r",
                                    "<b>wide</b>",
                                    "it's \"so\"",
                                    "\xC3\x85s \xD7\xA9\xF0\x9F\x90\x84",
                                    "a--b|c{d}");
  CAPTURE(name);
  DrawnFarm drawing(name);
  const std::size_t spring = drawing.place(name, leat::model::Spring{}, standing_at(40.0));
  const std::size_t pond = drawing.place("pond", leat::model::Pond{}, standing_at(30.0));
  drawing.pipe("pipe of " + name, spring, pond, running(1e-4));
  drawing.farm.datum = name;
  const std::string svg = drawing.svg();
  CHECK(xml_fault(svg).empty());
  const std::string read = without_entities(svg);
  CHECK(count_of(read, ">" + name + "<") >= 2);  // title and place
  CHECK(holds(read, "pipe of " + name));
  CHECK(holds(read, "levels: " + name + "; load case"));
}

TEST_CASE("bytes that are no text do not spoil the drawing", "[schematic]") {
  const std::string name = GENERATE(as<std::string>(),
                                    "bad \xFF\xFE byte",
                                    "cut \xE2\x82",
                                    "\xC0\xAFoverlong",
                                    "half \xED\xA0\x80 pair",
                                    "bell\x07 and\x1B[31m tab\t\n");
  CAPTURE(name);
  DrawnFarm drawing = farm_with_a_starved_trough();
  drawing.farm.name = name;
  drawing.farm.places[0].name = name;
  drawing.farm.pipes[0].name = name;
  drawing.farm.pipes[0].size.text = name;
  const std::string svg = drawing.svg();
  CHECK(xml_fault(svg).empty());
  for (const std::string_view byte : {"\xFF", "\xFE", "\x07", "\x1B", "\xC0", "\xED\xA0"}) {
    CHECK_FALSE(holds(svg, byte));
  }
}

TEST_CASE("a name of eighty letters without a space is cut into lines and kept whole in the tip",
          "[schematic]") {
  const std::string name(80, 'w');
  DrawnFarm drawing = farm_with_a_starved_trough();
  drawing.farm.places[1].name = name;
  const std::string svg = drawing.svg();
  CHECK(holds(svg, "title=\"" + name));
  CHECK_FALSE(holds(svg, ">" + name + "<"));
}

TEST_CASE("two pipes side by side are both drawn", "[schematic]") {
  DrawnFarm drawing = farm_with_a_starved_trough();
  drawing.pipe("second main", 0, 1, running(3e-5));
  const std::string svg = drawing.svg();
  CHECK(holds(svg, ">main<"));
  CHECK(holds(svg, ">second main<"));
  for (const std::string id : {"pipe_0_from", "pipe_0_to", "pipe_1_from", "pipe_1_to"}) {
    CAPTURE(id);
    CHECK(count_of(svg, "<g id=\"" + id + "\"") == 1);
  }
}

TEST_CASE("a pipe in which no water moves is dashed and has no arrow", "[schematic]") {
  DrawnFarm drawing = farm_with_a_starved_trough();
  drawing.pipe("old line", 0, 1, running(0.0));
  drawing.answer.pipes.back().state = PipeState::Still;
  const std::string svg = drawing.svg();
  const std::string still = element_with_id(svg, "pipe_1_to");
  CHECK(holds(still, "stroke-dasharray"));
  CHECK_FALSE(holds(still, "<polygon"));
  CHECK(holds(element_with_id(svg, "pipe_1"), ">120 m, still<"));
  const std::string moving = element_with_id(svg, "pipe_0_to");
  CHECK_FALSE(holds(moving, "stroke-dasharray"));
  CHECK(holds(moving, "<polygon"));  // the arrow's head
}

TEST_CASE("water that runs backwards turns the arrow and not the layout", "[schematic]") {
  DrawnFarm drawing = farm_with_a_starved_trough();
  drawing.answer.pipes[0].flow_m3_s = -5e-5;
  drawing.answer.pipes[0].state = PipeState::Backwards;
  const std::string svg = drawing.svg();
  CHECK(holds(element_with_id(svg, "pipe_0_from"), "<polygon"));
  CHECK_FALSE(holds(element_with_id(svg, "pipe_0_to"), "<polygon"));
  CHECK(holds(element_with_id(svg, "pipe_0"), ">backwards<"));
  const std::string dot = drawing.drawn(DrawFormat::Dot).bytes;
  CHECK(holds(dot, "place_0 -> pipe_0"));
  CHECK(holds(dot, "pipe_0 -> place_1"));
  CHECK(holds(dot, "dir=back"));
  CHECK_FALSE(holds(dot, "dir=forward"));
}

TEST_CASE("the pipe that carries more water is drawn as the wider line", "[schematic]") {
  DrawnFarm drawing = farm_with_a_starved_trough();
  drawing.pipe("trickle", 0, 1, running(1e-6));
  const std::string dot = drawing.drawn(DrawFormat::Dot).bytes;
  CHECK(count_of(dot, "penwidth=4.00") == 2);  // both halves of the fullest pipe
  CHECK(count_of(dot, "penwidth=1.17") == 2);  // 0.7 + 3.3 sqrt(1/50)
}

TEST_CASE("a starved trough is told by words and a double outline, not by colour alone",
          "[schematic]") {
  DrawnFarm drawing = farm_with_a_starved_trough();
  const std::string starved = element_with_id(drawing.svg(), "place_1");
  CHECK(holds(without_entities(starved), "gets 3 of 12 L/min"));
  CHECK(holds(starved, "starved: 25 % of need"));
  CHECK(count_of(starved, "<polygon") == 2);  // the box and a second outline

  drawing.answer.places[1].state = PlaceState::Ok;
  const std::string content = element_with_id(drawing.svg(), "place_1");
  CHECK_FALSE(holds(content, "starved"));
  CHECK(count_of(content, "<polygon") == 1);
}

TEST_CASE("each state that needs attention is written out and outlined", "[schematic]") {
  DrawnFarm drawing = farm_with_a_starved_trough();
  SECTION("at a place") {
    const PlaceState state = GENERATE(
        PlaceState::BelowVapour, PlaceState::NearVapour, PlaceState::Breaks, PlaceState::Dry);
    drawing.answer.places[1].state = state;
    const std::string box = element_with_id(drawing.svg(), "place_1");
    CHECK(holds(box, std::string(">") + leat::solver::word_of(state) + "<"));
    CHECK(count_of(box, "<polygon") == 2);
  }
  SECTION("on a pipe") {
    const PipeState state =
        GENERATE(PipeState::Parted, PipeState::NearVapour, PipeState::OverRating);
    drawing.answer.pipes[0].state = state;
    const std::string box = element_with_id(drawing.svg(), "pipe_0");
    CHECK(holds(box, std::string(">") + leat::solver::word_of(state) + "<"));
    CHECK(count_of(box, "<polygon") == 2);
  }
}

TEST_CASE("a danger flagged at a place is written there with the case it was found in",
          "[schematic]") {
  DrawnFarm drawing = farm_with_a_starved_trough();
  Finding flag;
  flag.code = leat::solver::Code::AirIn;
  flag.severity = Severity::Danger;
  flag.where = "upper";
  flag.load_case = LoadCase::Wide;
  Finding note;
  note.code = leat::solver::Code::Fast;
  note.where = "upper";
  drawing.answer.flags = {flag, note};
  const std::string dot = drawing.drawn(DrawFormat::Dot).bytes;
  CHECK(holds(dot, "air in (when wide)"));
  CHECK_FALSE(holds(dot, "fast"));
  CHECK(count_of(dot, "peripheries=2") == 2);  // the spring and the starved trough
}

TEST_CASE("a siphon's pipe tells its foot valve, its throttle and its summit's margin",
          "[schematic]") {
  DrawnFarm drawing = farm_with_a_starved_trough();
  leat::model::Fitting foot_valve;
  foot_valve.name = "hinged foot valve";
  foot_valve.place.where = leat::model::Placement::Where::Start;
  leat::model::Pipe& pipe = drawing.farm.pipes[0];
  pipe.fittings.push_back(foot_valve);
  leat::model::Valve valve;
  valve.open = 0.375;
  valve.place = leat::model::Placement{leat::model::Placement::Where::End, {}};
  pipe.valve = valve;
  leat::solver::SummitAnswer summit;
  summit.elevation_m = 40.8;
  summit.absolute_head_m = 8.6;
  summit.margin_m = 8.4;
  drawing.answer.pipes[0].summit = summit;
  drawing.answer.pipes[0].lowest_pressure_Pa = -12100.0;
  const std::string tip = without_entities(element_with_id(drawing.svg(), "pipe_0"));
  CHECK(holds(tip, "hinged foot valve at start, gate valve 3/8 open at end"));
  CHECK(holds(tip, "summit 40.8 m, margin 8.4 m"));
  CHECK(holds(tip, "suction 12.1 kPa"));
}

TEST_CASE("suction and pressure stand on either side of white", "[schematic]") {
  DrawnFarm drawing = farm_with_a_starved_trough();
  struct Row {
    double pressure_Pa;
    std::string colour;
    std::string words;
  };
  const Row row = GENERATE(values<Row>({{-60e3, "/brbg9/2", "suction 60"},
                                        {-20e3, "/brbg9/3", "suction 20"},
                                        {-5e3, "/brbg9/4", "suction 5"},
                                        {50.0, "white", "no pressure"},
                                        {5e3, "/brbg9/6", "5 kPa"},
                                        {200e3, "/brbg9/7", "200 kPa"},
                                        {500e3, "/brbg9/8", "500 kPa"}}));
  CAPTURE(row.pressure_Pa);
  drawing.answer.places[1].pressure_Pa = row.pressure_Pa;
  const std::string dot = drawing.drawn(DrawFormat::Dot).bytes;
  const std::size_t box = dot.find("place_1\t[");
  REQUIRE(box != std::string::npos);
  const std::string attributes = dot.substr(box, dot.find("];", box) - box);
  if (row.colour == "white") {
    CHECK_FALSE(holds(attributes, "fillcolor"));  // white is what every box starts from
    CHECK(holds(dot, "fillcolor=white"));
  } else {
    CHECK(holds(attributes, "fillcolor=\"" + row.colour + "\""));
  }
  CHECK(holds(replaced(attributes, "\\l", "|"), "|" + row.words));
}

TEST_CASE("the key explains fill, line, arrow and outline", "[schematic]") {
  const std::string svg = without_entities(farm_with_a_starved_trough().svg());
  for (const std::string words : {"suction over 40 kPa",
                                  "no pressure",
                                  "pressure over 300 kPa",
                                  "most water (3 L/min)",
                                  "which way it runs",
                                  "no flow",
                                  "double outline"}) {
    CAPTURE(words);
    CHECK(holds(svg, words));
  }
}

TEST_CASE("a farm shown in US units is drawn in feet and gallons", "[schematic]") {
  const DrawnFarm drawing = farm_with_a_starved_trough();
  const DrawResult result =
      draw_schematic(drawing.farm, drawing.answer, {DrawFormat::Svg, UnitSystem::Us});
  CHECK(holds(result.bytes, "spring, 131.2 ft"));           // 40 m / 0.3048
  CHECK(holds(result.bytes, "gets 0.79 of 3.17 gal/min"));  // 5e-5 and 2e-4 m3/s
  CHECK_FALSE(holds(result.bytes, "kPa"));
}

TEST_CASE("the same farm gives the same text of the graph and the same SVG", "[schematic]") {
  const EnvironmentValue day("SOURCE_DATE_EPOCH", "1786665600");
  const DrawnFarm drawing = farm_with_a_starved_trough();
  const std::string first = drawing.drawn(DrawFormat::Dot).bytes;
  CHECK(holds(first, "digraph"));
  CHECK(holds(first, "2026-08-14"));
  CHECK(first == drawing.drawn(DrawFormat::Dot).bytes);
  CHECK(drawing.svg() == drawing.svg());
}

TEST_CASE("a date that is no number is not used", "[schematic]") {
  const EnvironmentValue day("SOURCE_DATE_EPOCH", "yesterday");
  const std::string dot = farm_with_a_starved_trough().drawn(DrawFormat::Dot).bytes;
  CHECK_FALSE(holds(dot, "yesterday"));
  CHECK_FALSE(holds(dot, "1970-01-01"));
}

TEST_CASE("a locale with a decimal comma changes nothing on the drawing", "[schematic]") {
  const EnvironmentValue day("SOURCE_DATE_EPOCH", "1786665600");
  const DrawnFarm drawing = farm_with_a_starved_trough();
  const std::string before = drawing.drawn(DrawFormat::Dot).bytes;
  const std::locale previous =
      std::locale::global(std::locale(std::locale::classic(), new DecimalComma));
  const std::string after = drawing.drawn(DrawFormat::Dot).bytes;
  std::locale::global(previous);
  CHECK(before == after);
}

TEST_CASE("each kind of file starts as such a file does", "[schematic]") {
  const DrawnFarm drawing = farm_with_a_starved_trough();
  CHECK(holds(drawing.drawn(DrawFormat::Svg).bytes.substr(0, 300), "<?xml"));
  CHECK(drawing.drawn(DrawFormat::Pdf).bytes.substr(0, 5) == "%PDF-");
  CHECK(drawing.drawn(DrawFormat::Png).bytes.substr(1, 3) == "PNG");
  CHECK(drawing.drawn(DrawFormat::Dot).bytes.substr(0, 7) == "digraph");
}

TEST_CASE("without an answer there is no drawing but a reason", "[schematic]") {
  DrawnFarm drawing = farm_with_a_starved_trough();
  drawing.answer.converged = false;
  drawing.answer.places.clear();
  drawing.answer.pipes.clear();
  leat::model::Diagnostic problem;
  problem.text = "no balance was found after 200 steps";
  drawing.answer.problems.push_back(problem);
  const DrawFormat format = GENERATE(DrawFormat::Svg, DrawFormat::Dot);
  const DrawResult result = drawing.drawn(format);
  CHECK(result.bytes.empty());
  CHECK(holds(result.problem, "no balance was found after 200 steps"));
}

TEST_CASE("an answer of another farm is not drawn", "[schematic]") {
  DrawnFarm drawing = farm_with_a_starved_trough();
  drawing.answer.pipes.clear();
  const DrawResult result = drawing.drawn(DrawFormat::Svg);
  CHECK(result.bytes.empty());
  CHECK_FALSE(result.problem.empty());
}

TEST_CASE("figures that are not known leave no trace of a wrong number", "[schematic]") {
  DrawnFarm drawing = farm_with_a_starved_trough();
  PlaceAnswer& seen = drawing.answer.places[1];
  seen.head_m.reset();
  seen.pressure_Pa.reset();
  seen.delivered_m3_s = -0.0;
  seen.state = PlaceState::Dry;
  drawing.answer.pipes[0].flow_m3_s = std::numeric_limits<double>::denorm_min();
  drawing.answer.pipes[0].state = PipeState::Still;
  const std::string svg = drawing.svg();
  CHECK(holds(svg, "no water stands here"));
  CHECK_FALSE(holds(svg, "nan"));
  CHECK_FALSE(holds(without_entities(svg), "gets -0"));
}

TEST_CASE("a farm in a ring, with a pipe back to where the water came from, is drawn",
          "[schematic]") {
  DrawnFarm drawing = farm_with_a_starved_trough();
  const std::size_t first = drawing.place("first tee", leat::model::Tee{}, standing_at(36.0));
  const std::size_t second = drawing.place("second tee", leat::model::Tee{}, standing_at(35.0));
  drawing.pipe("to ring", 0, first, running(1e-4));
  drawing.pipe("ring one", first, second, running(5e-5));
  drawing.pipe("ring two", second, first, running(-5e-5));
  const std::string svg = drawing.svg();
  CHECK(xml_fault(svg).empty());
  CHECK(holds(svg, ">ring two<"));
}

TEST_CASE("farms drawn from several threads at once wait for each other", "[schematic]") {
  const EnvironmentValue day("SOURCE_DATE_EPOCH", "1786665600");
  const DrawnFarm drawing = farm_with_a_starved_trough();
  const std::string expected = drawing.svg();
  std::vector<std::string> drawn(4);
  std::vector<std::thread> threads;
  for (std::string& result : drawn) {
    threads.emplace_back([&drawing, &result]() { result = drawing.drawn(DrawFormat::Svg).bytes; });
  }
  for (std::thread& thread : threads) {
    thread.join();
  }
  for (const std::string& result : drawn) {
    CHECK(result == expected);
  }
}

TEST_CASE("a long chain of tees keeps all its names though it is drawn in narrow columns",
          "[schematic]") {
  DrawnFarm drawing("Long Meadow");
  std::size_t above = drawing.place("hill spring", leat::model::Spring{}, standing_at(60.0));
  for (int i = 1; i <= 10; ++i) {
    const std::string number = std::to_string(i);
    const std::size_t tee =
        drawing.place("tee " + number, leat::model::Tee{}, standing_at(60.0 - i));
    drawing.pipe("main " + number, above, tee, running(1e-4));
    const std::size_t trough =
        drawing.place("trough " + number, leat::model::Trough{}, standing_at(50.0 - i));
    drawing.pipe("branch " + number, tee, trough, running(1e-5));
    above = tee;
  }
  const std::string svg = drawing.svg();
  CHECK(xml_fault(svg).empty());
  for (const leat::model::Place& place : drawing.farm.places) {
    CAPTURE(place.name);
    CHECK(holds(svg, ">" + place.name + "<"));
  }
  for (const leat::model::Pipe& pipe : drawing.farm.pipes) {
    CAPTURE(pipe.name);
    CHECK(holds(svg, ">" + pipe.name + "<"));
  }
}

TEST_CASE("no pipe's line runs over the key or the title, however the pipes are listed",
          "[schematic]") {
  const unsigned seed = GENERATE(range(0U, 12U));
  CAPTURE(seed);
  DrawnFarm drawing = farm_with_a_ring();
  std::mt19937 order(seed);
  for (std::size_t i = drawing.farm.pipes.size() - 1; i > 0; --i) {
    const std::size_t other = order() % (i + 1);
    std::swap(drawing.farm.pipes[i], drawing.farm.pipes[other]);
    std::swap(drawing.answer.pipes[i], drawing.answer.pipes[other]);
  }
  const std::string svg = drawing.svg();
  const double words_above = height_of_text(svg, "Drawn by leat");
  const double key_below = height_of_text(svg, "Fill:");
  for (std::size_t i = 0; i < drawing.farm.pipes.size(); ++i) {
    for (const std::string half : {"_from", "_to"}) {
      const std::string id = "pipe_" + std::to_string(i) + half;
      CAPTURE(id);
      const std::vector<double> heights = heights_in(element_with_id(svg, id), "d");
      REQUIRE(heights.size() >= 4);
      CHECK(*std::min_element(heights.begin(), heights.end()) > words_above);
      CHECK(*std::max_element(heights.begin(), heights.end()) < key_below);
    }
  }
}

TEST_CASE("a number stays with its word where a pipe's text is broken into lines", "[schematic]") {
  const std::string size = GENERATE(as<std::string>(),
                                    "1-1/4 in SIDR 15, 100 psi",
                                    "32 mm PE100 SDR 11",
                                    "3/4 in SIDR 11.5, 125 psi");
  CAPTURE(size);
  const std::size_t width = GENERATE(14U, 17U, 20U, 26U);
  CAPTURE(width);
  DrawnFarm drawing = farm_with_a_starved_trough();
  drawing.farm.pipes[0].size.text = size;
  const leat::render::BoxText text =
      leat::render::pipe_text(drawing.farm, drawing.answer, 0, UnitSystem::Metric);
  const std::string label = replaced(leat::render::box_label(text, width), "\\l", "|");
  for (const std::string parted : {"SIDR|", "SDR|", "|in ", "|mm ", "|psi", "|m|", ",|"}) {
    CAPTURE(parted);
    CHECK_FALSE(holds(label, parted));
  }
  for (const std::string whole : {"|120 m", "3 L/min|"}) {
    CAPTURE(whole);
    CHECK(holds(label, whole));
  }
}

TEST_CASE("a place has one fact on a line", "[schematic]") {
  const DrawnFarm drawing = farm_with_a_starved_trough();
  const std::string box = without_entities(element_with_id(drawing.svg(), "place_1"));
  for (const std::string line :
       {"trough, 32.9 m", "gets 3 of 12 L/min", "4.9 kPa", "starved: 25 % of need"}) {
    CAPTURE(line);
    CHECK(holds(box, ">" + line + "<"));
  }
}

TEST_CASE("a tank tells what runs through it", "[schematic]") {
  DrawnFarm drawing = farm_with_a_starved_trough();
  drawing.farm.places[1].data = leat::model::Tank{};
  drawing.answer.places[1] = standing_at(30.0);
  const std::size_t pond = drawing.place("pond", leat::model::Pond{}, standing_at(20.0));
  drawing.pipe("onward", 1, pond, running(5e-5));
  SECTION("all that comes goes on") {
    const std::string box = element_with_id(drawing.svg(), "place_1");
    CHECK(holds(without_entities(box), "3 L/min runs through"));
    CHECK_FALSE(holds(box, "nothing"));
  }
  SECTION("some of it spills") {
    drawing.answer.pipes[1].flow_m3_s = 2e-5;
    drawing.answer.places[1].delivered_m3_s = 3e-5;
    drawing.answer.places[1].spill_m3_s = 3e-5;
    const std::string box = without_entities(element_with_id(drawing.svg(), "place_1"));
    CHECK(holds(box, "3 L/min in, 1.2 L/min out"));
    CHECK(holds(box, ">spills 1.8 L/min<"));
  }
  SECTION("nothing comes and nothing goes") {
    drawing.answer.pipes[0].flow_m3_s = 0.0;
    drawing.answer.pipes[1].flow_m3_s = 0.0;
    CHECK(holds(element_with_id(drawing.svg(), "place_1"), ">nothing in or out<"));
  }
}

TEST_CASE("the key of a farm without flow names no widest flow", "[schematic]") {
  DrawnFarm drawing = farm_with_a_starved_trough();
  drawing.answer.pipes[0].flow_m3_s = 0.0;
  const std::string svg = without_entities(drawing.svg());
  CHECK_FALSE(holds(svg, "most water"));
  CHECK(holds(svg, "no flow"));
}

TEST_CASE("the pipe of a siphon that broke says so", "[schematic]") {
  DrawnFarm drawing = farm_with_a_starved_trough();
  drawing.answer.places[0].state = PlaceState::Breaks;
  drawing.answer.pipes[0].flow_m3_s = 0.0;
  const std::string broken = element_with_id(drawing.svg(), "pipe_0");
  CHECK(holds(broken, ">broken siphon, no water<"));
  CHECK_FALSE(holds(broken, "still"));
}
