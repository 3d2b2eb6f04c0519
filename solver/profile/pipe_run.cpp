#include "solver/profile/pipe_run.h"

#include <algorithm>
#include <limits>
#include <optional>
#include <queue>
#include <utility>

#include "model/text/nearest_word.h"

namespace leat::solver {

namespace {

using Route = std::vector<RunLeg>;

/// Equal routes are listed up to this many.
constexpr std::size_t routes_listed = 6;

std::string without_outer_blanks(const std::string& text) {
  const std::size_t first = text.find_first_not_of(' ');
  return first == std::string::npos ? ""
                                    : text.substr(first, text.find_last_not_of(' ') - first + 1);
}

template <class Thing>
std::vector<std::string> names_of(const std::vector<Thing>& things) {
  std::vector<std::string> names;
  for (const Thing& thing : things) {
    names.push_back(thing.name);
  }
  return names;
}

std::optional<std::size_t> index_of(const std::vector<std::string>& names,
                                    const std::string& name) {
  const auto found = std::find(names.begin(), names.end(), name);
  return found == names.end()
             ? std::nullopt
             : std::optional<std::size_t>(static_cast<std::size_t>(found - names.begin()));
}

/// The legs that leave each place, both ways along every pipe, in the file's order.
std::vector<Route> legs_by_place(const model::Farm& farm) {
  std::vector<Route> legs(farm.places.size());
  for (std::size_t i = 0; i < farm.pipes.size(); ++i) {
    legs[farm.pipes[i].from].push_back({i, false});
    legs[farm.pipes[i].to].push_back({i, true});
  }
  return legs;
}

/// Routes of fewest pipes between two places, at most `most` of them.
class ShortestRoutes {
 public:
  ShortestRoutes(const model::Farm& farm, std::size_t from, std::size_t to, std::size_t most)
      : farm_(farm), legs_(legs_by_place(farm)), most_(most) {
    measure_from(to);
    if (pipes_left_[from] != far_) {
      walk(from);
    }
  }

  [[nodiscard]] const std::vector<Route>& routes() const { return routes_; }

 private:
  static constexpr std::size_t far_ = std::numeric_limits<std::size_t>::max();

  void measure_from(std::size_t goal) {
    pipes_left_.assign(farm_.places.size(), far_);
    pipes_left_[goal] = 0;
    std::queue<std::size_t> open;
    open.push(goal);
    while (!open.empty()) {
      const std::size_t place = open.front();
      open.pop();
      for (const RunLeg& leg : legs_[place]) {
        const std::size_t next = leg.end_place(farm_);
        if (pipes_left_[next] == far_) {
          pipes_left_[next] = pipes_left_[place] + 1;
          open.push(next);
        }
      }
    }
  }

  /// One pipe nearer at every step, so that no way tried is in vain. Not recursive: a line may have
  /// as many pipes as the file is long.
  void walk(std::size_t from) {
    std::vector<std::pair<std::size_t, std::size_t>> trail{{from, 0}};  // place, next leg to try
    Route way;
    while (!trail.empty() && routes_.size() < most_) {
      auto& [place, next] = trail.back();
      if (pipes_left_[place] == 0) {
        routes_.push_back(way);
      }
      while (next < legs_[place].size() &&
             pipes_left_[legs_[place][next].end_place(farm_)] + 1 != pipes_left_[place]) {
        ++next;
      }
      if (next == legs_[place].size()) {
        trail.pop_back();
        if (!way.empty()) {
          way.pop_back();
        }
        continue;
      }
      const RunLeg leg = legs_[place][next++];
      way.push_back(leg);
      trail.emplace_back(leg.end_place(farm_), 0);
    }
  }

  const model::Farm& farm_;
  std::vector<Route> legs_;
  std::size_t most_;
  std::vector<std::size_t> pipes_left_;  // by place: pipes on the way to the goal
  std::vector<Route> routes_;
};

SeveralRoutes several_routes(const model::Farm& farm,
                             const std::string& words,
                             const std::vector<Route>& routes) {
  SeveralRoutes several;
  several.words = words;
  several.has_more = routes.size() > routes_listed;
  for (std::size_t i = 0; i < std::min(routes.size(), routes_listed); ++i) {
    std::vector<std::string>& pipes = several.routes.emplace_back();
    for (const RunLeg& leg : routes[i]) {
      pipes.push_back(farm.pipes[leg.pipe].name);
    }
  }
  return several;
}

RunChoice route_named(const model::Farm& farm, const std::string& words, std::size_t dots) {
  const std::vector<std::string> places = names_of(farm.places);
  const std::string from_name = without_outer_blanks(words.substr(0, dots));
  const std::string to_name = without_outer_blanks(words.substr(dots + 2));
  const std::optional<std::size_t> from = index_of(places, from_name);
  const std::optional<std::size_t> to = index_of(places, to_name);
  if (!from || !to) {
    const std::string& name = from ? to_name : from_name;
    return {{}, UnknownPlace{name, model::nearest_word(name, places)}};
  }
  if (*from == *to) {
    return {{}, RunToItself{words}};
  }
  const std::vector<Route> routes = ShortestRoutes(farm, *from, *to, routes_listed + 1).routes();
  if (routes.empty()) {
    return {{}, NotJoined{from_name, to_name}};
  }
  if (routes.size() > 1) {
    return {{}, several_routes(farm, words, routes)};
  }
  return {routes.front(), {}};
}

}  // namespace

std::size_t RunLeg::start_place(const model::Farm& farm) const {
  return against ? farm.pipes[pipe].to : farm.pipes[pipe].from;
}

std::size_t RunLeg::end_place(const model::Farm& farm) const {
  return against ? farm.pipes[pipe].from : farm.pipes[pipe].to;
}

RunChoice run_named(const model::Farm& farm, const std::string& words) {
  // No name holds two dots (FORMAT.md).
  const std::size_t dots = words.find("..");
  if (dots != std::string::npos) {
    return route_named(farm, words, dots);
  }
  const std::vector<std::string> pipes = names_of(farm.pipes);
  const std::optional<std::size_t> pipe = index_of(pipes, words);
  if (pipe) {
    return {{{*pipe, false}}, {}};
  }
  const bool is_place = index_of(names_of(farm.places), words).has_value();
  return {{}, UnknownPipe{words, model::nearest_word(words, pipes), is_place}};
}

std::size_t telling_pipe(const model::Farm& farm, const SteadyAnswer& answer) {
  std::optional<std::size_t> worst;
  std::size_t longest = 0;
  const auto margin_m = [&answer](std::size_t pipe) { return answer.pipes[pipe].summit->margin_m; };
  for (std::size_t i = 0; i < farm.pipes.size(); ++i) {
    const std::optional<SummitAnswer>& summit = answer.pipes[i].summit;
    if (summit && summit->margin_m && (!worst || *summit->margin_m < *margin_m(*worst))) {
      worst = i;
    }
    if (farm.pipes[longest].length < farm.pipes[i].length) {
      longest = i;
    }
  }
  return worst.value_or(longest);
}

}  // namespace leat::solver
