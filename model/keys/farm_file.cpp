#include "model/keys/farm_file.h"

#include <algorithm>

#include <fmt/format.h>

#include "model/keys/breaks.h"
#include "model/keys/farm_checks.h"
#include "model/keys/farm_keys.h"
#include "model/keys/map_position_reader.h"
#include "model/keys/map_reader.h"
#include "model/keys/measured.h"
#include "model/keys/name_registry.h"
#include "model/keys/pipe.h"
#include "model/keys/place_reader.h"
#include "model/keys/pond.h"
#include "model/keys/price_reader.h"
#include "model/keys/pump_and_ram.h"
#include "model/keys/site.h"
#include "model/keys/variant_reader.h"
#include "model/keys/weather.h"
#include "model/text/file_text.h"
#include "model/text/source_files.h"
#include "model/text/yaml_tree.h"

namespace leat::model {
namespace {

/// Reads one farm from its tree. A new one for each file.
class FarmReader {
 public:
  FarmReader(const WholeTree& tree, ProblemList& problems)
      : root_(tree.root),
        problems_(problems),
        context_{problems, farm_.notes},
        top_(root_, Subject{"the file", SourcePosition{1, 1}}, farm_keys().names(), problems) {
    for (const auto& [name, position] : tree.removed) {
      names_.mark_removed(name, position);
    }
  }

  [[nodiscard]] Farm read() {
    farm_.file = problems_.file();
    read_header();
    read_places();
    read_pipes();
    settle_spring_intakes();
    read_the_rest();
    check();
    return std::move(farm_);
  }

 private:
  void read_header();
  void read_places();
  void read_pipes();
  void settle_spring_intakes();
  void read_the_rest();
  void check();
  [[nodiscard]] const YamlNode* section(std::string_view key) const;

  const YamlNode& root_;
  ProblemList& problems_;
  Farm farm_;
  LoadContext context_;
  MapReader top_;
  NameRegistry names_;
  std::vector<bool> sound_places_;
  std::vector<bool> sound_pipes_;
  std::vector<Join> joins_;
  bool all_joined_ = true;
  bool weather_sound_ = true;
};

/// A section whose keys are names; anything else there is reported.
const YamlNode* FarmReader::section(std::string_view key) const {
  const YamlNode* const node = top_.find(key);
  if (node != nullptr && node->kind != YamlNode::Kind::Map) {
    report_wrong_shape(*node, key, "keys with values are", problems_);
    return nullptr;
  }
  return node;
}

void FarmReader::read_header() {
  farm_keys().read(top_, farm_, context_, ValueNames::KeyAlone);
  if (const YamlNode* const value = top_.find("site")) {
    farm_.site = read_site(*value, top_.position_of("site"), context_);
  }
  if (const YamlNode* const value = top_.find("weather")) {
    const std::size_t before = problems_.count();
    read_weather(*value, top_.position_of("weather"), farm_, context_);
    weather_sound_ = problems_.count() == before;
  }
}

void FarmReader::read_places() {
  for (const YamlEntry& entry : root_.entries) {
    const std::optional<PlaceKind> kind = place_kind_of_section(entry.key);
    const YamlNode* const places = kind ? section(entry.key) : nullptr;
    if (places == nullptr) {
      continue;
    }
    farm_.places.reserve(farm_.places.size() + places->entries.size());
    for (const YamlEntry& place : places->entries) {
      const std::size_t before = problems_.count();
      all_joined_ = names_.add(NameRegistry::Kind::Place,
                               farm_.places.size(),
                               place.key,
                               place.position,
                               problems_) &&
                    all_joined_;
      farm_.places.push_back(read_place(*kind, place, context_));
      sound_places_.push_back(problems_.count() == before);
    }
  }
}

void FarmReader::read_pipes() {
  (void)top_.require("pipes", farm_keys().find("pipes")->words.required);
  const YamlNode* const pipes = section("pipes");
  if (pipes == nullptr) {
    all_joined_ = false;
    return;
  }
  farm_.pipes.reserve(pipes->entries.size());
  PipeReader reader(farm_, names_, context_);
  for (const YamlEntry& entry : pipes->entries) {
    const bool named = names_.add(
        NameRegistry::Kind::Pipe, farm_.pipes.size(), entry.key, entry.position, problems_);
    ReadPipe read = reader.read(entry);
    sound_pipes_.push_back(named && read.sound && sound_places_[read.pipe.from] &&
                           sound_places_[read.pipe.to]);
    all_joined_ = all_joined_ && read.joined;
    farm_.pipes.push_back(std::move(read.pipe));
  }
}

/// Without an intake of its own a spring is drawn from where its pipes' paths start.
void FarmReader::settle_spring_intakes() {
  std::vector<bool> settled(farm_.places.size());
  for (const Pipe& pipe : farm_.pipes) {
    Spring* const spring = pipe.path.empty() || farm_.places.empty()
                               ? nullptr
                               : std::get_if<Spring>(&farm_.places[pipe.from].data);
    if (spring == nullptr || !spring->intake_assumed) {
      continue;
    }
    const Elevation start = pipe.path.front().elevation;
    spring->intake = settled[pipe.from] ? std::min(spring->intake, start) : start;
    settled[pipe.from] = true;
  }
}

void FarmReader::read_the_rest() {
  if (const YamlNode* const pumps = section("pumps")) {
    for (const YamlEntry& entry : pumps->entries) {
      (void)names_.add(NameRegistry::Kind::Pump, 0, entry.key, entry.position, problems_);
      read_pump(entry, names_, farm_, joins_, context_);
    }
  }
  if (const YamlNode* const rams = section("rams")) {
    for (const YamlEntry& entry : rams->entries) {
      (void)names_.add(NameRegistry::Kind::Ram, 0, entry.key, entry.position, problems_);
      read_ram(entry, names_, farm_, joins_, context_);
    }
  }
  if (const YamlNode* const breaks = top_.find("breaks")) {
    read_breaks(*breaks, names_, farm_, context_);
  }
  if (const YamlNode* const measured = top_.find("measured")) {
    read_measured(*measured, names_, farm_, context_);
  }
  if (const YamlNode* const prices = top_.find("prices")) {
    read_prices(*prices, farm_, problems_);
  }
  if (const YamlNode* const stock = top_.find("stock")) {
    read_stock(*stock, farm_, problems_);
  }
}

/// Checks between places and pipes. A pipe or place that is faulty in itself is left out, so that
/// one slip does not bring a train of others; what joins what waits until every end is known.
void FarmReader::check() {
  for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
    if (sound_pipes_[i]) {
      check_pipe_meets_places(farm_, farm_.pipes[i], problems_);
    }
  }
  if (all_joined_) {
    check_connections(farm_, joins_, problems_);
  }
  check_map_kinds(farm_.places, problems_);
  if (weather_sound_) {
    check_catchments(farm_, problems_);
  }
  const bool herd = std::any_of(farm_.places.begin(), farm_.places.end(), [](const Place& place) {
    const auto* const trough = std::get_if<Trough>(&place.data);
    return trough != nullptr && std::holds_alternative<HerdNeed>(trough->need);
  });
  if (herd && !farm_.air) {
    farm_.notes.emplace_back(
        "what the herd drinks is taken for a summer day: the file gives no air temperatures");
  }
}

}  // namespace

