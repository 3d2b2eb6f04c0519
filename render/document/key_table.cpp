#include "render/document/key_table.h"

#include <cstddef>

#include <fmt/format.h>

namespace leat::render {

namespace {

/// Keys that share a sentence, as one: "from, to".
std::vector<ToldKey> grouped(const std::vector<ToldKey>& keys) {
  std::vector<ToldKey> groups;
  bool is_open = false;
  for (const ToldKey& key : keys) {
    if (is_open) {
      groups.back().key += ", " + key.key;
      groups.back().meaning = key.meaning;
    } else {
      groups.push_back(key);
    }
    is_open = key.meaning.empty();
  }
  return groups;
}

}  // namespace

std::string key_list(const std::vector<ToldKey>& keys) {
  std::string list;
  for (const ToldKey& group : grouped(keys)) {
    list += (list.empty() ? "" : ", ") + group.key;
    list += group.meaning.empty() ? "" : fmt::format(" ({})", group.meaning);
  }
  return list;
}

std::string meaning_with_keys(const std::string& meaning, const std::vector<ToldKey>& parts) {
  constexpr std::string_view mark = "{keys}";
  const std::size_t at = meaning.find(mark);
  return at == std::string::npos
             ? meaning
             : meaning.substr(0, at) + key_list(parts) + meaning.substr(at + mark.size());
}

std::string key_table(std::string_view of, const std::vector<ToldKey>& keys) {
  std::string lines = fmt::format("| {} | meaning |\n|---|---|\n", of);
  for (const ToldKey& group : grouped(keys)) {
    lines += fmt::format("| {} | {} |\n", group.key, group.meaning);
  }
  return lines;
}

}  // namespace leat::render
