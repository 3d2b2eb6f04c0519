// Room: a key of the farm file is one row, in the file of its section.
//
// The reader, the schema for editors, FORMAT.md's tables and the controls of the page are made of
// the rows, so that they cannot drift apart.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <iterator>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "model/keys/map_reader.h"
#include "model/keys/value_reader.h"

namespace leat::model {

class KeyTable;

/// What the value of a key may be, as editors check it and the page offers it. A value is sound
/// where it fits one of what is given here.
struct Kind {
  std::string_view definition =
      {};                 // one value, as the schema defines it: "level", "flow", "share"
  bool by_month = false;  // or a map of months with such values
  bool or_csv = false;    // or the name of a CSV file
  std::vector<std::string_view> words = {};   // or one of these
  std::optional<Range<double>> numbers = {};  // a bare number
  const KeyTable* keys = nullptr;             // a map with keys of its own
  bool is_list = false;                       // a list of all that
  bool may_repeat = false;                    // or a list of such values
  bool is_by_name = false;                    // a map of names to all that
};

/// yes or no, as the schema defines it.
inline constexpr std::string_view truth_definition = "truth";

/// The words between which a value is chosen: yes and no, or those of the kind; empty where it may
/// be anything else as well.
[[nodiscard]] std::vector<std::string_view> words_to_choose(const Kind& kind);

/// What people are told of a key.
struct KeyWords {
  std::string_view sentence = {};               // for editors
  std::vector<std::string_view> examples = {};  // for editors, each a sound value
  /// What stands behind the key in the hint where it is missing; empty: it may be absent.
  std::string_view required = {};
  /// FORMAT.md's row: what it is, and what holds where it is absent. Empty where the key shares the
  /// row of the one before it.
  std::string_view told = {};
  std::string_view if_absent = {};
  bool is_aside = false;  // seldom turned by who tries things out
};

/// One key, as far as it does not matter what it is read into.
struct KeyRow {
  std::string_view name;
  Kind kind;
  KeyWords words;
};

/// A value of a key that stands in the file: the value, its name in messages, and the map around
/// it.
struct KeyValue {
  const YamlNode& node;
  std::string what;  // "float of trough 'north'"
  const MapReader& map;
  LoadContext& context;

  [[nodiscard]] ProblemList& problems() const { return context.problems; }
};

/// How a value is read, and what may stand there. `read` puts a sound value where it belongs and
/// says whether it was sound; what is not, it reports.
template <class Read>
struct Value {
  Kind kind;
  Read read;
};

/// Keys of one map of which only some may stand beside each other.
struct KeyGroup {
  enum class Stand { AtMostOne, ExactlyOne, AtLeastOne };
  Stand stand;
  std::vector<std::string_view> names;
};

/// Where one key stands, another is one of these words.
struct WordsBeside {
  std::string_view beside;
  std::string_view key;
  std::vector<std::string_view> words;
};

/// What the keys of one map tell, for editors.
struct TableWords {
  std::string_view name = {};  // its definition in the schema; empty: told where it stands
  std::string_view sentence = {};
};

/// The keys one map of the file may have.
class KeyTable {
 public:
  KeyTable(const KeyTable&) = delete;
  KeyTable& operator=(const KeyTable&) = delete;

  [[nodiscard]] const std::vector<KeyRow>& rows() const { return rows_; }
  /// The names in the order of the rows.
  [[nodiscard]] std::span<const std::string_view> names() const { return names_; }
  /// The row of a key, or nullptr.
  [[nodiscard]] const KeyRow* find(std::string_view name) const;
  [[nodiscard]] const std::vector<KeyGroup>& groups() const { return groups_; }
  [[nodiscard]] const std::vector<WordsBeside>& words_beside() const { return words_beside_; }
  [[nodiscard]] const TableWords& words() const { return words_; }
  /// How many rows at the end are those of every place.
  [[nodiscard]] std::size_t shared_count() const { return shared_count_; }

