// Keys of one map of the farm file: known, unknown, missing or empty.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "model/keys/load_context.h"
#include "model/text/problem_list.h"
#include "model/text/yaml_tree.h"

namespace leat::model {

/// What is being read, as messages call it ("trough 'north'"), and where its name stands.
struct Subject {
  std::string name;
  SourcePosition position;

  /// "float of trough 'north'".
  [[nodiscard]] std::string part(std::string_view key) const;
};

/// One map of the file, checked against the keys it may have.
class MapReader {
 public:
  /// Reports a value that is no map (code wrong-shape), unknown keys (unknown-key, with the nearest
  /// known one), keys glued to their value (missing-space) and keys without value (empty-value).
  /// `node` and the list of keys must outlive the reader.
  MapReader(const YamlNode& node,
            Subject subject,
            std::span<const std::string_view> keys,
            ProblemList& problems);

  /// The value of a key; nullptr where it is absent, or empty, or already refused.
  [[nodiscard]] const YamlNode* find(std::string_view key) const;
  /// The same, and an absent key is reported at the subject's name (missing-key).
  [[nodiscard]] const YamlNode* require(std::string_view key, std::string_view example) const;
  /// Whether the key stands in the file, even without a value.
  [[nodiscard]] bool has(std::string_view key) const;
  /// Where the key stands, or the subject's own position.
  [[nodiscard]] SourcePosition position_of(std::string_view key) const;

  [[nodiscard]] bool is_map() const { return node_.kind == YamlNode::Kind::Map; }
  [[nodiscard]] const Subject& subject() const { return subject_; }
  [[nodiscard]] std::string part(std::string_view key) const { return subject_.part(key); }

 private:
  const YamlNode& node_;
  Subject subject_;
  std::span<const std::string_view> keys_;
  ProblemList& problems_;
};

/// Reports that a value has the wrong shape: "path of pipe 'main' is a text where a list is
/// wanted".
void report_wrong_shape(const YamlNode& node,
                        std::string_view what,
                        std::string_view wanted,
                        ProblemList& problems);

/// Reports a word that is none of those known, with the nearest of them.
void report_unknown_word(std::string_view code,
                         SourcePosition position,
                         std::string text,
                         std::string_view word,
                         std::span<const std::string_view> known,
                         ProblemList& problems);

/// The nearest of many words as a hint "did you mean 'x'?", empty where none is near or the word is
/// too long to be a slip.
[[nodiscard]] std::string did_you_mean(std::string_view word,
                                       const std::vector<std::string>& candidates);

}  // namespace leat::model
