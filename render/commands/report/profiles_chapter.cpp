#include <algorithm>
#include <limits>

#include <fmt/format.h>

#include "render/commands/profile/profile_report.h"
#include "render/commands/report/chapters.h"
#include "render/pictures/chart/profile_chart.h"
#include "render/words/profile_problems.h"
#include "render/words/profile_words.h"
#include "solver/profile/pipe_run.h"
#include "solver/profile/profile.h"

namespace leat::render::report {

namespace {

/// More profiles than these make a book of a report.
constexpr std::size_t most_profiles = 12;

/// Pipes with a summit, the one with least margin first; else the pipe most worth a look.
std::vector<std::size_t> pipes_shown(const Subject& subject) {
  std::vector<std::size_t> pipes;
  for (std::size_t i = 0; i < subject.farm.pipes.size(); ++i) {
    if (!subject.answer.pipes[i].summits.empty()) {
      pipes.push_back(i);
    }
  }
  if (pipes.empty() && !subject.farm.pipes.empty()) {
    pipes.push_back(solver::telling_pipe(subject.farm, subject.answer));
  }
  const auto margin = [&subject](std::size_t pipe) {
    const auto& summit = subject.answer.pipes[pipe].summit;
    return summit && summit->margin_m ? *summit->margin_m : std::numeric_limits<double>::max();
  };
  std::stable_sort(pipes.begin(), pipes.end(), [&margin](std::size_t a, std::size_t b) {
    return margin(a) < margin(b);
  });
  return pipes;
}

void add_profile(const Subject& subject,
                 const solver::Profile& profile,
                 const std::string& pipe,
                 std::size_t number,
                 Chapter& chapter) {
  const std::vector<std::string> sentences = profile_sentences(profile, subject.units);
  std::string words = fmt::format(
      "Profile of {}: distance against level, with the pipe and the "
      "running and static grade lines.",
      run_words(subject.farm, profile));
  for (const std::string& sentence : sentences) {
    words += fmt::format(" {}.", sentence);
  }
  const ChartResult drawn = draw_profile(subject.farm, profile, {ChartFormat::Svg, subject.units});
  chapter.blocks.emplace_back(Subheading{run_words(subject.farm, profile)});
  chapter.blocks.push_back(picture_or_reason(drawn.bytes,
                                             problem_and_hint(drawn.problem, drawn.hint),
                                             fmt::format("profile-{}-", number),
                                             fmt::format("Profile of {}", pipe),
                                             words));
  chapter.blocks.emplace_back(Listing{Listing::Kind::Unnumbered, sentences});
  TextTable points = profile_points(subject.farm, profile, subject.units);
  // The one pipe's name stands over the table; its column would be empty but for the first row.
  for (std::vector<std::string>& row : points.rows) {
    row.erase(row.begin());
  }
  points.columns.erase(points.columns.begin());
  const std::string distance = points.columns.front().heading;
  points.columns.front().heading = fmt::format("points of {}", pipe);
  points.columns.back().heading = "what is there";
  chapter.blocks.emplace_back(Figures{points, distance});
}

}  // namespace

Chapter profiles_chapter(const Subject& subject) {
  Chapter chapter{"profiles", "Lines from the side", {}};
  const std::vector<std::size_t> pipes = pipes_shown(subject);
  if (std::none_of(subject.answer.pipes.begin(), subject.answer.pipes.end(), [](const auto& pipe) {
        return !pipe.summits.empty();
      })) {
    chapter.blocks.emplace_back(
        Paragraph{"No line of this farm has a summit. The pipe most worth a look:"});
  }
  solver::SteadyOptions options;
  options.month = subject.answer.month;
  options.load_case = subject.answer.load_case;
  const std::size_t shown = std::min(pipes.size(), most_profiles);
  for (std::size_t i = 0; i < shown; ++i) {
    const std::string& name = subject.farm.pipes[pipes[i]].name;
    const solver::Profile profile = solver::profile_of(subject.farm, name, options);
    if (profile.is_made()) {
      add_profile(subject, profile, name, i + 1, chapter);
    } else {
      chapter.blocks.emplace_back(Paragraph{
          fmt::format("{}: {}.", name, profile_problems(subject.farm, profile).front().text)});
    }
  }
  if (shown < pipes.size()) {
    chapter.blocks.emplace_back(Paragraph{
        fmt::format("The {} with least margin are shown; {} more have summits: see leat profile.",
                    shown,
                    counted(pipes.size() - shown, "pipe"))});
  }
  return chapter;
}

}  // namespace leat::render::report
