#include "render/page/page_state.h"

#include <algorithm>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "render/page/page_controls.h"
#include "render/page/page_tables.h"
#include "render/page/page_tree.h"
#include "render/pictures/schematic/pressure_scale.h"
#include "render/pictures/schematic/schematic.h"
#include "render/words/cautions.h"
#include "render/words/diagnostic_text.h"
#include "render/words/finding_sentence.h"
#include "render/words/load_case_words.h"
#include "render/words/situation_text.h"
#include "solver/steady/steady.h"

namespace leat::render {
namespace {

/// A finding beside its sentence: the page tells one as new where its sentence is.
struct ToldThere {
  const solver::Finding* finding = nullptr;
  std::string sentence;
};

std::vector<ToldThere> told_there(const std::vector<solver::Finding>& findings,
                                  model::UnitSystem units) {
  std::vector<ToldThere> told;
  for (const solver::Finding& finding : findings) {
    told.push_back({&finding, sentence_of(finding, units)});
  }
  return told;
}

bool says(const std::vector<ToldThere>& findings, const ToldThere& one) {
  return std::any_of(findings.begin(), findings.end(), [&one](const ToldThere& other) {
    return other.finding->code == one.finding->code && other.finding->where == one.finding->where &&
           other.sentence == one.sentence;
  });
}

Json flag_of(const ToldThere& told, solver::LoadCase asked_for, bool is_new) {
  const solver::Finding& finding = *told.finding;
  const bool names_no_case =
      finding.load_case == asked_for || finding.code == solver::Code::RatingAssumed;
  Json object;
  object["severity"] = solver::word_of(finding.severity);
  object["code"] = solver::word_of(finding.code);
  object["where"] = finding.where;
  object["text"] = names_no_case
                       ? told.sentence
                       : fmt::format("{} ({})", told.sentence, meaning_of(finding.load_case));
  object["is_new"] = is_new;
  return object;
}

void add_flags(Json& state,
               const solver::SteadyAnswer& answer,
               const solver::SteadyAnswer* saved,
               model::UnitSystem units) {
  const std::vector<ToldThere> now = told_there(answer.flags, units);
  const std::vector<ToldThere> before =
      saved == nullptr ? std::vector<ToldThere>() : told_there(saved->flags, units);
  state["flags"] = Json::array();
  for (const ToldThere& one : now) {
    const bool is_new = saved != nullptr && !says(before, one);
    state["flags"].push_back(flag_of(one, answer.load_case, is_new));
  }
  state["gone"] = Json::array();
  for (const ToldThere& one : before) {
    if (!says(now, one)) {
      state["gone"].push_back(flag_of(one, answer.load_case, false));
    }
  }
}

Json text_or_null(const std::string& text) {
  return text.empty() ? Json() : Json(text);
}

/// A value as it is written; null where there is none.
Json written(const model::YamlNode* node) {
  if (node == nullptr) {
    return {};
  }
  return node->kind == model::YamlNode::Kind::Text ? Json(node->text) : Json("several values");
}

/// What differs from the file, each path once; empty where all is as it was.
Json changes_of(const FarmMoment& moment, const model::YamlNode& tree, const std::string& path) {
  Json changes = Json::array();
  if (moment.touched.empty()) {
    return changes;
  }
  const model::YamlNode before = page_tree(moment.saved.source, path);
  for (const std::vector<std::string>& where : moment.touched) {
    const Json was = written(node_at(before, where));
    const Json now = written(node_at(tree, where));
    if (was != now) {
      changes.push_back({{"path", where}, {"was", was}, {"now", now}});
    }
  }
  return changes;
}

/// The name of a file without its folder.
std::string name_of_file(const std::string& path) {
  const std::size_t slash = path.rfind('/');
  return slash == std::string::npos ? path : path.substr(slash + 1);
}

Json view_of(const model::Farm& farm, const solver::SteadyAnswer& answer, const PageView& view) {
  Json object;
  object["case"] = solver::word_of(view.load_case);
  object["month"] = answer.month ? Json(std::string(model::name_of(*answer.month))) : Json();
  object["month_chosen"] = answer.month_chosen;
  object["broken"] = view.broken ? Json(*view.broken) : Json();
  object["troughs"] = Json::array();
  for (const model::Place& place : farm.places) {
    if (model::is_trough(place)) {
      object["troughs"].push_back(place.name);
    }
  }
  return object;
}

void add_drawing(Json& state,
                 const model::Farm& farm,
                 const solver::SteadyAnswer& answer,
                 model::UnitSystem units,
                 DrawnForm& form) {
  DrawOptions options;
  options.units = units;
  options.surface = DrawSurface::Screen;
  options.form = form.known_for(farm);
  const DrawResult drawn = draw_schematic(farm, answer, options);
  state["svg"] = drawn.problem.empty() ? Json(drawn.bytes) : Json();
  if (drawn.problem.empty()) {
    form.remember(farm, drawn.form);
  } else {
    state["problem"] = drawn.problem;
  }
}

Json head_of_state(const FarmMoment& moment,
                   const model::Farm& farm,
                   model::UnitSystem units,
                   const std::string& new_name) {
  Json state;
  state["version"] = moment.version;
  state["file"] = name_of_file(farm.file);
  state["farm"] = farm.name;
  state["units"] = units == model::UnitSystem::Us ? "US" : "metric";
  state["key"] = Json::array();
  for (const PressureStep& step : pressure_steps(units)) {
    state["key"].push_back(step.words);
  }
  state["undo_steps"] = moment.undo_steps;
  state["new_name"] = new_name;
  state["notice"] = text_or_null(moment.notice);
  state["broken_file"] = text_or_null(moment.broken);
  return state;
}

}  // namespace

solver::SteadyOptions options_of(const PageView& view) {
  solver::SteadyOptions options;
  options.load_case = view.load_case;
  options.broken = view.broken;
  options.month = view.month;
  return options;
}

std::string solver_problems_text(std::vector<model::Diagnostic> problems,
                                 const model::LoadedFarm& loaded) {
  for (model::Diagnostic& problem : problems) {
    problem = model::placed(loaded, std::move(problem));
  }
  return problems_text(problems, loaded);
}

std::string DrawnForm::shape_of(const model::Farm& farm) {
  std::string shape;
  for (const model::Place& place : farm.places) {
    shape += place.name + '\n';
  }
  for (const model::Pipe& pipe : farm.pipes) {
    shape += fmt::format("{}\n{} {}\n", pipe.name, pipe.from, pipe.to);
  }
  return shape;
}

std::optional<std::size_t> DrawnForm::known_for(const model::Farm& farm) const {
  return shape_ == shape_of(farm) ? std::optional(form_) : std::nullopt;
}

void DrawnForm::remember(const model::Farm& farm, std::size_t form) {
  shape_ = shape_of(farm);
  form_ = form;
}

Json page_state(const FarmMoment& moment,
                const PageView& view,
                const std::string& new_name,
                DrawnForm& form) {
  const model::Farm& farm = *moment.tried.farm;
  const model::UnitSystem units = view.units.value_or(farm.show);
  const solver::SteadyAnswer answer = solver::solve_steady(farm, options_of(view));
  std::optional<solver::SteadyAnswer> saved;
  if (!moment.touched.empty()) {
    saved = solver::solve_steady(*moment.saved.farm, options_of(view));
    if (!saved->converged) {
      saved.reset();
    }
  }
  const model::YamlNode tree = page_tree(moment.tried.source, farm.file);
  Json state = head_of_state(moment, farm, units, new_name);
  state["changes"] = changes_of(moment, tree, farm.file);
  state["view"] = view_of(farm, answer, view);
  state["problem"] = Json();
  state["svg"] = Json();
  state["items"] = page_controls(farm, answer, tree, units);
  if (!answer.converged) {
    state["problem"] = solver_problems_text(answer.problems, moment.tried);
    return state;
  }
  state["situation"] = situation_text(farm, answer);
  add_drawing(state, farm, answer, units, form);
  state["tables"] =
      page_tables({farm, answer},
                  saved ? std::optional<SolvedFarm>({*moment.saved.farm, *saved}) : std::nullopt,
                  units);
  add_flags(state, answer, saved ? &*saved : nullptr, units);
  state["mind"] = cautions_for(farm, answer);
  return state;
}

}  // namespace leat::render
