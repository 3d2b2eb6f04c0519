// The keys of an object and what they mean, as OUTPUT.md tells them.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace leat::render {

/// A key and what is said of it. Keys without a sentence are told with the next that has one.
struct ToldKey {
  std::string key;
  std::string meaning;
};

/// "at_m, elevation_m, margin_m (that less the vapour head), parted".
[[nodiscard]] std::string key_list(const std::vector<ToldKey>& keys);

/// The sentence of a key that holds objects: `{keys}` in it stands for theirs.
[[nodiscard]] std::string meaning_with_keys(const std::string& meaning,
                                            const std::vector<ToldKey>& parts);

/// The lines of a table of two columns, "| from, to | as in the file |", under its heading. `of` is
/// what the keys belong to: "key of `flags`".
[[nodiscard]] std::string key_table(std::string_view of, const std::vector<ToldKey>& keys);

}  // namespace leat::render
