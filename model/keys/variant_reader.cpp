#include "model/keys/variant_reader.h"

#include <algorithm>
#include <array>
#include <unordered_map>
#include <unordered_set>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/format.h>

#include "model/keys/beside_file.h"
#include "model/keys/map_reader.h"
#include "model/keys/value_reader.h"
#include "model/text/file_text.h"
#include "model/text/source_files.h"

namespace leat::model {
namespace {

constexpr std::string_view base_key = "based on";
constexpr std::string_view remove_key = "remove";

/// Sections whose keys are names of the farm's things.
constexpr std::array<std::string_view, 10> named_sections = {
    "springs", "creeks", "ponds", "tanks", "troughs", "outlets", "tees", "pipes", "pumps", "rams"};

bool holds_names(std::string_view section) {
  return std::find(named_sections.begin(), named_sections.end(), section) != named_sections.end();
}

/// Takes an entry out of a map; nothing where it has none of that key.
std::optional<YamlEntry> taken(YamlNode& map, std::string_view key) {
  const auto found = std::find_if(map.entries.begin(), map.entries.end(), [key](const auto& entry) {
    return entry.key == key;
  });
  if (found == map.entries.end()) {
    return std::nullopt;
  }
  YamlEntry entry = std::move(*found);
  map.entries.erase(found);
  return entry;
}

/// Numbers every position of a tree on, to those of the farm's file of that index.
void number_on(YamlNode& node, std::size_t file) {
  node.position = in_file(node.position, file);
  for (YamlNode& item : node.items) {
    number_on(item, file);
  }
  for (YamlEntry& entry : node.entries) {
    entry.position = in_file(entry.position, file);
    number_on(entry.value, file);
  }
}

/// Lays one map over another.
void lay_over(YamlNode& base, YamlNode variant) {
  std::unordered_map<std::string, std::size_t> places;
  for (std::size_t i = 0; i < base.entries.size(); ++i) {
    places.emplace(base.entries[i].key, i);
  }
  for (YamlEntry& change : variant.entries) {
    const auto found = places.find(change.key);
    if (found == places.end()) {
      base.entries.push_back(std::move(change));
      continue;
    }
    YamlEntry& entry = base.entries[found->second];
    // What is wrong with a changed thing is to be mended where it is changed.
    entry.position = change.position;
    if (entry.value.kind == YamlNode::Kind::Map && change.value.kind == YamlNode::Kind::Map) {
      lay_over(entry.value, std::move(change.value));
    } else {
      entry.value = std::move(change.value);
    }
  }
}

/// What the base measured at a removed thing, and when its float breaks, goes with it.
void forget(YamlNode& root, const std::unordered_set<std::string>& names) {
  for (YamlEntry& entry : root.entries) {
    if (entry.key == "breaks") {
      std::erase_if(entry.value.entries,
                    [&names](const YamlEntry& one) { return names.count(one.key) > 0; });
    } else if (entry.key == "measured") {
      std::erase_if(entry.value.items, [&names](const YamlNode& one) {
        return std::any_of(one.entries.begin(), one.entries.end(), [&names](const auto& pair) {
          return pair.key == "at" && names.count(pair.value.text) > 0;
        });
      });
    }
  }
}

class VariantReader {
 public:
  explicit VariantReader(ProblemList& problems) : problems_(problems) {}

  /// The tree of the farm's file of that index, laid over its base where it has one.
  [[nodiscard]] std::optional<YamlNode> whole(YamlNode root, std::size_t file);

  [[nodiscard]] std::map<std::string, SourcePosition> take_removed() { return std::move(removed_); }

 private:
  [[nodiscard]] std::optional<YamlNode> base_of(const YamlNode& value);
  [[nodiscard]] bool leads_back(const std::string& name) const;
  void remove(YamlNode& base, const YamlNode& list);