std::string_view source_of(const LoadedFarm& loaded, const Diagnostic& problem) {
  const auto csv = loaded.csv_sources.find(problem.file);
  return csv == loaded.csv_sources.end() ? std::string_view(loaded.source)
                                         : std::string_view(csv->second);
}

Diagnostic placed(const LoadedFarm& loaded, Diagnostic problem) {
  const std::size_t index = file_index(problem.position);
  if (index > 0 && index < loaded.files.size()) {
    problem.file = loaded.files[index];
  }
  problem.position = within_file(problem.position);
  return problem;
}

LoadedFarm load_farm(std::string_view text, const std::string& file_name) {
  LoadedFarm loaded;
  loaded.source = std::string(text);
  ProblemList problems(file_name);
  YamlNode root = read_yaml(loaded.source, problems);
  if (root.kind == YamlNode::Kind::Map) {
    std::optional<WholeTree> tree;
    if (is_variant(root)) {
      tree = with_its_base(std::move(root), problems);
    } else {
      tree = WholeTree{std::move(root), {}};
    }
    // Without its base a variant says too little to be judged.
    if (tree) {
      Farm farm = FarmReader(*tree, problems).read();
      if (problems.count() == 0) {
        loaded.farm = std::move(farm);
      }
    }
  } else if (problems.count() == 0) {
    if (root.kind == YamlNode::Kind::Nothing) {
      problems.add("empty-file",
                   SourcePosition{1, 1},
                   "the file holds no farm",
                   "'leat new FILE' writes one to start from");
    } else {
      report_wrong_shape(root, "the file", "keys with values are", problems);
    }
  }
  loaded.files = problems.files();
  loaded.problems = problems.sorted();
  for (const Diagnostic& problem : loaded.problems) {
    if (problem.file == file_name || loaded.csv_sources.count(problem.file) > 0) {
      continue;
    }
    auto found = read_file_text(problem.file);
    if (auto* const csv = std::get_if<std::string>(&found)) {
      loaded.csv_sources.emplace(problem.file, std::move(*csv));
    }
  }
  return loaded;
}

LoadedFarm load_farm_file(const std::string& path) {
  const auto found = read_file_text(path);
  if (const auto* const text = std::get_if<std::string>(&found)) {
    return load_farm(*text, path);
  }
  LoadedFarm loaded;
  ProblemList problems(path);
  problems.add("unreadable",
               SourcePosition{},
               fmt::format("'{}' cannot be read: {}", path, std::get<Unreadable>(found).why),
               "check the name and the folder");
  loaded.problems = problems.sorted();
  return loaded;
}

}  // namespace leat::model
