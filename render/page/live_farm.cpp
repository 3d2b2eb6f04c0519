#include "render/page/live_farm.h"

#include <algorithm>
#include <utility>
#include <variant>

#include "render/page/page_tree.h"
#include "render/words/diagnostic_text.h"

namespace leat::render {
namespace {

constexpr std::size_t most_undo_steps = 1000;

Refusal refusal_of(model::Diagnostic problem) {
  Refusal refusal;
  refusal.text = diagnostic_text(problem, "");
  refusal.problems.push_back(std::move(problem));
  return refusal;
}

/// A page may only change what the farm is, never which files are read for it.
bool names_a_file(const model::TextEdit& part) {
  return part.path.empty() || part.path.front() == "based on" || part.path.front() == "remove" ||
         (part.text && part.text->ends_with(".csv"));
}

Refusal file_refusal(const std::string& file) {
  model::Diagnostic problem;
  problem.code = "names-a-file";
  problem.file = file;
  problem.text = "which files a farm is read from is not changed here";
  problem.hint = "change it in an editor";
  return refusal_of(std::move(problem));
}

/// What the changes come to: each touched path with the text that stands there now.
std::vector<model::TextEdit> net_parts(const FarmMoment& moment, const std::string& path) {
  const model::YamlNode tree = page_tree(moment.tried.source, path);
  std::vector<model::TextEdit> parts;
  for (const std::vector<std::string>& where : moment.touched) {
    const model::YamlNode* const node = node_at(tree, where);
    if (node == nullptr) {
      parts.push_back({where, std::nullopt});
    } else if (node->kind == model::YamlNode::Kind::Text) {
      parts.push_back({where, node->text});
    }
  }
  return parts;
}

bool same_paths(const std::vector<model::TextEdit>& one, const std::vector<model::TextEdit>& two) {
  return std::equal(
      one.begin(), one.end(), two.begin(), two.end(), [](const auto& a, const auto& b) {
        return a.path == b.path;
      });
}

/// The text with the edits made and read: a farm, or why not.
std::variant<model::LoadedFarm, Refusal> read_with(const std::string& source,
                                                   const std::string& path,
                                                   const std::vector<model::TextEdit>& parts) {
  auto text = model::edited_text(source, path, {parts.begin(), parts.end()});
  if (auto* const problem = std::get_if<model::Diagnostic>(&text)) {
    return refusal_of(std::move(*problem));
  }
  model::LoadedFarm loaded = model::load_farm(std::get<std::string>(text), path);
  if (!loaded.farm) {
    return Refusal{loaded.problems, problems_text(loaded)};
  }
  return loaded;
}

}  // namespace

LiveFarm::LiveFarm(std::string path, model::LoadedFarm loaded) : path_(std::move(path)) {
  FarmMoment first;
  first.saved = loaded;
  first.tried = std::move(loaded);
  hand_out(std::move(first));
}

void LiveFarm::hand_out(FarmMoment moment) {
  moment.version = moment_ ? moment_->version + 1 : 1;
  moment.undo_steps = undo_.size();
  moment_ = std::make_shared<const FarmMoment>(std::move(moment));
}

std::optional<Refusal> LiveFarm::change(const std::vector<model::TextEdit>& parts, EditRun run) {
  if (parts.empty() || std::any_of(parts.begin(), parts.end(), names_a_file)) {
    return file_refusal(path_);
  }
  auto read = read_with(moment_->tried.source, path_, parts);
  if (auto* const refusal = std::get_if<Refusal>(&read)) {
    return std::move(*refusal);
  }
  FarmMoment next = *moment_;
  if (run == EditRun::New || undo_.empty() || !same_paths(undo_.back().parts, parts)) {
    undo_.push_back({moment_->tried.source, moment_->touched, parts});
    if (undo_.size() > most_undo_steps) {
      undo_.erase(undo_.begin());
    }
  }
  for (const model::TextEdit& part : parts) {
    if (std::find(next.touched.begin(), next.touched.end(), part.path) == next.touched.end()) {
      next.touched.push_back(part.path);
    }
  }
  next.tried = std::get<model::LoadedFarm>(std::move(read));
  next.notice.clear();
  hand_out(std::move(next));
  return std::nullopt;
}

void LiveFarm::undo() {
  if (undo_.empty()) {
    return;
  }
  FarmMoment next = *moment_;
  UndoStep step = std::move(undo_.back());
  undo_.pop_back();
  next.tried = model::load_farm(step.text_before, path_);
  next.touched = std::move(step.touched_before);
  next.notice.clear();
  if (!next.tried.farm) {  // a file beside it was spoilt meanwhile
    next.tried = next.saved;
    next.touched.clear();
    undo_.clear();
  }
  hand_out(std::move(next));
}

void LiveFarm::take_file(model::LoadedFarm loaded) {
  FarmMoment next = *moment_;
  if (!loaded.farm) {
    next.broken = problems_text(loaded);
    next.notice = "The file on the disk cannot be read now: what is shown is from before.";
    hand_out(std::move(next));
    return;
  }
  next.broken.clear();
  next.notice = "The file was changed on the disk and read again.";
  undo_.clear();
  const std::vector<model::TextEdit> parts = net_parts(*moment_, path_);
  next.tried = loaded;
  next.touched.clear();
  if (!parts.empty()) {
    auto read = read_with(loaded.source, path_, parts);
    if (auto* const tried = std::get_if<model::LoadedFarm>(&read)) {
      undo_.push_back({loaded.source, {}, parts});
      next.tried = std::move(*tried);
      next.touched = moment_->touched;
      next.notice += " What was changed here stands on top of it.";
    } else {
      next.notice += " What was changed here does not fit it any more and is gone.";
    }
  }
  next.saved = std::move(loaded);
  hand_out(std::move(next));
}

}  // namespace leat::render
