// `leat profile` through the program: table, JSON, CSV, and what the picture is refused for.
#include <algorithm>
#include <cstdlib>
#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "render/cli/run.h"
#include "tests/render/run_words.h"
#include "tests/render/temporary_folder.h"

namespace leat::render {

namespace {

constexpr const char* hill_farm = R"(farm: Sorrel Knap
show: metric
creeks: {beck: {surface: 100 m}}
ponds: {low pond: {surface: 97 m}}
tees: {hill tee: 95 m}
pipes:
  up: {from: beck, to: hill tee, size: 1 in SIDR 15, path: [[0 m, 99 m], [60 m, 103 m], [90 m, 95 m]]}
  down: {from: hill tee, to: low pond, size: 1 in SIDR 15, length: 50 m}
)";

/// Sets PATH while it lives: gnuplot is looked for nowhere else.
class OnlyPath {
 public:
  explicit OnlyPath(const std::string& path) : before_(std::getenv("PATH")) {
    setenv("PATH", path.c_str(), 1);
  }
  ~OnlyPath() { setenv("PATH", before_.c_str(), 1); }
  OnlyPath(const OnlyPath&) = delete;
  OnlyPath& operator=(const OnlyPath&) = delete;

 private:
  std::string before_;
};

bool starts_with(const std::string& text, const std::string& start) {
  return text.compare(0, start.size(), start) == 0;
}

}  // namespace

TEST_CASE("the table of a run names its pipes once, its marks, and what the summit has left") {
  const TemporaryFolder folder;
  folder.write("farm.yaml", hill_farm);
  const Outcome outcome = run_words({"profile", folder.file("farm.yaml"), "beck..low pond"});
  CHECK(outcome.status == 1);  // thin pipe in suction is a caution
  CHECK(outcome.err.empty());
  CHECK(outcome.out.find("profile of beck to low pond, over up, down\n") != std::string::npos);
  CHECK(outcome.out.find("summit at 60.0 m, level 103.00 m: ") != std::string::npos);
  CHECK(outcome.out.find("  summit, bleed for filling only\n") != std::string::npos);
  CHECK(outcome.out.find(
            "running includes the water's velocity head, pressure and absolute do not\n") !=
        std::string::npos);
  CHECK(outcome.out.find("  hill tee\n") != std::string::npos);
  CHECK(outcome.out.find("\ndown  ") != std::string::npos);
}

TEST_CASE("a summit and its bleed are one row of the table, whichever way the run goes") {
  const TemporaryFolder folder;
  folder.write("farm.yaml", hill_farm);
  for (const char* const run : {"beck..low pond", "low pond..beck"}) {
    CAPTURE(run);
    const Outcome outcome = run_words({"profile", folder.file("farm.yaml"), run});
    CHECK(outcome.out.find("  summit, bleed for filling only\n") != std::string::npos);
    CHECK(outcome.out.find("  bleed") == std::string::npos);
    CHECK(outcome.out.find("  summit\n") == std::string::npos);
  }
}

TEST_CASE("where no water runs no column counts its speed in") {
  const TemporaryFolder folder;
  folder.write("farm.yaml", hill_farm);
  const Outcome outcome =
      run_words({"profile", folder.file("farm.yaml"), "up", "--case", "static"});
  CHECK(outcome.out.find("static") != std::string::npos);
  CHECK(outcome.out.find("velocity head") == std::string::npos);
}

TEST_CASE("the JSON of a run has the contract's keys, in order, and marks in words") {
  const TemporaryFolder folder;
  folder.write("farm.yaml", hill_farm);
  const Outcome outcome =
      run_words({"profile", folder.file("farm.yaml"), "beck..low pond", "--json"});
  const auto object = nlohmann::ordered_json::parse(outcome.out);
  std::vector<std::string> keys;
  for (const auto& [key, value] : object.items()) {
    keys.push_back(key);
  }
  CHECK(keys == std::vector<std::string>{"format",
                                         "command",
                                         "farm",
                                         "case",
                                         "broken",
                                         "month",
                                         "converged",
                                         "wrote",
                                         "points",
                                         "part_full",
                                         "flags"});
  CHECK(object["command"] == "profile");
  CHECK(object["wrote"].is_null());
  const auto& first = object["points"].front();
  std::vector<std::string> point_keys;
  for (const auto& [key, value] : first.items()) {
    point_keys.push_back(key);
  }
  CHECK(point_keys == std::vector<std::string>{"pipe",
                                               "distance_m",
                                               "elevation_m",
                                               "running_head_m",
                                               "static_head_m",
                                               "pressure_kPa",
                                               "absolute_head_m",
                                               "mark"});
  std::string marks;
  for (const auto& point : object["points"]) {
    if (point["mark"].is_string()) {
      marks += point["mark"].get<std::string>() + " ";
    }
  }
  CHECK(marks == "start summit bleed tee end ");
  CHECK(object["points"].back()["distance_m"] == 140.0);
}

