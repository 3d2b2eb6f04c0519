#include "model/edit/put_cause.h"

#include <algorithm>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "model/edit/text_places.h"
#include "model/quantity/quantity_text.h"
#include "model/text/problem_list.h"
#include "model/text/yaml_tree.h"

namespace leat::model {

namespace {

const YamlNode* find(const YamlNode& map, std::string_view key) {
  const YamlEntry* const entry = entry_of(map, key);
  return entry == nullptr ? nullptr : &entry->value;
}

/// What is put into a text, value by value.
class Splices {
 public:
  explicit Splices(std::string_view text) : text_(text), places_(text) {}

  /// Puts words in place of a value that is one text; false where it does not stand as it reads.
  bool replace(const YamlNode& node, const std::string& words) {
    return node.kind == YamlNode::Kind::Text && add(places_.value(node, words));
  }

  /// Puts a key or an item before the first of a map or list, in its own style.
  bool put_first(const YamlNode& node, const std::string& words) {
    return add(places_.first(node, words));
  }

  [[nodiscard]] bool empty() const { return splices_.empty(); }
  [[nodiscard]] std::string made() { return with_replacements(text_, std::move(splices_)); }

 private:
  bool add(std::optional<Replacement> splice) {
    if (splice) {
      splices_.push_back(*std::move(splice));
    }
    return splice.has_value();
  }

  std::string_view text_;
  TextPlaces places_;
  std::vector<Replacement> splices_;
};

std::string level_text(Elevation level) {
  return fmt::format("{:.4f} m", in_metres(level));
}

/// Writes one cause into the text.
class CauseWriter {
 public:
  CauseWriter(const Farm& farm, const YamlNode& root, Splices& splices)
      : farm_(farm), root_(root), splices_(splices) {}

  // Each is false where the file has no place for it.
  bool operator()(const ExtraLoss& loss) {
    const bool at_start = loss.where == Placement::Where::Start;
    return add_k(
        loss.pipe,
        at_start ? fmt::format("{{k {:.3f}: start}}", loss.k) : fmt::format("k {:.3f}", loss.k));
  }
  bool operator()(const ValveStands& valve) { return set_valve(valve.pipe, valve.open); }
  bool operator()(const PlaceRaised& place) { return set_level(place.place, place.by); }
  bool operator()(const PipeEndRaised& end) { return set_end(end.pipe, end.by); }
  bool operator()(const WaterCooled& water) { return set_water(water.by_C); }
  bool operator()(const YieldLessened& spring) { return set_yield(spring.place, spring.missing); }

 private:
  const YamlNode* pipe_node(std::size_t pipe) const {
    const YamlNode* const pipes = find(root_, "pipes");
    return pipes == nullptr ? nullptr : find(*pipes, farm_.pipes[pipe].name);
  }

  const YamlNode* place_node(std::size_t place) const {
    const std::string section = std::string(kind_word(farm_.places[place])) + "s";
    const YamlNode* const places = find(root_, section);
    return places == nullptr ? nullptr : find(*places, farm_.places[place].name);
  }

  bool add_k(std::size_t pipe, const std::string& words) {
    const YamlNode* const node = pipe_node(pipe);
    if (node == nullptr || node->entries.empty()) {
      return false;
    }
    if (const YamlNode* const fittings = find(*node, "fittings")) {
      return fittings->kind == YamlNode::Kind::List && splices_.put_first(*fittings, words);
    }
    return splices_.put_first(*node, fmt::format("fittings: [{}]", words));
  }

  bool set_valve(std::size_t pipe, double open) {
    const YamlNode* const node = pipe_node(pipe);
    const YamlNode* const valve = node == nullptr ? nullptr : find(*node, "valve");
    if (valve == nullptr || valve->entries.empty()) {
      return false;
    }
    const std::string share = fmt::format("{:.4f}", open);
    if (const YamlNode* const value = find(*valve, "open")) {
      return splices_.replace(*value, share);
    }
    return splices_.put_first(*valve, "open: " + share);
  }

  bool raise(const YamlNode* value, Length rise) {
    if (value == nullptr || value->kind != YamlNode::Kind::Text) {
      return false;
    }
    const auto level = parse_elevation(value->text);
    return std::holds_alternative<Elevation>(level) &&
           splices_.replace(*value, level_text(std::get<Elevation>(level) + rise));
  }

  bool set_level(std::size_t place, Length rise) {
    const YamlNode* const node = place_node(place);
    if (node == nullptr) {
      return false;
    }
    if (node->kind == YamlNode::Kind::Text) {
      return raise(node, rise);
    }
    if (find(*node, "intake") != nullptr && !raise(find(*node, "intake"), rise)) {
      return false;
    }
    for (const std::string_view key :
         {"overflow", "surface", "floor", "float", "level", "elevation"}) {
      if (const YamlNode* const value = find(*node, key)) {
        return raise(value, rise);
      }
    }
    return false;
  }

  bool set_end(std::size_t pipe, Length rise) {
    const YamlNode* const node = pipe_node(pipe);
    return node != nullptr && raise(find(*node, "ends"), rise);
  }

  bool set_water(double colder) {
    const YamlNode* const site = find(root_, "site");
    const YamlNode* const water = site == nullptr ? nullptr : find(*site, "water");
    const double now = in_celsius(farm_.site.water.by_month.front());
    return water != nullptr && splices_.replace(*water, fmt::format("{:.3f} C", now - colder));
  }

  bool lessen(const YamlNode& value, double missing) {
    const auto flow = parse_flow(value.text);
    return value.kind == YamlNode::Kind::Text && std::holds_alternative<Flow>(flow) &&
           splices_.replace(
               value,
               fmt::format("{:.5f} L/min",
                           in_litres_per_second(std::get<Flow>(flow)) * 60.0 * (1.0 - missing)));
  }

  bool set_yield(std::size_t place, double missing) {
    const YamlNode* const node = place_node(place);
    const YamlNode* const yield = node == nullptr ? nullptr : find(*node, "yield");
    if (yield == nullptr || yield->kind != YamlNode::Kind::Map) {
      return yield != nullptr && lessen(*yield, missing);
    }
    return std::all_of(yield->entries.begin(), yield->entries.end(), [&](const YamlEntry& month) {
      return lessen(month.value, missing);
    });
  }

  const Farm& farm_;
  const YamlNode& root_;
  Splices& splices_;
};

}  // namespace

std::optional<std::string> text_with_cause(const LoadedFarm& loaded, const CauseInFile& cause) {
  ProblemList problems(loaded.farm->file);
  const YamlNode root = read_yaml(loaded.source, problems);
  Splices splices(loaded.source);
  if (!std::visit(CauseWriter(*loaded.farm, root, splices), cause) || splices.empty()) {
    return std::nullopt;
  }
  return splices.made();
}

}  // namespace leat::model
