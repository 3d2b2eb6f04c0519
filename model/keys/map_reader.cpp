#include "model/keys/map_reader.h"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "model/text/nearest_word.h"

namespace leat::model {
namespace {

/// Longer words are no slips of a known one, and comparing them costs time.
constexpr std::size_t longest_slip = 100;

const YamlEntry* find_entry(const YamlNode& node, std::string_view key) {
  const auto found = std::find_if(node.entries.begin(),
                                  node.entries.end(),
                                  [key](const YamlEntry& entry) { return entry.key == key; });
  return found == node.entries.end() ? nullptr : &*found;
}

void check_key(const YamlEntry& entry,
               const Subject& subject,
               std::span<const std::string_view> keys,
               ProblemList& problems) {
  if (std::find(keys.begin(), keys.end(), entry.key) != keys.end()) {
    if (entry.value.kind == YamlNode::Kind::Nothing) {
      problems.add("empty-value",
                   entry.position,
                   fmt::format("{} has no value", subject.part(entry.key)),
                   "write one after the ':', or take the line out");
    }
    return;
  }
  const std::size_t colon = entry.key.find(':');
  if (colon != std::string::npos) {
    problems.add(
        "missing-space",
        entry.position,
        fmt::format("'{}' has no space after its ':'", entry.key),
        fmt::format("write '{}: {}'", entry.key.substr(0, colon), entry.key.substr(colon + 1)));
    return;
  }
  std::string text = fmt::format("{} has no key '{}'", subject.name, entry.key);
  const bool may_be_cut = entry.value.kind == YamlNode::Kind::Nothing &&
                          entry.key.find_first_of("0123456789 ") != std::string::npos;
  if (may_be_cut) {
    problems.add(
        "unknown-key", entry.position, std::move(text), "put a text that holds a comma in quotes");
    return;
  }
  report_unknown_word("unknown-key", entry.position, std::move(text), entry.key, keys, problems);
}

/// Whether an unknown key is this one misspelt or glued to its value: telling that it is missing as
/// well would tell one slip twice.
bool stands_for(const YamlEntry& entry,
                std::string_view key,
                std::span<const std::string_view> keys) {
  if (std::find(keys.begin(), keys.end(), entry.key) != keys.end()) {
    return false;
  }
  const bool glued = entry.key.starts_with(key) && entry.key.substr(key.size()).starts_with(':');
  return glued || !did_you_mean(entry.key, {std::string(key)}).empty();
}

}  // namespace

std::string Subject::part(std::string_view key) const {
  return fmt::format("{} of {}", key, name);
}

MapReader::MapReader(const YamlNode& node,
                     Subject subject,
                     std::span<const std::string_view> keys,
                     ProblemList& problems)
    : node_(node), subject_(std::move(subject)), keys_(keys), problems_(problems) {
  if (node.kind == YamlNode::Kind::Refused) {
    return;
  }
  if (!is_map()) {
    report_wrong_shape(node, subject_.name, "keys with values are", problems);
    return;
  }
  for (const YamlEntry& entry : node.entries) {
    check_key(entry, subject_, keys, problems);
  }
}

const YamlNode* MapReader::find(std::string_view key) const {
  const YamlEntry* const entry = find_entry(node_, key);
  if (entry == nullptr || entry->value.kind == YamlNode::Kind::Nothing ||
      entry->value.kind == YamlNode::Kind::Refused) {
    return nullptr;
  }
  return &entry->value;
}

const YamlNode* MapReader::require(std::string_view key, std::string_view example) const {
  const auto slip = [&](const YamlEntry& entry) { return stands_for(entry, key, keys_); };
  if (is_map() && !has(key) && std::none_of(node_.entries.begin(), node_.entries.end(), slip)) {
    problems_.add("missing-key",
                  subject_.position,
                  fmt::format("{} has no {}", subject_.name, key),
                  fmt::format("add '{}: {}'", key, example));
  }
  return find(key);
}

bool MapReader::has(std::string_view key) const {
  return find_entry(node_, key) != nullptr;
}

SourcePosition MapReader::position_of(std::string_view key) const {
  const YamlEntry* const entry = find_entry(node_, key);
  return entry == nullptr ? subject_.position : entry->position;
}

void report_wrong_shape(const YamlNode& node,
                        std::string_view what,
                        std::string_view wanted,
                        ProblemList& problems) {
  const bool glued = node.kind == YamlNode::Kind::Text && wanted.starts_with("keys") &&
                     node.text.find(':') != std::string::npos;
  if (node.kind == YamlNode::Kind::Nothing) {
    problems.add("empty-value",
                 node.position,
                 fmt::format("{} is empty", what),
                 fmt::format("{} wanted here", wanted));
    return;
  }
  problems.add("wrong-shape",
               node.position,
               fmt::format("{} is {} where {} wanted", what, kind_word(node), wanted),
               glued ? "put a space after the ':'" : "");
}

void report_unknown_word(std::string_view code,
                         SourcePosition position,
                         std::string text,
                         std::string_view word,
                         std::span<const std::string_view> known,
                         ProblemList& problems) {
  std::string hint = did_you_mean(word, std::vector<std::string>(known.begin(), known.end()));
  if (hint.empty()) {
    hint = fmt::format("known are: {}", fmt::join(known, ", "));
  }
  problems.add(std::string(code), position, std::move(text), std::move(hint));
}

std::string did_you_mean(std::string_view word, const std::vector<std::string>& candidates) {
  if (word.size() > longest_slip) {
    return {};
  }
  const auto nearest = nearest_word(word, candidates);
  return nearest ? fmt::format("did you mean '{}'?", *nearest) : std::string();
}

}  // namespace leat::model
