#include "model/edit/size_splice.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "model/edit/pipe_text.h"
#include "model/edit/text_places.h"
#include "model/edit/yaml_scalar.h"
#include "model/text/text_marks.h"
#include "model/text/yaml_tree.h"

namespace leat::model {
namespace {

std::string_view without_end(std::string_view line) {
  while (!line.empty() && (line.back() == '\n' || line.back() == '\r')) {
    line.remove_suffix(1);
  }
  return line;
}

class Splicer {
 public:
  Splicer(std::string_view source, const Farm& farm, const Farm& laid)
      : source_(source), marks_(source), places_(source), farm_(farm), laid_(laid) {
    ProblemList unheard(farm.file);
    root_ = read_yaml(source, unheard);
    pipes_ = entry_of(root_, "pipes");
  }

  std::variant<std::string, Diagnostic> splice(const std::vector<SplicedRun>& runs) {
    for (const SplicedRun& run : runs) {
      const YamlEntry* const entry =
          pipes_ == nullptr ? nullptr : entry_of(pipes_->value, farm_.pipes[run.pipe].name);
      const bool done =
          entry != nullptr && (run.laid.size() == 1 ? put_size(*entry, laid_.pipes[run.laid[0]])
                                                    : put_parts(*entry, run));
      if (!done) {
        return problem_at(run.pipe);
      }
    }
    if (laid_.places.size() > farm_.places.size() && !put_tees()) {
      return problem_at(runs.front().pipe);
    }
    return with_replacements(source_, std::move(edits_));
  }

 private:
  [[nodiscard]] Diagnostic problem_at(std::size_t pipe) const {
    Diagnostic problem;
    problem.code = "cannot-splice";
    problem.file = farm_.file;
    problem.position = farm_.pipes[pipe].position;
    problem.text = fmt::format("the sizes of pipe '{}' cannot be put into the text of the file",
                               farm_.pipes[pipe].name);
    problem.hint = "give each pipe, and the sections tees and pipes, lines of their own";
    return problem;
  }

  bool add(std::optional<Replacement> edit) {
    if (edit) {
      edits_.push_back(*std::move(edit));
    }
    return edit.has_value();
  }

  bool put_size(const YamlEntry& entry, const Pipe& pipe) {
    const YamlEntry* const size = entry_of(entry.value, "size");
    if (size == nullptr) {
      return false;
    }
    return add(places_.value(size->value, yaml_scalar(pipe.size.text)));
  }

  /// The first line that is no longer the entry's.
  [[nodiscard]] int line_after(const YamlEntry& entry) const {
    int after = marks_.line_count() + 1;
    for (const std::vector<YamlEntry>* const map : {&pipes_->value.entries, &root_.entries}) {
      for (const YamlEntry& other : *map) {
        if (other.position.line > entry.position.line) {
          after = std::min(after, other.position.line);
        }
      }
    }
    while (after - 1 > entry.position.line) {
      const std::string_view line = without_end(marks_.line(after - 1));
      const std::size_t first = line.find_first_not_of(" \t");
      const bool stays_behind =
          first == std::string_view::npos ||
          (line[first] == '#' && static_cast<int>(first) < entry.position.column) ||
          line.starts_with("...");
      if (!stays_behind) {
        break;
      }
      --after;
    }
    return after;
  }

  [[nodiscard]] bool has_own_lines(const YamlEntry& entry) const {
    const std::string_view line = marks_.line(entry.position.line);
    const auto indent = static_cast<std::size_t>(entry.position.column - 1);
    if (line.find_first_not_of(' ') != indent) {
      return false;
    }
    return std::none_of(pipes_->value.entries.begin(),
                        pipes_->value.entries.end(),
                        [&](const YamlEntry& other) {
                          return &other != &entry && other.position.line == entry.position.line;
                        }) &&
           !places_.is_flow(pipes_->value);
  }

  bool put_parts(const YamlEntry& entry, const SplicedRun& run) {
    if (!has_own_lines(entry)) {
      return false;
    }
    const auto indent = static_cast<std::size_t>(entry.position.column - 1);
    const std::string blanks(indent, ' ');
    std::string put = fmt::format("{}# laid in {} sizes; was one run:\n", blanks, run.laid.size());
    const int after = line_after(entry);
    for (int line = entry.position.line; line < after; ++line) {
      std::string_view text = without_end(marks_.line(line));
      text.remove_prefix(std::min(indent, std::min(text.find_first_not_of(' '), text.size())));
      put += fmt::format("{}# {}\n", blanks, text);
    }
    std::vector<std::pair<std::string, std::string>> kept;
    for (const std::string_view key : {"surveyed with", "surveyed by"}) {
      if (const YamlEntry* const found = entry_of(entry.value, key)) {
        kept.emplace_back(found->key, found->value.text);
      }
    }
    for (const std::size_t part : run.laid) {
      put += pipe_text(laid_, laid_.pipes[part], indent, kept);
    }
    const std::size_t start = marks_.line_start(entry.position.line);
    edits_.push_back({start, marks_.line_start(after) - start, std::move(put)});
    return true;
  }