 protected:
  KeyTable(TableWords words, std::vector<KeyGroup> groups, std::vector<WordsBeside> words_beside)
      : words_(words), groups_(std::move(groups)), words_beside_(std::move(words_beside)) {}
  ~KeyTable() = default;

  void add(KeyRow row);
  void add_shared(const KeyTable& shared);

 private:
  std::vector<KeyRow> rows_;
  std::vector<std::string_view> names_;
  TableWords words_;
  std::vector<KeyGroup> groups_;
  std::vector<WordsBeside> words_beside_;
  std::size_t shared_count_ = 0;
};

/// Which keys of a map were there and sound.
class SoundKeys {
 public:
  explicit SoundKeys(const KeyTable& table) : table_(table), is_sound_(table.rows().size()) {}

  void add(std::size_t row) { is_sound_[row] = true; }
  [[nodiscard]] bool has(std::string_view key) const;

 private:
  const KeyTable& table_;
  std::vector<bool> is_sound_;
};

/// A key and how it is read into a `Thing`.
template <class Thing>
struct Key {
  KeyRow row;
  std::function<bool(const KeyValue&, Thing&)> read;
};

/// One key of a `Thing`.
template <class Thing, class Read>
[[nodiscard]] Key<Thing> key(std::string_view name, Value<Read> value, KeyWords words) {
  return {KeyRow{name, std::move(value.kind), std::move(words)}, std::move(value.read)};
}

/// A key that is told here and read elsewhere, since its value needs what is read after it.
struct Described {
  Kind kind;
};
template <class Thing>
[[nodiscard]] Key<Thing> key(std::string_view name, Described described, KeyWords words) {
  return {KeyRow{name, std::move(described.kind), std::move(words)}, {}};
}

/// The keys of several lists, one after the other.
template <class Thing>
[[nodiscard]] std::vector<Key<Thing>> joined(std::vector<std::vector<Key<Thing>>> lists) {
  std::vector<Key<Thing>> all;
  for (std::vector<Key<Thing>>& list : lists) {
    std::move(list.begin(), list.end(), std::back_inserter(all));
  }
  return all;
}

/// How messages call a value: "float of trough 'north'", or at the top of the file "show".
enum class ValueNames { OfSubject, KeyAlone };

/// The keys of a `Thing`, which read it.
template <class Thing>
class Keys final : public KeyTable {
 public:
  /// `shared` are keys that follow its own and are read into something else (those of every place).
  Keys(TableWords words,
       std::vector<Key<Thing>> keys,
       std::vector<KeyGroup> groups = {},
       const KeyTable* shared = nullptr,
       std::vector<WordsBeside> words_beside = {})
      : KeyTable(words, std::move(groups), std::move(words_beside)) {
    for (Key<Thing>& one : keys) {
      add(std::move(one.row));
      readers_.push_back(std::move(one.read));
    }
    if (shared != nullptr) {
      add_shared(*shared);
    }
  }

  /// Reads every key that stands in the map, in the order of the rows; a required one that is
  /// missing is reported.
  SoundKeys read(const MapReader& map,
                 Thing& thing,
                 LoadContext& context,
                 ValueNames names = ValueNames::OfSubject) const {
    SoundKeys sound(*this);
    for (std::size_t i = 0; i < readers_.size(); ++i) {
      if (!readers_[i]) {
        continue;
      }
      const KeyRow& row = rows()[i];
      const YamlNode* const node = row.words.required.empty()
                                       ? map.find(row.name)
                                       : map.require(row.name, row.words.required);
      if (node == nullptr) {
        continue;
      }
      std::string what = names == ValueNames::KeyAlone ? std::string(row.name) : map.part(row.name);
      if (readers_[i](KeyValue{*node, std::move(what), map, context}, thing)) {
        sound.add(i);
      }
    }
    return sound;
  }

 private:
  std::vector<std::function<bool(const KeyValue&, Thing&)>> readers_;
};

}  // namespace leat::model
