#include "model/text/yaml_tree.h"

#include <algorithm>
#include <optional>
#include <sstream>
#include <unordered_map>

#include <fmt/format.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/yaml.h>

#include "model/text/text_scan.h"
#include "model/text/yaml_error.h"

namespace leat::model {
namespace {

constexpr std::size_t small_map = 16;

/// Thrown out of the parser, which offers no other way to stop.
struct TooDeep {
  SourcePosition position;
};

/// Builds the tree from the parser's events. Events rather than yaml-cpp's own tree: they tell
/// anchors, aliases and tags apart from values, keep repeated keys, and take a tenth of the memory.
class TreeBuilder : public YAML::EventHandler {
 public:
  TreeBuilder(ColumnCounter& columns, ProblemList& problems)
      : columns_(columns), problems_(problems) {}

  void OnDocumentStart(const YAML::Mark& mark) override {
    ++documents_;
    document_start_ = position_of(mark);
  }
  void OnDocumentEnd() override {}

  void OnNull(const YAML::Mark& mark, YAML::anchor_t) override {
    // The mark of an empty value is that of the next token, often lines below.
    YamlNode node;
    if (expects_key()) {
      problems_.add("empty-key",
                    position_of(mark),
                    "a key is empty or the word null",
                    "give it a name, or put the word in quotes");
      take_key(std::nullopt, position_of(mark));
      return;
    }
    node.position = frames_.empty() ? position_of(mark) : frames_.back().last_seen;
    take_value(std::move(node));
  }

  void OnAlias(const YAML::Mark& mark, YAML::anchor_t) override {
    const SourcePosition position = position_of(mark);
    problems_.add("anchor",
                  position,
                  "'*' repeats another part of the file",
                  "write the value out: each line of a farm file says what it means");
    if (expects_key()) {
      take_key(std::nullopt, position);
    } else {
      YamlNode node;
      node.position = position;
      node.kind = YamlNode::Kind::Refused;
      take_value(std::move(node));
    }
  }

  void OnAnchor(const YAML::Mark& mark, const std::string& name) override {
    problems_.add("anchor",
                  position_of(mark),
                  fmt::format("'&{}' marks a part of the file to be repeated", name),
                  "write the value out: each line of a farm file says what it means");
  }

  void OnScalar(const YAML::Mark& mark,
                const std::string& tag,
                YAML::anchor_t,
                const std::string& value) override {
    const SourcePosition position = position_of(mark);
    check_tag(position, tag);
    if (expects_key()) {
      take_key(value, position);
      return;
    }
    YamlNode node;
    node.kind = YamlNode::Kind::Text;
    node.text = value;
    node.position = position;
    take_value(std::move(node));
  }

  void OnSequenceStart(const YAML::Mark& mark,
                       const std::string& tag,
                       YAML::anchor_t,
                       YAML::EmitterStyle::value) override {
    open(YamlNode::Kind::List, mark, tag);
  }
  void OnSequenceEnd() override { close(); }

  void OnMapStart(const YAML::Mark& mark,
                  const std::string& tag,
                  YAML::anchor_t,
                  YAML::EmitterStyle::value) override {
    open(YamlNode::Kind::Map, mark, tag);
  }
  void OnMapEnd() override { close(); }

  [[nodiscard]] int documents() const { return documents_; }
  [[nodiscard]] SourcePosition document_start() const { return document_start_; }
  [[nodiscard]] YamlNode take_root() { return std::move(root_); }

 private:
  /// A list or map that is still being read.
  struct Frame {
    YamlNode node;
    std::optional<std::string> key;  // read, its value still to come; empty: to be dropped
    SourcePosition key_position;
    bool key_read = false;
    bool is_key = false;       // this list or map stands where a key should
    SourcePosition last_seen;  // of the last key or item, for empty values
    std::unordered_map<std::string, SourcePosition> keys;
  };

  SourcePosition position_of(const YAML::Mark& mark) {
    return mark.is_null() ? SourcePosition{1, 1} : columns_.position(mark.line, mark.column);
  }

  [[nodiscard]] bool expects_key() const {
    return !frames_.empty() && frames_.back().node.kind == YamlNode::Kind::Map &&
           !frames_.back().key_read;
  }

  void check_tag(SourcePosition position, const std::string& tag) {
    // yaml-cpp gives "?" to plain values and "!" to quoted ones.
    if (tag.empty() || tag == "?" || tag == "!") {
      return;
    }
    constexpr std::string_view standard = "tag:yaml.org,2002:";
    const std::string written =
        tag.starts_with(standard) ? "!!" + tag.substr(standard.size()) : tag;
    problems_.add("tag",
                  position,
                  fmt::format("'{}' is a tag, and a farm file takes none", written),
                  "write the value alone");
  }

  void open(YamlNode::Kind kind, const YAML::Mark& mark, const std::string& tag) {
    const SourcePosition position = position_of(mark);
    check_tag(position, tag);
    if (static_cast<int>(frames_.size()) >= deepest_nesting) {
      throw TooDeep{position};
    }
    Frame frame;
    frame.is_key = expects_key();
    frame.node.kind = kind;
    frame.node.position = position;
    frame.last_seen = position;
    if (frame.is_key) {
      problems_.add("key-not-text",
                    position,
                    "a list or map stands where a key should",
                    "a key is a word or name followed by ': '");
    }
    frames_.push_back(std::move(frame));
  }

  void close() {
    Frame frame = std::move(frames_.back());
    frames_.pop_back();
    if (frame.is_key) {
      take_key(std::nullopt, frame.node.position);
    } else {
      take_value(std::move(frame.node));
    }
  }

