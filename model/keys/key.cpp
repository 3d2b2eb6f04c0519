#include "model/keys/key.h"

#include <algorithm>

namespace leat::model {

std::vector<std::string_view> words_to_choose(const Kind& kind) {
  if (kind.definition == truth_definition) {
    return {"yes", "no"};
  }
  const bool is_open =
      !kind.definition.empty() || kind.numbers || kind.or_csv || kind.keys != nullptr;
  return is_open ? std::vector<std::string_view>() : kind.words;
}

const KeyRow* KeyTable::find(std::string_view name) const {
  const auto found = std::find(names_.begin(), names_.end(), name);
  return found == names_.end() ? nullptr : &rows_[static_cast<std::size_t>(found - names_.begin())];
}

void KeyTable::add(KeyRow row) {
  names_.push_back(row.name);
  rows_.push_back(std::move(row));
}

void KeyTable::add_shared(const KeyTable& shared) {
  for (const KeyRow& row : shared.rows()) {
    add(row);
  }
  shared_count_ += shared.rows().size();
}

bool SoundKeys::has(std::string_view key) const {
  const auto names = table_.names();
  const auto found = std::find(names.begin(), names.end(), key);
  return found != names.end() && is_sound_[static_cast<std::size_t>(found - names.begin())];
}

}  // namespace leat::model
