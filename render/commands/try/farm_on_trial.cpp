#include "render/commands/try/farm_on_trial.h"

#include <algorithm>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "render/io/file_state.h"

namespace leat::render {
namespace {

std::optional<OutputProblem> problem_with_name(const std::string& name) {
  const auto fits = [&name](std::string_view ending) {
    return name.size() > ending.size() && name.ends_with(ending);
  };
  const bool is_plain = std::none_of(name.begin(), name.end(), [](char letter) {
    const auto byte = static_cast<unsigned char>(letter);
    return letter == '/' || letter == '\\' || byte < 0x20U || byte == 0x7FU;
  });
  constexpr std::size_t longest = 120;
  if (!is_plain || name.empty() || name.front() == '.' || name.size() > longest) {
    return OutputProblem{"bad-name",
                         "the new file needs a plain name, without a folder",
                         "the file is put beside the old one"};
  }
  if (!fits(".yaml") && !fits(".yml")) {
    return OutputProblem{"bad-name", "the name of a farm file ends in .yaml", ""};
  }
  return std::nullopt;
}

}  // namespace

FarmOnTrial::FarmOnTrial(std::string path, model::LoadedFarm loaded)
    : path_(path), state_(State{LiveFarm(std::move(path), loaded), look_of(loaded.files)}) {}

std::shared_ptr<const FarmMoment> FarmOnTrial::now() const {
  return state_.use([](const State& state) { return state.farm.now(); });
}

std::optional<Refusal> FarmOnTrial::change(const std::vector<model::TextEdit>& parts, EditRun run) {
  return state_.change([&](State& state) { return state.farm.change(parts, run); });
}

void FarmOnTrial::undo() {
  state_.change([](State& state) { state.farm.undo(); });
}

std::optional<OutputProblem> FarmOnTrial::save_as(const std::string& name) const {
  if (auto problem = problem_with_name(name)) {
    return problem;
  }
  const std::string target = beside(path_, name);
  if (is_taken(target)) {
    return OutputProblem{
        "exists", fmt::format("'{}' is there already", name), "choose another name"};
  }
  return write_output_file(target, now()->tried.source, ExistingFile::Keep);
}

std::string FarmOnTrial::free_name() const {
  const std::string stem = stem_of(path_);
  for (int number = 2; number < 1000; ++number) {
    std::string name = fmt::format("{}-{}.yaml", stem, number);
    if (!is_taken(beside(path_, name))) {
      return name;
    }
  }
  return stem + "-new.yaml";
}

void FarmOnTrial::look_at_file() {
  state_.change([this](State& state) {
    const std::shared_ptr<const FarmMoment> now = state.farm.now();
    std::vector<std::string> files = now->saved.files;
    if (files.empty()) {
      files.push_back(path_);
    }
    std::string look = look_of(files);
    if (look == state.seen_on_disk) {
      return;
    }
    state.seen_on_disk = std::move(look);
    model::LoadedFarm loaded = model::load_farm_file(path_);
    const bool says_the_same = loaded.farm && loaded.source == now->saved.source &&
                               files.size() == 1 && now->broken.empty();
    if (!says_the_same) {
      state.farm.take_file(std::move(loaded));
    }
  });
}

int FarmOnTrial::wait_for_change(int known, int longest_ms) const {
  state_.wait_until(
      [known](const State& state) {
        return state.is_released || state.farm.now()->version != known;
      },
      longest_ms);
  return now()->version;
}

void FarmOnTrial::release_waiting() {
  state_.change([](State& state) { state.is_released = true; });
}

}  // namespace leat::render