TEST_CASE("the CSV of a run has a row for every point of the JSON") {
  const TemporaryFolder folder;
  folder.write("farm.yaml", hill_farm);
  const std::string file = folder.file("farm.yaml");
  const Outcome csv = run_words({"profile", file, "up", "--csv"});
  CHECK(starts_with(csv.out,
                    "pipe,distance_m,elevation_m,running_head_m,static_head_m,pressure_kPa,"
                    "absolute_head_m,mark\nup,0.0000,99.0000,"));
  const auto json = nlohmann::json::parse(run_words({"profile", file, "up", "--json"}).out);
  CHECK(std::count(csv.out.begin(), csv.out.end(), '\n') ==
        static_cast<long>(json["points"].size()) + 1);
}

TEST_CASE("a run that is not there is a failure, in JSON too") {
  const TemporaryFolder folder;
  folder.write("farm.yaml", hill_farm);
  const Outcome outcome = run_words({"profile", folder.file("farm.yaml"), "upp", "--json"});
  CHECK(outcome.status == 2);
  CHECK(outcome.err == "leat: no pipe is named 'upp' (did you mean 'up'?)\n");
  CHECK(nlohmann::json::parse(outcome.out)["problems"][0]["code"] == "unknown-pipe");
}

TEST_CASE("a profile is drawn as SVG, PDF and PNG, and not over a file that is there") {
  const TemporaryFolder folder;
  folder.write("farm.yaml", hill_farm);
  const std::string farm = folder.file("farm.yaml");
  const auto draw = [&](const std::string& name, const std::vector<std::string>& more) {
    std::vector<std::string> words{"profile", farm, "up", "-o", folder.file(name)};
    words.insert(words.end(), more.begin(), more.end());
    return run_words(words);
  };
  const Outcome first = draw("a.svg", {});
  CHECK(first.err == "wrote " + folder.file("a.svg") + "\n");
  CHECK(first.status == 1);
  CHECK(first.out.empty());
  const std::string svg = folder.content("a.svg");
  CHECK(starts_with(svg, "<?xml"));
  CHECK(svg.find("Sorrel Knap") != std::string::npos);
  CHECK(svg.find("</svg>") != std::string::npos);
  CHECK(draw("a.svg", {}).status == 2);
  CHECK(draw("a.svg", {"--replace"}).status == 1);
  CHECK(folder.content("a.svg") == svg);  // the same bytes every time
  CHECK(draw("b.pdf", {}).status == 1);
  CHECK(starts_with(folder.content("b.pdf"), "%PDF"));
  CHECK(draw("c.PNG", {}).status == 1);
  CHECK(starts_with(folder.content("c.PNG"), "\x89PNG"));
  CHECK(draw("d.dot", {}).status == 2);
  const auto json = nlohmann::json::parse(draw("e.svg", {"--json"}).out);
  CHECK(json["wrote"] == folder.file("e.svg"));
  const Outcome on_stdout = run_words({"profile", farm, "up", "-o", "-"});
  CHECK(on_stdout.out == svg);
}

TEST_CASE("without gnuplot the table still comes, and the picture's absence is told") {
  const TemporaryFolder folder;
  const TemporaryFolder empty;
  folder.write("farm.yaml", hill_farm);
  const std::string farm = folder.file("farm.yaml");
  const OnlyPath nothing(empty.file("."));
  CHECK(run_words({"profile", farm}).status == 1);
  const Outcome outcome = run_words({"profile", farm, "-o", folder.file("a.svg")});
  CHECK(outcome.status == 2);
  CHECK(outcome.err ==
        "leat: gnuplot, which draws the picture, is not installed (on Debian: apt-get install "
        "gnuplot-nox)\n");
  CHECK(outcome.out == run_words({"profile", farm}).out);
  CHECK(folder.count() == 1);
  const Outcome json = run_words({"profile", farm, "-o", folder.file("a.svg"), "--json"});
  CHECK(nlohmann::json::parse(json.out)["problems"][0]["code"] == "cannot-draw");
}

}  // namespace leat::render
