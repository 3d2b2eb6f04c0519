// Variants: what a farm file based on another one comes to.
#include <filesystem>
#include <fstream>
#include <string>
#include <variant>

#include <catch2/catch.hpp>
#include <unistd.h>

#include "model/keys/farm_file.h"
#include "model/keys/size_choice.h"
#include "model/text/source_files.h"

namespace leat::model {

namespace {

namespace fs = std::filesystem;

const std::string base = R"(farm: Base croft
springs: {well head: {overflow: 30 m, yield: {Jan: 9 L/min, Aug: 6 L/min}}}
tees: {fork: 18 m}
troughs:
  near: {float: 12 m, need: 300 L/day}
  far: {float: 10 m, need: 300 L/day}
pipes:
  main: {from: well head, to: fork, size: 32 mm PE100 SDR 11, length: 60 m, fittings: [strainer]}
  to near: {from: fork, to: near, size: 25 mm PE100 SDR 11, length: 30 m}
  to far: {from: fork, to: far, size: 25 mm PE100 SDR 11, length: 90 m}
)";

/// Files in a folder of their own, gone with it.
class Folder {
 public:
  Folder()
      : path_(fs::temp_directory_path() / fs::path("leat-variant-" + std::to_string(next_++))) {
    fs::remove_all(path_);
    fs::create_directories(path_ / "old");
    write("old/base.yaml", base);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() {
    std::error_code fault;
    fs::remove_all(path_, fault);
  }
  void write(const std::string& name, const std::string& text) const {
    std::ofstream(path_ / name, std::ios::binary) << text;
  }
  [[nodiscard]] LoadedFarm variant(const std::string& text) const {
    write("variant.yaml", "based on: old/base.yaml\n" + text);
    return load_farm_file((path_ / "variant.yaml").string());
  }

 private:
  static inline int next_ = static_cast<int>(::getpid()) * 100;
  fs::path path_;
};

}  // namespace

TEST_CASE("a variant that changes nothing is its base", "[variant]") {
  const Folder folder;
  const LoadedFarm loaded = folder.variant("");
  REQUIRE(loaded.farm);
  CHECK(loaded.farm->name == "Base croft");
  CHECK(loaded.farm->places.size() == 4);
  CHECK(loaded.farm->pipes.size() == 3);
  CHECK(sizes_to_choose(*loaded.farm).empty());
}

TEST_CASE("a variant's maps merge key by key and its lists and texts replace", "[variant]") {
  const Folder folder;
  const LoadedFarm loaded = folder.variant(
      "springs: {well head: {yield: {Aug: 2 L/min}}}\n"
      "pipes: {main: {length: 70 m, fittings: [2 elbow]}}\n");
  REQUIRE(loaded.farm);
  const Farm& farm = *loaded.farm;
  const auto& spring = std::get<Spring>(farm.places[0].data);
  CHECK(in_cubic_metres_per_second(spring.yield.at(Month::Jan)) == Approx(9e-3 / 60.0));
  CHECK(in_cubic_metres_per_second(spring.yield.at(Month::Aug)) == Approx(2e-3 / 60.0));
  CHECK(in_metres(farm.pipes[0].length) == Approx(70.0));
  CHECK(farm.pipes[0].size.text == "32 mm PE100 SDR 11");
  REQUIRE(farm.pipes[0].fittings.size() == 1);
  CHECK(farm.pipes[0].fittings[0].name == "elbow");
}

TEST_CASE("a base's things keep their order and a variant's new ones come after", "[variant]") {
  const Folder folder;
  const LoadedFarm loaded = folder.variant(
      "farm: New croft\n"
      "troughs: {last: {float: 11 m, need: 100 L/day}, near: {float: 12.5 m}}\n"
      "pipes: {to last: {from: fork, to: last, size: 25 mm PE100 SDR 11, length: 20 m}}\n");
  REQUIRE(loaded.farm);
  const Farm& farm = *loaded.farm;
  CHECK(farm.name == "New croft");
  REQUIRE(farm.places.size() == 5);
  CHECK(farm.places[2].name == "near");
  CHECK(in_metres(std::get<Trough>(farm.places[2].data).float_level) == Approx(12.5));
  CHECK(farm.places[4].name == "last");
  CHECK(farm.pipes[3].name == "to last");
}

TEST_CASE("a trough that a variant removes goes with its pipe, its measurement and its break",
          "[variant]") {
  const Folder folder;
  folder.write("old/base.yaml",
               base + "breaks: {far: 2026-08-10}\nmeasured: [{at: far, flow: 1 L in 9 s}]\n");
  const LoadedFarm loaded = folder.variant("remove: [far, to far]\n");
  REQUIRE(loaded.farm);
  CHECK(loaded.farm->places.size() == 3);
  CHECK(loaded.farm->pipes.size() == 2);
  CHECK(loaded.farm->breaks.empty());
}

TEST_CASE("a thing removed and written again holds nothing of the old one", "[variant]") {
  const Folder folder;
  const LoadedFarm loaded =
      folder.variant("remove: [far]\ntroughs: {far: {float: 9 m, herd: {ewe: 10}}}\n");
  REQUIRE(loaded.farm);
  CHECK(std::holds_alternative<HerdNeed>(std::get<Trough>(loaded.farm->places[3].data).need));
}

TEST_CASE("a problem is told in the file where the thing stands", "[variant]") {
  const Folder folder;
  const LoadedFarm loaded = folder.variant("remove: [far]\n");
  REQUIRE_FALSE(loaded.farm);
  REQUIRE(loaded.problems.size() == 1);
  const Diagnostic& problem = loaded.problems.front();
  CHECK(problem.code == "unknown-place");
  CHECK(fs::path(problem.file).filename() == "base.yaml");
  CHECK(problem.position.line == 10);
  CHECK(problem.hint.find("variant.yaml:2") != std::string::npos);
  CHECK(source_of(loaded, problem) == base);
}

TEST_CASE("a solver's problem with a base's pipe is placed in the base", "[variant]") {
  const Folder folder;
  const LoadedFarm loaded = folder.variant("");
  REQUIRE(loaded.farm);
  Diagnostic problem;
  problem.file = loaded.farm->file;
  problem.position = loaded.farm->pipes[1].position;
  const Diagnostic told = placed(loaded, problem);
  CHECK(fs::path(told.file).filename() == "base.yaml");
  CHECK(told.position.line == 9);
}

TEST_CASE("a base's CSV file is found beside the base", "[variant]") {
  const Folder folder;
  folder.write("old/line.csv", "distance m, elevation m\n0, 29.7\n50, 18\n");
  std::string text = base;
  const std::string length = "length: 60 m, fittings";
  text.replace(text.find(length), length.size(), "path: line.csv, fittings");
  folder.write("old/base.yaml", text);
  const LoadedFarm loaded = folder.variant("");
  REQUIRE(loaded.farm);
  CHECK(loaded.farm->pipes[0].path.size() == 2);
}

TEST_CASE("five variants stand one upon the other and a sixth does not", "[variant]") {
  const Folder folder;
  folder.write("old/real.yaml", base);
  folder.write("old/v1.yaml", "based on: real.yaml\n");
  for (int i = 2; i <= 4; ++i) {
    folder.write("old/v" + std::to_string(i) + ".yaml",
                 "based on: v" + std::to_string(i - 1) + ".yaml\n");
  }
  // The variant, old/base.yaml and v3 to v1 are five.
  folder.write("old/base.yaml", "based on: v3.yaml\n");
  CHECK(folder.variant("").farm);
  folder.write("old/base.yaml", "based on: v4.yaml\n");
  const LoadedFarm deep = folder.variant("");
  REQUIRE_FALSE(deep.farm);
  CHECK(deep.problems.front().code == "based-on-too-deep");
}

TEST_CASE("lines of a farm's files are told apart and counted in their own file", "[variant]") {
  const SourcePosition there = in_file({12, 3}, 2);
  CHECK(file_index(there) == 2);
  CHECK(within_file(there) == SourcePosition{12, 3});
  CHECK(file_index(SourcePosition{}) == 0);
  CHECK(within_file(SourcePosition{}) == SourcePosition{});
}

}  // namespace leat::model
