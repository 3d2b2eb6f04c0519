// Where in a farm file's text the values of its tree stand, and what is to be put in their place.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "model/text/text_marks.h"
#include "model/text/yaml_tree.h"

namespace leat::model {

/// The text of a file and its marks; the nodes asked for are those of the tree read from it. Each
/// question gives the bytes to replace, in the style in which the map or list around them is
/// written, or nothing where their end cannot be told (a text over several lines). The text must
/// outlive this.
class TextPlaces {
 public:
  explicit TextPlaces(std::string_view text) : text_(text), marks_(text) {}

  /// Whether a map or list stands in brackets.
  [[nodiscard]] bool is_flow(const YamlNode& node) const;
  /// A value, or a whole list or map, gives way to words.
  [[nodiscard]] std::optional<Replacement> value(const YamlNode& node,
                                                 const std::string& words) const;
  /// A key gives way to words.
  [[nodiscard]] std::optional<Replacement> key(const YamlEntry& entry,
                                               const std::string& words) const;
  /// "key: value", or an item, comes before the first of a map or list that has one; in brackets
  /// also into an empty one. Several in brackets are parted by ", ".
  [[nodiscard]] std::optional<Replacement> first(const YamlNode& node,
                                                 const std::string& words) const;
  /// "key: value" comes behind the last entry of a map.
  [[nodiscard]] std::optional<Replacement> last_key(const YamlNode& map,
                                                    const std::string& words) const;
  /// An item comes behind the last of a list.
  [[nodiscard]] std::optional<Replacement> last_item(const YamlNode& list,
                                                     const std::string& words) const;
  /// An entry of a map goes, with its line where it has one of its own.
  [[nodiscard]] std::optional<Replacement> without(const YamlNode& map,
                                                   const std::string& key) const;
  /// The bytes of the lines of an entry that stands in lines of its own: from the remarks right
  /// above it in its own column to those of the next entry, or to the last line of its own.
  [[nodiscard]] std::pair<std::size_t, std::size_t> lines_of(const YamlNode& map,
                                                             const YamlEntry& entry) const;

 private:
  [[nodiscard]] char letter(std::size_t at) const;
  /// The byte after a text in quotes that begins at `at`.
  [[nodiscard]] std::optional<std::size_t> end_of_quoted(std::size_t at) const;
  /// Past blanks, line ends, remarks and commas.
  [[nodiscard]] std::size_t past_nothing(std::size_t at) const;
  /// The byte after the last of a map's or list's own; before its closing bracket where it has one.
  [[nodiscard]] std::optional<std::size_t> end_of_content(const YamlNode& node) const;
  /// The byte after a value; none where its end cannot be told.
  [[nodiscard]] std::optional<std::size_t> end_of(const YamlNode& node) const;
  /// The dash before an item that stands in lines of its own.
  [[nodiscard]] std::optional<std::size_t> dash_of(const YamlNode& item) const;
  /// "- words" and what stands before the next dash.
  [[nodiscard]] std::string item_lines(std::size_t dash, const std::string& words) const;
  [[nodiscard]] int first_line(const YamlEntry& entry) const;

  std::string_view text_;
  TextMarks marks_;
};

}  // namespace leat::model
