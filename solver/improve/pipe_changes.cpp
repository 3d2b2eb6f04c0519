#include <algorithm>
#include <set>
#include <utility>

#include "model/catalogue/fitting_catalogue.h"
#include "model/catalogue/pipe_catalogue.h"
#include "solver/improve/possible_changes.h"

namespace leat::solver {

namespace {

/// A bore is wider when it is by more than the makers' tolerance.
constexpr double clearly_wider = 1.03;
/// From the tee where two lines come together to a float: common practice, no source.
constexpr double last_piece_m = 1.0;

/// Everything of a size's name but its own figure: "in SIDR 15" of "1 in SIDR 15, 100 psi".
std::string kind_of(const std::string& name) {
  const std::string plain = name.substr(0, name.find(','));
  const std::size_t blank = plain.find(' ');
  return blank == std::string::npos ? std::string() : plain.substr(blank + 1);
}

std::string rating_of(const std::string& name) {
  const std::size_t comma = name.find(',');
  return comma == std::string::npos ? std::string() : name.substr(comma);
}

/// Fittings cost by their bore; what was written as a plain K keeps it.
void fit_to_bore(model::Pipe& pipe) {
  for (model::Fitting& fitting : pipe.fittings) {
    const model::CatalogueFitting* const row = model::find_fitting(fitting.name);
    if (row != nullptr) {
      fitting.loss_coefficient = model::loss_coefficient(*row, pipe.size.bore);
      fitting.lifting_velocity = model::lifting_velocity(*row, pipe.size.bore);
    }
  }
}

/// Pipes a pump or ram is tied to, whose sizes and number are not free.
std::set<std::size_t> tied_pipes(const model::Farm& farm) {
  std::set<std::size_t> tied;
  for (const model::Ram& ram : farm.rams) {
    tied.insert(ram.drive);
    tied.insert(ram.delivery);
  }
  return tied;
}

std::string free_name(const model::Farm& farm, std::string name) {
  const auto is_taken = [&farm](const std::string& wanted) {
    const auto has = [&wanted](const auto& thing) { return thing.name == wanted; };
    return std::any_of(farm.places.begin(), farm.places.end(), has) ||
           std::any_of(farm.pipes.begin(), farm.pipes.end(), has);
  };
  while (is_taken(name)) {
    name += " too";
  }
  return name;
}

/// A pipe to a float or an outlet must end in a tee before another can join it there.
void end_in_tee(model::Farm& farm, std::size_t index) {
  const std::size_t end = farm.pipes[index].to;
  model::Place tee;
  tee.name = free_name(farm, farm.places[end].name + " tee");
  tee.data = model::Tee{model::level_of(farm.places[end], std::nullopt), false};
  farm.places.push_back(std::move(tee));
  model::Pipe last;
  last.name = free_name(farm, farm.places[end].name + " end");
  last.from = farm.places.size() - 1;
  last.to = end;
  last.size = farm.pipes[index].size;
  last.length = metres(last_piece_m);
  last.lies = farm.pipes[index].lies;
  last.exit_k = farm.pipes[index].exit_k;
  farm.pipes[index].exit_k.reset();
  farm.pipes[index].to = farm.places.size() - 1;
  farm.pipes.push_back(std::move(last));
}

void lay_beside(model::Farm& farm, std::size_t index) {
  if (model::takes_from_pipes(farm.places[farm.pipes[index].to])) {
    end_in_tee(farm, index);
  }
  model::Pipe beside = farm.pipes[index];
  beside.name = free_name(farm, beside.name + " beside");
  farm.pipes.push_back(std::move(beside));
}

void add_wider(const ChangeAim& aim, std::size_t index, std::vector<Change>& changes) {
  const model::Pipe& pipe = aim.farm->pipes[index];
  const std::optional<model::PipeSize> next = next_size(*aim.farm, pipe.size);
  if (!next) {
    return;
  }
  Change change;
  change.kind = ChangeKind::WiderPipe;
  change.where = pipe.name;
  change.pipe = index;
  change.settings.push_back(setting_of(LayWider{pipe.name, next->text},
                                       pipe_cost(*aim.farm, *next, pipe.length),
                                       [index, size = *next](model::Farm& farm) {
                                         farm.pipes[index].size = size;
                                         fit_to_bore(farm.pipes[index]);
                                       }));
  changes.push_back(std::move(change));
}

void add_second(const ChangeAim& aim, std::size_t index, std::vector<Change>& changes) {
  const model::Pipe& pipe = aim.farm->pipes[index];
  Change change;
  change.kind = ChangeKind::SecondLine;
  change.where = pipe.name;
  change.pipe = index;
  change.settings.push_back(setting_of(LayBeside{pipe.name},
                                       pipe_cost(*aim.farm, pipe.size, pipe.length),
                                       [index](model::Farm& farm) { lay_beside(farm, index); }));
  changes.push_back(std::move(change));
}

}  // namespace

std::optional<model::PipeSize> next_size(const model::Farm& farm, const model::PipeSize& size) {
  std::string kind = kind_of(size.text);
  if (size.choose || !model::find_pipe_size(size.text)) {
    kind = model::usual_kind_of_pipe(farm.show);
  }
  const model::PipeSize* best = nullptr;
  for (const model::CataloguePipe& row : model::pipe_catalogue()) {
    if (kind_of(row.size.text) == kind && row.size.bore > size.bore * clearly_wider &&
        (best == nullptr || row.size.bore < best->bore)) {
      best = &row.size;
    }
  }
  if (best == nullptr) {
    return std::nullopt;
  }
  const auto rated = model::find_pipe_size(best->text + rating_of(size.text));
  return rated ? rated : std::optional(*best);
}

void add_pipe_changes(const ChangeAim& aim, std::vector<Change>& changes) {
  const std::set<std::size_t> tied = tied_pipes(*aim.farm);
  for (std::size_t i = 0; i < aim.farm->pipes.size(); ++i) {
    if (!tied.contains(i)) {
      add_wider(aim, i, changes);
      add_second(aim, i, changes);
    }
  }
}

}  // namespace leat::solver
