#include "render/page/page_request.h"

#include <stdexcept>
#include <utility>

#include <nlohmann/json.hpp>

namespace leat::render {
namespace {

using Parsed = nlohmann::json;

constexpr std::size_t longest_text = 500;
constexpr std::size_t deepest_path = 12;
constexpr std::size_t most_parts = 20;

/// An object; none for what is no JSON or nested without end.
std::optional<Parsed> object_of(std::string_view body) {
  constexpr int deepest = 8;
  const auto not_too_deep = [](int depth, Parsed::parse_event_t, Parsed&) {
    if (depth > deepest) {
      throw std::length_error("nested too deep");
    }
    return true;
  };
  try {
    Parsed parsed = Parsed::parse(body, not_too_deep);
    return parsed.is_object() ? std::optional(std::move(parsed)) : std::nullopt;
  } catch (const std::exception&) {
    return std::nullopt;
  }
}

std::optional<std::string> short_text(const Parsed& value) {
  if (!value.is_string() || value.get_ref<const std::string&>().size() > longest_text) {
    return std::nullopt;
  }
  return value.get<std::string>();
}

std::optional<model::TextEdit> part_of(const Parsed& object) {
  if (!object.is_object() || !object.contains("path") || !object.contains("text") ||
      !object["path"].is_array() || object["path"].empty() ||
      object["path"].size() > deepest_path) {
    return std::nullopt;
  }
  model::TextEdit part;
  for (const Parsed& step : object["path"]) {
    const auto text = short_text(step);
    if (!text) {
      return std::nullopt;
    }
    part.path.push_back(*text);
  }
  if (!object["text"].is_null()) {
    part.text = short_text(object["text"]);
    if (!part.text) {
      return std::nullopt;
    }
  }
  return part;
}

std::optional<PageView> view_in(const Parsed& object) {
  std::map<std::string, std::string> words;
  if (!object.contains("view")) {
    return PageView{};
  }
  if (!object["view"].is_object()) {
    return std::nullopt;
  }
  for (const auto& [key, value] : object["view"].items()) {
    const auto text = short_text(value);
    if (!text) {
      return std::nullopt;
    }
    words[key] = *text;
  }
  return read_view(words);
}

}  // namespace

std::optional<PageView> read_view(const std::map<std::string, std::string>& words) {
  PageView view;
  for (const auto& [key, word] : words) {
    if (word.empty()) {
      continue;
    }
    if (key == "month") {
      view.month = model::month_named(word);
      if (!view.month) {
        return std::nullopt;
      }
    } else if (key == "broken") {
      view.broken = word;
    } else if (key == "case") {
      bool is_known = false;
      for (const solver::LoadCase load_case :
           {solver::LoadCase::Needs, solver::LoadCase::Wide, solver::LoadCase::Static}) {
        if (word == solver::word_of(load_case)) {
          view.load_case = load_case;
          is_known = true;
        }
      }
      if (!is_known) {
        return std::nullopt;
      }
    }
  }
  return view;
}

std::optional<EditRequest> read_edit(std::string_view body) {
  const auto object = object_of(body);
  if (!object) {
    return std::nullopt;
  }
  EditRequest request;
  const bool is_list = object->contains("edits") && (*object)["edits"].is_array();
  const Parsed parts = is_list ? (*object)["edits"] : Parsed::array({*object});
  if (parts.empty() || parts.size() > most_parts) {
    return std::nullopt;
  }
  for (const Parsed& one : parts) {
    auto part = part_of(one);
    if (!part) {
      return std::nullopt;
    }
    request.parts.push_back(std::move(*part));
  }
  const auto view = view_in(*object);
  if (!view) {
    return std::nullopt;
  }
  request.view = *view;
  if (object->contains("continued") && (*object)["continued"] == true) {
    request.run = EditRun::Continued;
  }
  return request;
}

std::optional<std::string> read_name(std::string_view body) {
  const auto object = object_of(body);
  return object && object->contains("name") ? short_text((*object)["name"]) : std::nullopt;
}

std::optional<PageView> read_view_of(std::string_view body) {
  const auto object = object_of(body);
  return object ? view_in(*object) : std::nullopt;
}

}  // namespace leat::render
