// A variant: a farm file that says what it is based on and what changes. Its tree is laid over that
// of its base before anything is read from it.
#pragma once

#include <map>
#include <optional>
#include <string>

#include "model/text/problem_list.h"
#include "model/text/yaml_tree.h"

namespace leat::model {

/// How many times over a variant may be based on a variant.
inline constexpr std::size_t deepest_base = 5;

/// The tree of a variant laid over its base's, and the names that `remove` takes out of the base
/// for good, with where it says so.
struct WholeTree {
  YamlNode root;
  std::map<std::string, SourcePosition> removed;
};

/// Whether the tree says `based on` or `remove`.
[[nodiscard]] bool is_variant(const YamlNode& root);

/// Lays a variant over what it is based on: maps merge key by key, everything else replaces; the
/// base's order comes first, new things after it. Positions of the base's parts are numbered on
/// (source_files.h). None where the base cannot be had (reported: unreadable, based-on-itself,
/// based-on-too-deep, remove-without-base, and whatever is no YAML in the base).
[[nodiscard]] std::optional<WholeTree> with_its_base(YamlNode variant, ProblemList& problems);

}  // namespace leat::model
