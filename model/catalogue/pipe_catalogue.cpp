#include "model/catalogue/pipe_catalogue.h"

#include <algorithm>
#include <cstddef>
#include <utility>
#include <variant>

#include "model/catalogue/catalogue_name.h"
#include "model/catalogue/pipe_rows.h"
#include "model/quantity/quantity_text.h"
#include "model/quantity/written_quantity.h"
#include "model/text/nearest_word.h"

namespace leat::model {
namespace {

/// A name this long is like no size, and comparing it would take the product of the lengths.
constexpr std::size_t longest_compared = 60;
constexpr std::size_t names_offered = 3;
/// What another size or another unit weighs against one wrong letter elsewhere: someone who writes
/// "32 mm SDR 11" is sure of the 32 mm.
constexpr std::size_t other_size_weight = 6;
constexpr std::size_t other_unit_weight = 3;

/// The text in front of the first comma, and what stands behind it.
std::pair<std::string_view, std::string_view> split_at_comma(std::string_view text) {
  const std::size_t comma = text.find(',');
  if (comma == std::string_view::npos) {
    return {text, {}};
  }
  return {text.substr(0, comma), text.substr(comma + 1)};
}

std::vector<std::string> words_of(const std::string& plain) {
  std::vector<std::string> words;
  std::size_t start = 0;
  while (start < plain.size()) {
    const std::size_t end = std::min(plain.find(' ', start), plain.size());
    words.push_back(plain.substr(start, end - start));
    start = end + 1;
  }
  return words;
}

/// How far a catalogue name is from what was written; both in plain form.
std::size_t unlikeness(const std::string& written, const std::string& name) {
  const std::vector<std::string> written_words = words_of(written);
  const std::vector<std::string> name_words = words_of(name);
  std::size_t sum = edit_distance(written, name);
  if (!written_words.empty() && written_words[0] != name_words[0]) {
    sum += other_size_weight;
  }
  if (written_words.size() > 1 && written_words[1] != name_words[1]) {
    sum += other_unit_weight;
  }
  return sum;
}

}  // namespace

const std::vector<CataloguePipe>& pipe_catalogue() {
  static const std::vector<CataloguePipe> pipes = make_pipe_rows();
  return pipes;
}

std::optional<PipeSize> find_pipe_size(std::string_view text) {
  const auto [name, rating_text] = split_at_comma(text);
  if (name.size() > longest_compared) {
    return std::nullopt;
  }
  const std::string wanted = plain_name(name);
  const std::vector<CataloguePipe>& pipes = pipe_catalogue();
  const auto found = std::find_if(pipes.begin(), pipes.end(), [&](const CataloguePipe& pipe) {
    return plain_name(pipe.size.text) == wanted;
  });
  if (found == pipes.end()) {
    return std::nullopt;
  }
  PipeSize size = found->size;
  if (name.size() == text.size()) {
    return size;
  }
  const Parsed<Pressure> rating = parse_pressure(rating_text);
  const Pressure* pressure = std::get_if<Pressure>(&rating);
  if (pressure == nullptr || *pressure <= Pressure()) {
    return std::nullopt;
  }
  size.rating = *pressure;
  size.rating_assumed = false;
  size.text += ", " + std::string(without_outer_blanks(rating_text));
  return size;
}

std::string_view usual_kind_of_pipe(UnitSystem shown) {
  return shown == UnitSystem::Us ? "in SIDR 15" : "mm PE100 SDR 11";
}

std::vector<std::string> nearest_pipe_sizes(std::string_view text) {
  const std::string written = plain_name(split_at_comma(text).first.substr(0, longest_compared));
  std::vector<std::pair<std::size_t, std::string>> ranked;
  for (const CataloguePipe& pipe : pipe_catalogue()) {
    ranked.emplace_back(unlikeness(written, plain_name(pipe.size.text)), pipe.size.text);
  }
  // Stable, so that equally near names keep the order of the catalogue.
  std::stable_sort(
      ranked.begin(), ranked.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<std::string> names;
  for (std::size_t i = 0; i < names_offered; ++i) {
    names.push_back(ranked[i].second);
  }
  return names;
}

}  // namespace leat::model
