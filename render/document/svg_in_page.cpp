#include "render/document/svg_in_page.h"

#include <algorithm>
#include <array>
#include <cstddef>

#include <fmt/format.h>

#include "render/words/running_text.h"

namespace leat::render::report {

namespace {

std::string escaped(std::string_view text) {
  std::string shown;
  for (const char letter : printable(text)) {
    switch (letter) {
      case '&':
        shown += "&amp;";
        break;
      case '<':
        shown += "&lt;";
        break;
      case '>':
        shown += "&gt;";
        break;
      case '"':
        shown += "&quot;";
        break;
      default:
        shown += letter;
    }
  }
  return shown;
}

/// Where an id is named or referred to, up to its first letter.
constexpr std::array<std::string_view, 7> id_marks = {
    " id=\"", " id='", "\tid='", "href=\"#", "href='#", "url(#", "url('#"};

/// A tag with every id in it prefixed. Attribute values of these two programs hold no '<' or '>',
/// and text of the farm's owner stands between tags, not in them.
std::string prefixed(std::string_view tag, std::string_view prefix) {
  std::string text;
  while (!tag.empty()) {
    bool found = false;
    for (const std::string_view mark : id_marks) {
      if (tag.substr(0, mark.size()) == mark) {
        text += mark;
        text += prefix;
        tag.remove_prefix(mark.size());
        found = true;
        break;
      }
    }
    if (!found) {
      text += tag.front();
      tag.remove_prefix(1);
    }
  }
  return text;
}

/// The value of an attribute in double quotes; empty where it is missing.
std::string_view attribute(std::string_view tag, std::string_view name) {
  const std::size_t at = tag.find(name);
  if (at == std::string_view::npos) {
    return {};
  }
  const std::size_t start = at + name.size();
  return tag.substr(start, tag.find('"', start) - start);
}

/// The root's own tag: only its view is kept.
std::string opening(std::string_view tag, std::string_view words) {
  return fmt::format("<svg viewBox=\"{}\" role=\"img\" aria-label=\"{}\">",
                     attribute(tag, "viewBox=\""),
                     escaped(words));
}

std::size_t after(std::string_view text, std::string_view what) {
  const std::size_t at = text.find(what);
  return at == std::string_view::npos ? text.size() : at + what.size();
}

bool starts_with(std::string_view text, std::string_view what) {
  return text.substr(0, what.size()) == what;
}

}  // namespace

std::string svg_in_page(std::string_view file, std::string_view prefix, std::string_view words) {
  const std::size_t start = file.find("<svg");
  if (start == std::string_view::npos) {
    return "";
  }
  file.remove_prefix(start);
  const std::size_t root = after(file, ">");
  std::string svg = opening(file.substr(0, root), words);
  file.remove_prefix(root);
  while (!file.empty()) {
    if (file.front() != '<') {
      const std::size_t end = std::min(file.find('<'), file.size());
      svg += file.substr(0, end);
      file.remove_prefix(end);
    } else if (starts_with(file, "<!--")) {
      file.remove_prefix(after(file, "-->"));
    } else if (starts_with(file, "<title>")) {
      file.remove_prefix(after(file, "</title>"));
    } else if (starts_with(file, "<desc>")) {
      file.remove_prefix(after(file, "</desc>"));
    } else {
      const std::size_t end = after(file, ">");
      svg += prefixed(file.substr(0, end), prefix);
      file.remove_prefix(end);
    }
  }
  return svg;
}

}  // namespace leat::render::report