  bool put_tees() {
    const YamlEntry* const tees = entry_of(root_, "tees");
    if (tees == nullptr) {
      if (pipes_->position.column != 1) {
        return false;
      }
      edits_.push_back({marks_.line_start(pipes_->position.line),
                        0,
                        "tees:\n  " + tees_between("\n  ") + "\n\n"});
      return true;
    }
    if (tees->value.kind != YamlNode::Kind::Map || tees->value.entries.empty()) {
      return false;
    }
    const SourcePosition first = tees->value.entries.front().position;
    const std::string blanks(static_cast<std::size_t>(first.column - 1), ' ');
    return add(places_.first(tees->value,
                             tees_between(places_.is_flow(tees->value) ? ", " : '\n' + blanks)));
  }

  /// The tees laid anew, "name: level" each, and what parts them.
  [[nodiscard]] std::string tees_between(const std::string& parting) const {
    std::string tees;
    for (std::size_t i = farm_.places.size(); i < laid_.places.size(); ++i) {
      const Place& place = laid_.places[i];
      tees += fmt::format("{}{}: {}",
                          tees.empty() ? "" : parting,
                          yaml_scalar(place.name),
                          level_scalar(level_of(place, std::nullopt), laid_.show));
    }
    return tees;
  }

  std::string_view source_;
  TextMarks marks_;
  TextPlaces places_;
  const Farm& farm_;
  const Farm& laid_;
  YamlNode root_;
  const YamlEntry* pipes_ = nullptr;
  std::vector<Replacement> edits_;
};

constexpr double same_m = 0.011;

double summed_k(const Pipe& pipe) {
  double sum = 0.0;
  for (const Fitting& fitting : pipe.fittings) {
    sum += fitting.count * fitting.loss_coefficient;
  }
  return sum;
}

const Pipe* pipe_named(const Farm& farm, const std::string& name) {
  for (const Pipe& pipe : farm.pipes) {
    if (pipe.name == name) {
      return &pipe;
    }
  }
  return nullptr;
}

bool same_pipe(const Farm& farm, const Pipe& pipe, const Farm& other, const Pipe& beside) {
  return farm.places[pipe.from].name == other.places[beside.from].name &&
         farm.places[pipe.to].name == other.places[beside.to].name &&
         pipe.size.text == beside.size.text &&
         pipe.size.choose.has_value() == beside.size.choose.has_value() &&
         std::abs(in_metres(pipe.length - beside.length)) < same_m &&
         pipe.path.size() == beside.path.size() && pipe.vents.size() == beside.vents.size() &&
         pipe.fittings.size() == beside.fittings.size() &&
         std::abs(summed_k(pipe) - summed_k(beside)) < 1e-6 &&
         pipe.valve.has_value() == beside.valve.has_value() &&
         pipe.regulator.has_value() == beside.regulator.has_value() &&
         pipe.one_way == beside.one_way && pipe.ends.has_value() == beside.ends.has_value() &&
         pipe.enters == beside.enters && pipe.entrance_k == beside.entrance_k &&
         pipe.exit_k == beside.exit_k && pipe.lies == beside.lies;
}

}  // namespace

std::variant<std::string, Diagnostic> spliced_sizes(std::string_view source,
                                                    const Farm& farm,
                                                    const Farm& laid,
                                                    const std::vector<SplicedRun>& runs) {
  return Splicer(source, farm, laid).splice(runs);
}

std::optional<std::string> first_difference(const Farm& farm, const Farm& other) {
  if (farm.places.size() != other.places.size() || farm.pipes.size() != other.pipes.size()) {
    return "the number of places or pipes";
  }
  for (const Place& place : farm.places) {
    const std::optional<std::size_t> there = place_named(other, place.name);
    if (!there || !is_same_kind(place, other.places[*there])) {
      return fmt::format("place '{}'", place.name);
    }
    if (is_tee(place) &&
        std::abs(in_metres(level_of(place, std::nullopt) -
                           level_of(other.places[*there], std::nullopt))) > same_m) {
      return fmt::format("the level of '{}'", place.name);
    }
  }
  for (const Pipe& pipe : farm.pipes) {
    const Pipe* const beside = pipe_named(other, pipe.name);
    if (beside == nullptr || !same_pipe(farm, pipe, other, *beside)) {
      return fmt::format("pipe '{}'", pipe.name);
    }
  }
  return std::nullopt;
}

}  // namespace leat::model
