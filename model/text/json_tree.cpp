#include "model/text/json_tree.h"

#include <algorithm>

#include <fmt/format.h>

namespace leat::model {
namespace {

std::string quoted_json(std::string_view text) {
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') {
      quoted += '\\';
    }
    quoted += c;
  }
  return quoted + '"';
}

}  // namespace

JsonTree::JsonTree(std::string_view text) : kind_(Kind::Scalar), scalar_(quoted_json(text)) {}
JsonTree::JsonTree(const std::string& text) : JsonTree(std::string_view(text)) {}
JsonTree::JsonTree(const char* text) : JsonTree(std::string_view(text)) {}
JsonTree::JsonTree(bool truth) : kind_(Kind::Scalar), scalar_(truth ? "true" : "false") {}
JsonTree::JsonTree(int number) : kind_(Kind::Scalar), scalar_(std::to_string(number)) {}
JsonTree::JsonTree(double number) : kind_(Kind::Scalar), scalar_(fmt::format("{:.15g}", number)) {}
JsonTree::JsonTree(std::vector<JsonTree> items) : kind_(Kind::Array) {
  for (JsonTree& item : items) {
    parts_.emplace_back(std::string(), std::move(item));
  }
}

JsonTree JsonTree::written(std::string_view number) {
  JsonTree tree;
  tree.kind_ = Kind::Scalar;
  tree.scalar_ = number;
  return tree;
}

JsonTree& JsonTree::add(std::string_view key, JsonTree value) & {
  parts_.emplace_back(std::string(key), std::move(value));
  return *this;
}

JsonTree&& JsonTree::add(std::string_view key, JsonTree value) && {
  add(key, std::move(value));
  return std::move(*this);
}

JsonTree& JsonTree::add_all(const JsonTree& object) & {
  parts_.insert(parts_.end(), object.parts_.begin(), object.parts_.end());
  return *this;
}

JsonTree&& JsonTree::add_all(const JsonTree& object) && {
  add_all(object);
  return std::move(*this);
}

bool JsonTree::has(std::string_view key) const {
  return std::any_of(
      parts_.begin(), parts_.end(), [key](const auto& part) { return part.first == key; });
}

std::string JsonTree::on_one_line() const {
  if (kind_ == Kind::Scalar) {
    return scalar_;
  }
  std::string text;
  for (const auto& [key, value] : parts_) {
    text += text.empty() ? "" : ", ";
    text += kind_ == Kind::Object ? quoted_json(key) + ": " : "";
    text += value.on_one_line();
  }
  return kind_ == Kind::Object ? '{' + text + '}' : '[' + text + ']';
}

void JsonTree::lay_out(std::size_t width,
                       std::size_t indent,
                       std::size_t used,
                       bool has_comma,
                       std::string& text) const {
  const std::string line = on_one_line();
  const bool fits = used + line.size() + (has_comma ? 1 : 0) <= width;
  if (fits || kind_ == Kind::Scalar || parts_.empty()) {
    text += line;
    return;
  }
  constexpr std::size_t step = 2;
  text += kind_ == Kind::Object ? '{' : '[';
  for (std::size_t i = 0; i < parts_.size(); ++i) {
    const auto& [key, value] = parts_[i];
    const std::string start = kind_ == Kind::Object ? quoted_json(key) + ": " : std::string();
    const bool is_last = i + 1 == parts_.size();
    text += '\n' + std::string(indent + step, ' ') + start;
    value.lay_out(width, indent + step, indent + step + start.size(), !is_last, text);
    text += is_last ? "" : ",";
  }
  text += '\n' + std::string(indent, ' ');
  text += kind_ == Kind::Object ? '}' : ']';
}

std::string JsonTree::laid_out(std::size_t width) const {
  std::string text;
  lay_out(width, 0, 0, false, text);
  return text + '\n';
}

}  // namespace leat::model
