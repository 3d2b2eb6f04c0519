#include "render/commands/catalogues/catalogue_report.h"

#include <algorithm>
#include <sstream>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "model/catalogue/fitting_catalogue.h"
#include "model/catalogue/herd_catalogue.h"
#include "model/catalogue/pipe_catalogue.h"
#include "render/document/text_table.h"
#include "render/io/terminal_style.h"

namespace leat::render {

namespace {

int widest_line(const std::string& text) {
  std::istringstream lines(text);
  int widest = 0;
  for (std::string line; std::getline(lines, line);) {
    widest = std::max(widest, display_width(line));
  }
  return widest;
}

}  // namespace

TEST_CASE("every row of every catalogue is listed with a source") {
  const auto pipes = nlohmann::json::parse(pipes_text(AnswerForm::Json, model::UnitSystem::Us));
  const auto fittings =
      nlohmann::json::parse(fittings_text(AnswerForm::Json, model::UnitSystem::Us));
  const auto herd = nlohmann::json::parse(herd_text(AnswerForm::Json, model::UnitSystem::Us));
  CHECK(pipes["pipes"].size() == model::pipe_catalogue().size());
  CHECK(fittings["fittings"].size() == model::fitting_catalogue().size());
  CHECK(herd["herd"].size() >= model::herd_catalogue().size());
  for (const auto* const rows : {&pipes["pipes"], &fittings["fittings"], &herd["herd"]}) {
    for (const auto& row : *rows) {
      CAPTURE(row.dump());
      CHECK_FALSE(row["source"].get<std::string>().empty());
    }
  }
}

TEST_CASE("a catalogue on screen fits a hundred columns and names every source below") {
  for (const model::UnitSystem units : {model::UnitSystem::Us, model::UnitSystem::Metric}) {
    for (const std::string& text : {pipes_text(AnswerForm::Screen, units),
                                    fittings_text(AnswerForm::Screen, units),
                                    herd_text(AnswerForm::Screen, units)}) {
      CHECK(widest_line(text) <= widest_text);
      CHECK(text.find("\nSources\n  [1] ") != std::string::npos);
      CHECK(text.find(" nan") == std::string::npos);
    }
  }
}

TEST_CASE("a catalogue as CSV has as many cells in each row as in its heading") {
  const std::string text = fittings_text(AnswerForm::Csv, model::UnitSystem::Metric);
  CHECK(text.substr(0, 10) == "name,k,n_f");
  CHECK(std::count(text.begin(), text.end(), '\n') ==
        static_cast<long>(model::fitting_catalogue().size()) + 1);
}

}  // namespace leat::render