  void take_key(std::optional<std::string> key, SourcePosition position) {
    Frame& frame = frames_.back();
    frame.key_read = true;
    frame.key_position = position;
    frame.last_seen = position;
    frame.key.reset();
    if (!key) {
      return;
    }
    if (*key == "<<") {
      problems_.add("merge-key",
                    position,
                    "'<<' would merge another map into this one",
                    "write the keys out: each line of a farm file says what it means");
      return;
    }
    if (const auto first = earlier_key(frame, *key)) {
      problems_.add("duplicate-key",
                    position,
                    fmt::format("'{}' stands twice, first in line {}", *key, first->line),
                    "keep one of them");
      return;
    }
    frame.key = std::move(key);
  }

  /// Where the key stood before in its map. Small maps, nearly all there are, need no index.
  static std::optional<SourcePosition> earlier_key(Frame& frame, const std::string& key) {
    const std::vector<YamlEntry>& entries = frame.node.entries;
    if (entries.size() <= small_map) {
      const auto found = std::find_if(entries.begin(),
                                      entries.end(),
                                      [&key](const YamlEntry& entry) { return entry.key == key; });
      return found == entries.end() ? std::nullopt : std::optional(found->position);
    }
    for (std::size_t i = frame.keys.size(); i < entries.size(); ++i) {
      frame.keys.emplace(entries[i].key, entries[i].position);
    }
    const auto found = frame.keys.find(key);
    return found == frame.keys.end() ? std::nullopt : std::optional(found->second);
  }

  void take_value(YamlNode node) {
    if (frames_.empty()) {
      if (documents_ <= 1) {
        root_ = std::move(node);
      }
      return;
    }
    Frame& frame = frames_.back();
    if (frame.node.kind == YamlNode::Kind::List) {
      frame.last_seen = node.position;
      frame.node.items.push_back(std::move(node));
      return;
    }
    frame.key_read = false;
    if (frame.key) {
      YamlEntry entry;
      entry.key = std::move(*frame.key);
      entry.position = frame.key_position;
      entry.value = std::move(node);
      frame.node.entries.push_back(std::move(entry));
    }
  }

  ColumnCounter& columns_;
  ProblemList& problems_;
  YamlNode root_;
  std::vector<Frame> frames_;
  int documents_ = 0;
  SourcePosition document_start_;
};

/// Whether a document mark stands in the lines just above, or in the line itself.
bool follows_document_mark(const ColumnCounter& columns, int line) {
  for (int above = line; above >= 1; --above) {
    const std::string_view text = columns.line_text(above);
    if (text.starts_with("---") || text.starts_with("...")) {
      return true;
    }
    const std::size_t content = text.find_first_not_of(" \t");
    const bool says_nothing = content == std::string_view::npos || text[content] == '#';
    if (above != line && !says_nothing) {
      return false;
    }
  }
  return false;
}

void report_second_document(const ColumnCounter& columns,
                            SourcePosition position,
                            ProblemList& problems) {
  if (follows_document_mark(columns, position.line)) {
    problems.add("second-document",
                 position,
                 "a second document starts here",
                 "a farm is one document: take out the line '---' or '...'");
  } else {
    problems.add("bad-indent",
                 position,
                 "this line belongs to nothing above it, so it and the rest would be lost",
                 "indent it like the lines it belongs with");
  }
}

}  // namespace

YamlNode read_yaml(std::string_view text, ProblemList& problems) {
  const TextScan scan = scan_text(text, problems);
  if (!scan.fit_to_parse) {
    return {};
  }
  if (text.starts_with("\xEF\xBB\xBF")) {
    text.remove_prefix(3);
  }
  ColumnCounter columns(text);
  TreeBuilder builder(columns, problems);
  try {
    // The end mark turns a quote that is never closed into an error; without it the parser takes
    // the rest of the file as one text.
    std::istringstream stream(std::string(text) + "\n...\n");
    YAML::Parser parser(stream);
    while (parser.HandleNextDocument(builder)) {
      if (builder.documents() > 1) {
        report_second_document(columns, builder.document_start(), problems);
        return {};
      }
    }
  } catch (const TooDeep& too_deep) {
    problems.add("too-deep",
                 too_deep.position,
                 fmt::format("lists and maps are nested more than {} deep", deepest_nesting),
                 "a farm needs five or six levels");
    return {};
  } catch (const YAML::Exception& fault) {
    const SourcePosition position = fault.mark.is_null()
                                        ? SourcePosition{columns.line_count(), 1}
                                        : columns.position(fault.mark.line, fault.mark.column);
    if (builder.documents() > 1) {
      report_second_document(columns, builder.document_start(), problems);
    } else {
      report_yaml_error(fault.msg, position, columns, scan, problems);
    }
    return {};
  }
  return builder.take_root();
}

const YamlEntry* entry_of(const YamlNode& map, std::string_view key) {
  const auto found = std::find_if(map.entries.begin(), map.entries.end(), [key](const auto& entry) {
    return entry.key == key;
  });
  return found == map.entries.end() ? nullptr : &*found;
}

const char* kind_word(const YamlNode& node) {
  switch (node.kind) {
    case YamlNode::Kind::Nothing:
    case YamlNode::Kind::Refused:
      return "nothing";
    case YamlNode::Kind::Text:
      return "a text";
    case YamlNode::Kind::List:
      return "a list";
    case YamlNode::Kind::Map:
      return "keys with values";
  }
  return "nothing";
}

}  // namespace leat::model
