#include "model/edit/pipe_text.h"

#include <fmt/format.h>

#include "model/edit/yaml_scalar.h"

namespace leat::model {
namespace {

class PipeLines {
 public:
  PipeLines(const Farm& farm, const Pipe& pipe, std::size_t indent)
      : farm_(farm), pipe_(pipe), indent_(indent) {}

  std::string write() {
    text_ = fmt::format("{}{}:\n", std::string(indent_, ' '), yaml_scalar(pipe_.name));
    line("from", yaml_scalar(farm_.places[pipe_.from].name));
    line("to", yaml_scalar(farm_.places[pipe_.to].name));
    line("size", yaml_scalar(pipe_.size.text));
    line("length", length_scalar(pipe_.length, farm_.show));
    if (!pipe_.path.empty()) {
      line("path", path());
    }
    if (!pipe_.fittings.empty()) {
      line("fittings", fittings());
    }
    if (pipe_.valve) {
      line("valve", valve());
    }
    if (!pipe_.vents.empty()) {
      line("vents", vents());
    }
    if (pipe_.regulator) {
      line("regulator",
           fmt::format("{{at: {}, set: {} Pa}}",
                       place(pipe_.regulator->place),
                       in_pascals(pipe_.regulator->set)));
    }
    ends();
    return std::move(text_);
  }

  void line(std::string_view key, const std::string& value) {
    text_ += fmt::format("{}{}: {}\n", std::string(indent_ + 2, ' '), key, value);
  }

 private:
  [[nodiscard]] std::string place(const Placement& where) const {
    switch (where.where) {
      case Placement::Where::Spread:
      case Placement::Where::Start:
        return "start";
      case Placement::Where::End:
        return "end";
      case Placement::Where::AtDistance:
        break;
    }
    return length_scalar(where.distance, farm_.show);
  }

  [[nodiscard]] std::string path() const {
    std::string points;
    for (const PathPoint& point : pipe_.path) {
      points += fmt::format("{}[{}, {}]",
                            points.empty() ? "" : ", ",
                            length_scalar(point.distance, farm_.show),
                            level_scalar(point.elevation, farm_.show));
    }
    return '[' + points + ']';
  }

  [[nodiscard]] std::string fittings() const {
    std::string all;
    for (const Fitting& fitting : pipe_.fittings) {
      std::string name =
          fitting.name == "k" ? fmt::format("k {}", fitting.loss_coefficient) : fitting.name;
      if (fitting.count > 1) {
        name = fmt::format("{} {}", fitting.count, name);
      }
      all += all.empty() ? "" : ", ";
      all += fitting.place.where == Placement::Where::Spread
                 ? yaml_scalar(name)
                 : fmt::format("{{{}: {}}}", yaml_scalar(name), place(fitting.place));
    }
    return '[' + all + ']';
  }

  [[nodiscard]] std::string valve() const {
    const Valve& valve = *pipe_.valve;
    std::string text = valve.type == ValveType::Gate ? "{type: gate" : "{type: ball";
    text += valve.shut ? ", shut: yes" : fmt::format(", open: {}", valve.open);
    if (valve.place) {
      text += ", at: " + place(*valve.place);
    }
    return text + '}';
  }

  [[nodiscard]] std::string vents() const {
    std::string all;
    for (const Vent& vent : pipe_.vents) {
      const std::string at = length_scalar(vent.distance, farm_.show);
      all += all.empty() ? "" : ", ";
      all += vent.top ? fmt::format("{{at: {}, top: {}}}", at, level_scalar(*vent.top, farm_.show))
                      : at;
    }
    return '[' + all + ']';
  }

  void ends() {
    if (pipe_.one_way) {
      line("one-way", "yes");
    }
    if (pipe_.ends) {
      line("ends", level_scalar(*pipe_.ends, farm_.show));
    }
    if (pipe_.enters) {
      line("enters", *pipe_.enters == TankEntry::Rim ? "rim" : "bottom");
    }
    if (pipe_.entrance_k) {
      line("entrance", fmt::format("{}", *pipe_.entrance_k));
    }
    if (pipe_.exit_k) {
      line("exit", fmt::format("{}", *pipe_.exit_k));
    }
    if (pipe_.lies != Lies::Unsaid) {
      line("lies",
           pipe_.lies == Lies::Buried  ? "buried"
           : pipe_.lies == Lies::Grass ? "grass"
                                       : "sun");
    }
  }

  const Farm& farm_;
  const Pipe& pipe_;
  std::size_t indent_;
  std::string text_;
};

}  // namespace

std::string pipe_text(const Farm& farm,
                      const Pipe& pipe,
                      std::size_t indent,
                      const std::vector<std::pair<std::string, std::string>>& kept) {
  PipeLines lines(farm, pipe, indent);
  std::string text = lines.write();
  for (const auto& [key, value] : kept) {
    text += fmt::format("{}{}: {}\n", std::string(indent + 2, ' '), key, yaml_scalar(value));
  }
  return text;
}

}  // namespace leat::model
