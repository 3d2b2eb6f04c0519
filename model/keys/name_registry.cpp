#include "model/keys/name_registry.h"

#include <algorithm>

#include <fmt/format.h>

#include "model/keys/map_reader.h"
#include "model/text/source_files.h"
#include "model/text/text_scan.h"
#include "model/text/utf8.h"

namespace leat::model {
namespace {

/// In a large farm with many unknown names only so many are compared with every known one.
constexpr int most_guesses = 20;
constexpr std::size_t large_farm = 1000;

bool has_control_character(std::string_view name) {
  for (std::size_t at = 0; at < name.size(); ++at) {
    const auto byte = static_cast<unsigned char>(name[at]);
    // U+0080 to U+009F are C2 80 to C2 9F.
    const bool later_control =
        byte == 0xC2 && at + 1 < name.size() && static_cast<unsigned char>(name[at + 1]) < 0xA0;
    if (byte < 0x20 || byte == 0x7F || later_control) {
      return true;
    }
  }
  return false;
}

/// What is wrong with a name, empty where nothing is.
std::string_view fault_of(std::string_view name) {
  if (name.empty()) {
    return "it is empty";
  }
  if (has_control_character(name)) {
    return "it holds a control character";
  }
  if (name.find_first_of("{}[],:") != std::string_view::npos) {
    return "it holds one of { } [ ] , :";
  }
  if (name.find(" #") != std::string_view::npos) {
    return "it holds ' #', which starts a comment";
  }
  if (name.find("..") != std::string_view::npos) {
    return "it holds '..', which stands between the ends of a route";
  }
  if (name.front() == ' ' || name.back() == ' ') {
    return "it starts or ends with a space";
  }
  if (count_characters(name) > longest_name) {
    return "it has more than 80 characters";
  }
  return {};
}

/// "line 12", with its file where the reader is in another one.
std::string line_words(SourcePosition there, SourcePosition here, const ProblemList& problems) {
  const int line = within_file(there).line;
  return file_index(there) == file_index(here)
             ? fmt::format("line {}", line)
             : fmt::format("{}:{}", problems.file_of(there), line);
}

/// A name in a message: the start of one that goes on and on, whole characters only.
std::string shown(std::string_view name) {
  constexpr std::size_t longest_shown = 60;
  if (count_characters(name) <= longest_name) {
    return std::string(name);
  }
  return std::string(whole_characters(name, longest_shown)) + "...";
}

}  // namespace

bool NameRegistry::add(Kind kind,
                       std::size_t index,
                       std::string_view name,
                       SourcePosition position,
                       ProblemList& problems) {
  const std::string_view fault = fault_of(name);
  if (!fault.empty()) {
    const std::size_t colon = name.find(':');
    const bool glued = colon != std::string_view::npos && colon > 0 && colon + 1 < name.size();
    problems.add(glued ? "missing-space" : "bad-name",
                 position,
                 fmt::format("'{}' cannot be a name: {}", shown(name), fault),
                 glued ? "put a space after the ':'" : "use letters, digits, spaces and dashes");
  }
  const auto [entry, is_new] = entries_.emplace(name, Entry{kind, index, position});
  if (!is_new) {
    problems.add("duplicate-name",
                 position,
                 fmt::format("'{}' is the name of two things, first in {}",
                             shown(name),
                             line_words(entry->second.position, position, problems)),
                 "give each place and pipe a name of its own");
    return false;
  }
  if (!fault.empty()) {
    return false;
  }
  if (kind == Kind::Place) {
    places_.emplace_back(name);
  } else if (kind == Kind::Pipe) {
    pipes_.emplace_back(name);
  }
  return true;
}

std::optional<std::size_t> NameRegistry::find(Kind kind, std::string_view name) const {
  const auto found = entries_.find(std::string(name));
  if (found == entries_.end() || found->second.kind != kind) {
    return std::nullopt;
  }
  return found->second.index;
}

std::optional<std::size_t> NameRegistry::look_up(Kind kind,
                                                 std::string_view name,
                                                 SourcePosition position,
                                                 std::string_view what,
                                                 ProblemList& problems) const {
  const std::optional<std::size_t> index = find(kind, name);
  if (index) {
    return index;
  }
  const bool place = kind == Kind::Place;
  problems.add(place ? "unknown-place" : "unknown-pipe",
               position,
               fmt::format("{}: there is no {} '{}'", what, place ? "place" : "pipe", shown(name)),
               hint_for(kind, name, problems));
  return std::nullopt;
}

void NameRegistry::mark_removed(std::string_view name, SourcePosition position) {
  removed_.emplace(name, position);
}

std::string NameRegistry::hint_for(Kind kind,
                                   std::string_view name,
                                   const ProblemList& problems) const {
  const auto removed = removed_.find(std::string(name));
  if (removed == removed_.end()) {
    return nearest(kind, name);
  }
  return fmt::format("'remove' in {}:{} takes it out: take this out too, or change it",
                     problems.file_of(removed->second),
                     within_file(removed->second).line);
}

std::string NameRegistry::nearest(Kind kind, std::string_view name) const {
  const std::vector<std::string>& known = kind == Kind::Place ? places_ : pipes_;
  if (known.size() > large_farm && ++guesses_ > most_guesses) {
    return {};
  }
  return did_you_mean(name, known);
}

}  // namespace leat::model
