// The picture of a profile: nothing a farm's owner writes is ever run, and texts stand clear.
#include "render/pictures/chart/profile_chart.h"

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "render/io/gnuplot.h"
#include "render/pictures/chart/label_rows.h"
#include "render/pictures/chart/profile_lines.h"
#include "tests/support/farm_text.h"

namespace leat::render {

namespace {

model::Farm over_the_rise() {
  return tests::farm_of(R"(
farm: plain
creeks: {c: {surface: 100 m}}
ponds: {p: {surface: 90 m}}
pipes:
  a: {from: c, to: p, size: 1 in SIDR 15, path: [[0 m, 99 m], [60 m, 103 m], [100 m, 89 m]]}
)");
}

std::size_t count_of(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
    ++count;
  }
  return count;
}

}  // namespace

TEST_CASE("whatever a farm is called is drawn as text and never run") {
  const std::string trap = "leat-trap-sprung";
  std::filesystem::remove(trap);
  for (const std::string& name : {"\"; system(\"touch " + trap + "\") #",
                                  "'; system('touch " + trap + "') #",
                                  "`touch " + trap + "`",
                                  std::string("END_OF_WORDS"),
                                  std::string("|END_OF_DATA"),
                                  std::string("ends in a backslash \\"),
                                  std::string("# ! @a $words {/=90 x} a_b^c ~d %s %d &{x}"),
                                  std::string("new\nline\rand\ttab and \x01 and \x7f"),
                                  std::string("Bl\xC3\xA5"
                                              "b\xC3\xA6r \xE6\xB0\xB4 \xF0\x9F\x92\xA7"),
                                  std::string("not UTF-8: \xff\xfe"),
                                  std::string(4000, 'w')}) {
    CAPTURE(name);
    model::Farm farm = over_the_rise();
    farm.name = name;
    farm.datum = name;
    farm.places[0].name = name;
    farm.pipes[0].name = name;
    const solver::Profile profile = solver::profile_of(farm, "", {});
    for (const ChartFormat format : {ChartFormat::Svg, ChartFormat::Pdf, ChartFormat::Png}) {
      const ChartResult drawn = draw_profile(farm, profile, {format, model::UnitSystem::Metric});
      CHECK(drawn.problem == "");
      CHECK(drawn.bytes.size() > 1000);
    }
    CHECK_FALSE(std::filesystem::exists(trap));
  }
}

TEST_CASE("a name stands in the script behind a bar, in no command") {
  model::Farm farm = over_the_rise();
  farm.name = "Quill & Thorn \"No. 2\"";
  const solver::Profile profile = solver::profile_of(farm, "", {});
  const std::string script = profile_script(farm, profile, {});
  CHECK(count_of(script, "Quill") == 1);
  CHECK(script.find("\n|Quill & Thorn \"No. 2\"\n") != std::string::npos);
}

TEST_CASE("a script gnuplot cannot read is a problem in words, not a crash") {
  const GnuplotResult result = run_gnuplot("plot nonsense(\n");
  CHECK(result.bytes.empty());
  CHECK(result.problem.find("gnuplot could not draw it") != std::string::npos);
  // More than a pipe holds, to a reader that gives up at its first line.
  const GnuplotResult gone = run_gnuplot("exit status 3\n" + std::string(4'000'000, '#'));
  CHECK_FALSE(gone.problem.empty());
}

TEST_CASE("the zone in suction is closed and lies between the pipe and the running grade line") {
  const model::Farm farm = over_the_rise();
  const solver::Profile profile = solver::profile_of(farm, "", {});
  const ProfileLines lines = profile_lines(farm, profile, model::UnitSystem::Metric);
  REQUIRE(lines.suction.size() == 1);
  const Polyline& zone = lines.suction.front();
  CHECK(zone.front().x == zone.back().x);
  CHECK(zone.front().y == zone.back().y);
  // The summit at 60 m and 103 m is its highest point, and no point lies above the pipe.
  double highest = 0.0;
  for (const ChartPoint& point : zone) {
    highest = std::max(highest, point.y);
    const double pipe =
        point.x <= 60.0 ? 99.0 + point.x * 4.0 / 60.0 : 103.0 - (point.x - 60.0) * 14.0 / 40.0;
    CHECK(point.y <= pipe + 1e-9);
  }
  CHECK(highest == Approx(103.0));
  const ProfileLines in_feet = profile_lines(farm, profile, model::UnitSystem::Us);
  CHECK(in_feet.pipe.front().back().x == Approx(100.0 / 0.3048));
}

TEST_CASE("water that stands higher than the pipe all along leaves no zone in suction") {
  const model::Farm farm = tests::farm_of(R"(
farm: dip
creeks: {c: {surface: 100 m}}
ponds: {p: {surface: 90 m}}
pipes: {a: {from: c, to: p, size: 1 in SIDR 15, path: [[0 m, 98 m], [60 m, 70 m], [100 m, 88 m]]}}
)");
  const solver::Profile profile = solver::profile_of(farm, "", {});
  CHECK(profile_lines(farm, profile, model::UnitSystem::Metric).suction.empty());
  CHECK(profile_script(farm, profile, {}).find("suction: here") == std::string::npos);
}

TEST_CASE("texts in rows lie on no other text and on no other leader") {
  std::vector<RowLabel> labels;
  for (int i = 0; i < 14; ++i) {
    labels.push_back({30.0 + 64.0 * i, 60.0 + 37.0 * (i % 5)});
  }
  const std::vector<PlacedLabel> placed = placed_in_rows(labels, 0.0, 1000.0, 10.0);
  REQUIRE(placed.size() == labels.size());
  for (std::size_t a = 0; a < placed.size(); ++a) {
    CHECK(placed[a].left >= 0.0);
    CHECK(placed[a].left + labels[a].width <= 1000.0 + 1e-9);
    for (std::size_t b = 0; b < placed.size(); ++b) {
      CAPTURE(a, b);
      const double b_end = placed[b].left + labels[b].width;
      if (a != b && placed[a].row == placed[b].row) {
        CHECK((placed[a].left >= b_end || placed[a].left + labels[a].width <= placed[b].left));
      }
      if (placed[b].row < placed[a].row) {
        CHECK((labels[a].anchor <= placed[b].left || labels[a].anchor >= b_end));
      }
    }
  }
  CHECK(row_count({}) == 0);
}

TEST_CASE("names of lines that end at one level are spread, in their order") {
  const std::vector<double> heights = spread_apart({50.0, 50.0, 10.0, 99.0}, 20.0, 0.0, 100.0);
  CHECK(heights[2] == 10.0);
  CHECK(heights[1] - heights[0] == Approx(20.0));
  CHECK(heights[3] - heights[1] >= 20.0 - 1e-9);
  CHECK(heights[3] <= 100.0);
}

TEST_CASE("level lines stand at round figures") {
  CHECK(round_step(3.1) == Approx(5.0));
  CHECK(round_step(5.0) == Approx(5.0));
  CHECK(round_step(0.013) == Approx(0.02));
  CHECK(round_step(51.0) == Approx(100.0));
}

}  // namespace leat::render
