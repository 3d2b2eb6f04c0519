// A JSON document that is built up and laid out for people to read.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace leat::model {

/// A value of JSON; members and items keep their order.
class JsonTree {
 public:
  /// An object without members.
  JsonTree() = default;
  /// A text.
  JsonTree(std::string_view text);        // NOLINT(google-explicit-constructor)
  JsonTree(const std::string& text);      // NOLINT(google-explicit-constructor)
  JsonTree(const char* text);             // NOLINT(google-explicit-constructor)
  JsonTree(bool truth);                   // NOLINT(google-explicit-constructor)
  JsonTree(int number);                   // NOLINT(google-explicit-constructor)
  JsonTree(double number);                // NOLINT(google-explicit-constructor)
  JsonTree(std::vector<JsonTree> items);  // NOLINT(google-explicit-constructor)
  /// A number as it is written.
  [[nodiscard]] static JsonTree written(std::string_view number);

  /// Adds a member to an object.
  JsonTree& add(std::string_view key, JsonTree value) &;
  [[nodiscard]] JsonTree&& add(std::string_view key, JsonTree value) &&;
  /// Adds the members of another object.
  JsonTree& add_all(const JsonTree& object) &;
  [[nodiscard]] JsonTree&& add_all(const JsonTree& object) &&;

  [[nodiscard]] bool has(std::string_view key) const;
  [[nodiscard]] bool is_empty() const { return kind_ != Kind::Scalar && parts_.empty(); }

  /// The document: what fits into `width` columns stands on one line.
  [[nodiscard]] std::string laid_out(std::size_t width) const;

 private:
  enum class Kind { Object, Array, Scalar };

  [[nodiscard]] std::string on_one_line() const;
  void lay_out(std::size_t width,
               std::size_t indent,
               std::size_t used,
               bool has_comma,
               std::string& text) const;

  Kind kind_ = Kind::Object;
  std::string scalar_;                                   // as JSON writes it
  std::vector<std::pair<std::string, JsonTree>> parts_;  // of an array without keys
};

}  // namespace leat::model