  ProblemList& problems_;
  std::map<std::string, SourcePosition> removed_;
};

std::optional<YamlNode> VariantReader::whole(YamlNode root, std::size_t file) {
  const std::optional<YamlEntry> based_on = taken(root, base_key);
  const std::optional<YamlEntry> removal = taken(root, remove_key);
  if (!based_on) {
    if (removal) {
      problems_.add("remove-without-base",
                    removal->position,
                    "'remove' takes things out of a base, and this file has none",
                    "add 'based on: FILE', or take the lines out of this file");
    }
    return root;
  }
  if (file >= deepest_base) {
    problems_.add("based-on-too-deep",
                  based_on->value.position,
                  fmt::format("this is the {}th file that is based on another", file + 1),
                  fmt::format("at most {} may be: put changes together", deepest_base));
    return std::nullopt;
  }
  std::optional<YamlNode> base = base_of(based_on->value);
  if (!base) {
    return std::nullopt;
  }
  if (removal) {
    remove(*base, removal->value);
  }
  for (const YamlEntry& section : root.entries) {
    if (holds_names(section.key)) {
      for (const YamlEntry& thing : section.value.entries) {
        removed_.erase(thing.key);  // written anew
      }
    }
  }
  lay_over(*base, std::move(root));
  return base;
}

bool VariantReader::leads_back(const std::string& name) const {
  const std::vector<std::string>& files = problems_.files();
  return std::any_of(files.begin(), files.end(), [&name](const std::string& file) {
    return is_same_file(file, name);
  });
}

/// The whole tree of the file a value names.
std::optional<YamlNode> VariantReader::base_of(const YamlNode& value) {
  const std::string* const written = read_text(value, base_key, problems_);
  if (written == nullptr) {
    return std::nullopt;
  }
  const std::string name = name_beside(*written, problems_.file_of(value.position));
  if (leads_back(name)) {
    problems_.add("based-on-itself",
                  value.position,
                  fmt::format("based on: '{}' leads back to this farm", *written),
                  "name the file this one changes");
    return std::nullopt;
  }
  auto found = read_file_text(name);
  if (const auto* const unreadable = std::get_if<Unreadable>(&found)) {
    problems_.add("unreadable",
                  value.position,
                  fmt::format("based on: '{}' cannot be read: {}", *written, unreadable->why),
                  "the name is taken from the folder of the file it stands in");
    return std::nullopt;
  }
  const std::size_t index = problems_.add_file(name);
  ProblemList base_problems(name);
  YamlNode root = read_yaml(std::get<std::string>(found), base_problems);
  number_on(root, index);
  if (root.kind != YamlNode::Kind::Map && base_problems.count() == 0) {
    problems_.add("empty-file",
                  in_file(SourcePosition{1, 1}, index),
                  "the file holds no farm to base another on",
                  "'leat new FILE' writes one to start from");
  }
  for (Diagnostic& problem : base_problems.sorted()) {
    problems_.add_in(name,
                     std::move(problem.code),
                     problem.position,
                     std::move(problem.text),
                     std::move(problem.hint));
  }
  return root.kind == YamlNode::Kind::Map ? whole(std::move(root), index) : std::nullopt;
}

void VariantReader::remove(YamlNode& base, const YamlNode& list) {
  if (list.kind == YamlNode::Kind::Refused) {
    return;
  }
  if (list.kind != YamlNode::Kind::List) {
    report_wrong_shape(
        list, remove_key, "a list of names, such as [north, to north], is", problems_);
    return;
  }
  std::unordered_set<std::string> named;
  std::vector<std::string> known;
  for (const YamlEntry& section : base.entries) {
    if (holds_names(section.key)) {
      for (const YamlEntry& thing : section.value.entries) {
        named.insert(thing.key);
        known.push_back(thing.key);
      }
    }
  }
  std::unordered_set<std::string> names;
  for (const YamlNode& item : list.items) {
    const std::string* const name = read_text(item, "name in remove", problems_);
    if (name == nullptr) {
      continue;
    }
    if (named.count(*name) == 0) {
      problems_.add("unknown-name",
                    item.position,
                    fmt::format("remove: there is no '{}' in the base", *name),
                    did_you_mean(*name, known));
      continue;
    }
    names.insert(*name);
    removed_.emplace(*name, item.position);
  }
  for (YamlEntry& section : base.entries) {
    if (holds_names(section.key)) {
      std::erase_if(section.value.entries,
                    [&names](const YamlEntry& thing) { return names.count(thing.key) > 0; });
    }
  }
  forget(base, names);
}

}  // namespace

bool is_variant(const YamlNode& root) {
  return std::any_of(root.entries.begin(), root.entries.end(), [](const YamlEntry& entry) {
    return entry.key == base_key || entry.key == remove_key;
  });
}

std::optional<WholeTree> with_its_base(YamlNode variant, ProblemList& problems) {
  VariantReader reader(problems);
  std::optional<YamlNode> root = reader.whole(std::move(variant), 0);
  if (!root) {
    return std::nullopt;
  }
  return WholeTree{std::move(*root), reader.take_removed()};
}

}  // namespace leat::model
