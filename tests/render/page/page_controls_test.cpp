// What the page lets a person turn, held against the reader of the farm file.
#include "render/page/page_controls.h"

#include <set>
#include <string>
#include <variant>
#include <vector>

#include <catch2/catch.hpp>

#include "model/edit/edit.h"
#include "model/keys/farm_file.h"
#include "render/page/page_tree.h"

namespace leat::tests {
namespace {

const std::string farm_path = std::string(LEAT_SOURCE_DIR) + "/tests/farms/every-key.yaml";

struct Page {
  model::LoadedFarm loaded;
  render::Json items;
};

/// The controls of a farm that was not solved: they come from its file alone.
Page page_of(const std::string& path) {
  Page page{model::load_farm_file(path), {}};
  REQUIRE(page.loaded.farm.has_value());
  page.items = render::page_controls(*page.loaded.farm,
                                     solver::SteadyAnswer{},
                                     render::page_tree(page.loaded.source, path),
                                     model::UnitSystem::Metric);
  return page;
}

std::vector<std::string> problem_codes(const std::string& text) {
  std::vector<std::string> codes;
  for (const model::Diagnostic& problem : model::load_farm(text, farm_path).problems) {
    codes.push_back(problem.code);
  }
  return codes;
}

}  // namespace

TEST_CASE("every word the page offers is one that the reader takes") {
  const Page page = page_of(farm_path);
  std::set<std::string> chosen;
  for (const render::Json& item : page.items) {
    for (const render::Json& control : item["controls"]) {
      if (control["input"] != "choice") {
        continue;
      }
      const auto path = control["path"].get<std::vector<std::string>>();
      CHECK(control["words"].size() >= 2);
      for (const std::string word : control["words"]) {
        CAPTURE(path, word);
        const auto edited =
            model::edited_text(page.loaded.source, farm_path, {model::TextEdit{path, word}});
        REQUIRE(std::holds_alternative<std::string>(edited));
        for (const std::string& code : problem_codes(std::get<std::string>(edited))) {
          CHECK(code != "unknown-word");
          CHECK(code != "not-yes-or-no");
        }
      }
      chosen.insert(path.front() + ": " + path.back());
    }
  }
  const std::set<std::string> wanted = {"outlets: household",
                                        "pipes: enters",
                                        "pipes: lies",
                                        "pipes: one-way",
                                        "pipes: type",
                                        "tees: leaks",
                                        "troughs: enters"};
  for (const std::string& key : wanted) {
    CAPTURE(key);
    CHECK(chosen.contains(key));
  }
}

TEST_CASE("the page offers a trough's inlet above or under water in the file's own words") {
  const Page page = page_of(farm_path);
  bool found = false;
  for (const render::Json& item : page.items) {
    for (const render::Json& control : item["controls"]) {
      if (item["kind"] == "trough" && control["label"] == "enters") {
        CHECK(control["words"] == render::Json({"above", "under water"}));
        found = true;
      }
    }
  }
  CHECK(found);
}

}  // namespace leat::tests
