#include "render/pictures/chart/profile_chart.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "render/document/text_table.h"
#include "render/io/gnuplot.h"
#include "render/pictures/chart/gnuplot_script.h"
#include "render/pictures/chart/label_rows.h"
#include "render/pictures/chart/profile_lines.h"
#include "render/pictures/schematic/plain_label.h"
#include "render/words/finding_sentence.h"
#include "render/words/number_text.h"
#include "render/words/profile_words.h"
#include "render/words/situation_text.h"

namespace leat::render {

namespace {

// The sheet, in points of a thousandth of its width: it is printed 10.4 in wide, on A4 or Letter
// lying down.
constexpr double sheet_width = 1000.0;
constexpr double sheet_height = 660.0;
constexpr double left_edge = 78.0;
constexpr double right_edge = 842.0;  // names of the lines stand right of it
constexpr double bottom_edge = 62.0;  // from below
constexpr double text_size = 13.0;
constexpr double title_size = 17.0;
constexpr double line_height = 19.0;
/// Width of a letter of the face, on the average of a text [share of its size]; measured 0.50.
constexpr double letter_width = 0.56;
constexpr double label_gap = 12.0;
/// Free height between the lines and the nearest row of texts.
constexpr double band_gap = 16.0;

constexpr std::string_view pipe_colour = "#1a1a1a";
constexpr std::string_view running_colour = "#1c5d99";
constexpr std::string_view standing_colour = "#7a4d0b";
constexpr std::string_view rating_colour = "#8c2f39";
constexpr std::string_view leader_colour = "#8a8a8a";
constexpr std::string_view level_colour = "#e3e3e3";

double text_width(std::string_view text) {
  return letter_width * text_size * display_width(text);
}

/// A text on the sheet that stands by a point of it.
struct Callout {
  ChartPoint at;
  std::string text;
};

struct Range {
  double low = 0.0;
  double high = 0.0;
};

class ProfileSheet {
 public:
  ProfileSheet(const model::Farm& farm, const solver::Profile& profile, const ChartOptions& options)
      : farm_(farm),
        profile_(profile),
        options_(options),
        lines_(profile_lines(farm, profile, options.units)) {}

  std::string script() {
    title_lines();
    collect_callouts();
    place_callouts();
    measure();
    annotate_title();
    annotate_band(above_, above_placed_, Band::Above);
    annotate_band(below_, below_placed_, Band::Below);
    annotate_line_names();
    annotate_axes();
    annotate_levels();
    return terminal_line(options_.format, sheet_width, sheet_height, text_size) + data() + words() +
           settings() + annotations_ + plot();
  }

 private:
  enum class Band { Above, Below };

  // What is written ----------------------------------------------------------------------------

  void title_lines() {
    constexpr int widest = 125;
    std::vector<std::string> said{
        fmt::format("Profile of {}", run_words(farm_, profile_)),
        "Drawn by leat; not a survey; " + situation_text(farm_, profile_.answer)};
    for (const solver::Finding& finding : findings_on_run(farm_, profile_)) {
      if (finding.severity == solver::Severity::Danger) {
        said.push_back("Danger: " + sentence_of(finding, options_.units));
      }
    }
    for (const std::string& text : said) {
      for (std::string& line : broken_into_lines(text, widest)) {
        titles_.push_back(std::move(line));
      }
    }
    // The table has the rest of a very long datum or of many dangers.
    constexpr std::size_t most_lines = 6;
    titles_.resize(std::min(titles_.size(), most_lines));
    top_edge_ = sheet_height - 36.0 - line_height * static_cast<double>(titles_.size()) - 8.0;
    if (!lines_.suction.empty()) {
      top_edge_ -= line_height;
    }
  }

  void collect_callouts() {
    for (const solver::ProfileSummit& summit : told_summits()) {
      above_.push_back(
          {shown(summit.distance_m, summit.summit.elevation_m),
           fmt::format(
               "{}: {}", summit_word(summit), summit_words(summit.summit, options_.units))});
    }
    std::vector<Callout> marks;
    for (const solver::ProfilePoint& point : profile_.points) {
      const bool said_elsewhere =
          point.mark == solver::ProfileMark::None || point.mark == solver::ProfileMark::Summit ||
          point.mark == solver::ProfileMark::Knee || point.mark == solver::ProfileMark::PartFull ||
          point.mark == solver::ProfileMark::FullAgain;
      if (said_elsewhere) {
        continue;
      }
      const ChartPoint at = shown(point.distance_m, point.elevation_m);
      const std::string text = mark_words(farm_, point);
      if (!marks.empty() && std::abs(marks.back().at.x - at.x) < 1e-6) {
        marks.back().text += ", " + text;  // several things in one place share a leader
        marks.back().at.y = std::min(marks.back().at.y, at.y);
      } else {
        marks.push_back({at, text});
      }
    }
    below_ = std::move(marks);
    for (const solver::PartFullReach& reach : profile_.reaches) {
      const double at_m = clearest_of(reach);
      below_.push_back({shown(at_m, level_at(at_m)), reach_words(reach, options_.units)});
    }
    constexpr int widest = 60;
    for (std::vector<Callout>* const band : {&above_, &below_}) {
      for (Callout& callout : *band) {
        callout.text = cut_to_width(printable(callout.text), widest);
      }
    }
  }

  /// Where a reach's text is joined to it: as far from every mark as may be.
  [[nodiscard]] double clearest_of(const solver::PartFullReach& reach) const {
    double best_m = reach.from_m;
    double best_clear_m = -1.0;
    for (const double share : {0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8}) {
      const double at_m = reach.from_m + share * (reach.to_m - reach.from_m);
      double clear_m = profile_.legs.back().to_m / 20.0;  // far enough
      for (const solver::ProfilePoint& point : profile_.points) {
        if (point.mark != solver::ProfileMark::None) {
          clear_m = std::min(clear_m, std::abs(point.distance_m - at_m));
        }
      }
      if (clear_m > best_clear_m) {
        best_clear_m = clear_m;
        best_m = at_m;
      }
    }
    return best_m;
  }

  /// The summits written out: all, or of very many those with the least margin.
  [[nodiscard]] std::vector<solver::ProfileSummit> told_summits() const {
    constexpr std::size_t most = 6;
    std::vector<solver::ProfileSummit> told = profile_.summits;
    if (told.size() > most) {
      std::stable_sort(told.begin(), told.end(), [](const auto& a, const auto& b) {
        constexpr double unknown = 1e9;
        return a.summit.margin_m.value_or(unknown) < b.summit.margin_m.value_or(unknown);
      });
      told.resize(most);
    }
    return told;
  }

  [[nodiscard]] double level_at(double distance_m) const {
    const std::vector<solver::ProfilePoint>& points = profile_.points;
    for (std::size_t i = 1; i < points.size(); ++i) {
      const double span = points[i].distance_m - points[i - 1].distance_m;
      if (distance_m <= points[i].distance_m && span > 0.0) {
        const double share = (distance_m - points[i - 1].distance_m) / span;
        return points[i - 1].elevation_m +
               share * (points[i].elevation_m - points[i - 1].elevation_m);
      }
    }
    return points.back().elevation_m;
  }

  // Where it goes ------------------------------------------------------------------------------

  [[nodiscard]] ChartPoint shown(double distance_m, double level_m) const {
    return {shown_length(distance_m, options_.units), shown_length(level_m, options_.units)};
  }

  [[nodiscard]] double run_length() const {
    return std::max(shown_length(profile_.legs.back().to_m, options_.units), 1e-3);
  }

  [[nodiscard]] double sheet_x(double x) const {
    return left_edge + (right_edge - left_edge) * x / run_length();
  }

  [[nodiscard]] double sheet_y(double y) const {
    return bottom_edge + (top_edge_ - bottom_edge) * (y - shown_.low) / (shown_.high - shown_.low);
  }

  void place_callouts() {
    const auto place = [this](const std::vector<Callout>& callouts) {
      std::vector<RowLabel> labels;
      for (const Callout& callout : callouts) {
        labels.push_back({sheet_x(callout.at.x), text_width(callout.text)});
      }
      return placed_in_rows(labels, left_edge + 6.0, sheet_width - 8.0, label_gap);
    };
    above_placed_ = place(above_);
    below_placed_ = place(below_);
  }

  [[nodiscard]] Range levels() const {
    Range range{lines_.pipe.front().front().y, lines_.pipe.front().front().y};
    for (const auto* const kind :
         {&lines_.pipe, &lines_.running, &lines_.standing, &lines_.rating}) {
      for (const Polyline& piece : *kind) {
        for (const ChartPoint& point : piece) {
          range.low = std::min(range.low, point.y);
          range.high = std::max(range.high, point.y);
        }
      }
    }
    const double least_span = shown_length(1.0, options_.units);
    if (range.high - range.low < least_span) {
      const double middle = (range.high + range.low) / 2.0;
      range = {middle - least_span / 2.0, middle + least_span / 2.0};
    }
    return range;
  }

  static double band_height(const std::vector<PlacedLabel>& placed) {
    return band_gap + line_height * static_cast<double>(row_count(placed)) +
           (placed.empty() ? 0.0 : 4.0);
  }

  /// The levels the axis spans: the lines', and above and below them room for the rows of texts.
  void measure() {
    const Range lines = levels();
    const double height = top_edge_ - bottom_edge;
    const double above = band_height(above_placed_);
    const double below = band_height(below_placed_);
    // A run with very many texts keeps a fifth of the height for the lines.
    const double for_lines = std::max(height - above - below, height / 5.0);
    const double level_per_point = (lines.high - lines.low) / for_lines;
    shown_ = {lines.low - below * level_per_point, lines.high + above * level_per_point};
    lines_low_ = lines.low;
    lines_high_ = lines.high;
  }

  // The annotations ----------------------------------------------------------------------------

  /// Keeps a text as data and gives the expression that stands for it.
  std::string word(std::string_view text) {
    words_.push_back(printable(text));
    return fmt::format("told({})", words_.size());
  }

  void write_text(double x, double y, std::string_view text, std::string_view side, double size) {
    annotations_ +=
        fmt::format("set label {} at screen {:.5f},{:.5f} {} noenhanced font \",{:.1f}\" front\n",
                    word(text),
                    x / sheet_width,
                    y / sheet_height,
                    side,
                    size);
  }

  /// Level lines and their figures, only as high as the farm's own lines: texts stand clear of
  /// them.
  void annotate_levels() {
    constexpr double about = 10.0;
    const double step = round_step((lines_high_ - lines_low_) / about);
    const int decimals = step < 1.0 ? static_cast<int>(std::ceil(-std::log10(step))) : 0;
    for (double n = std::ceil(lines_low_ / step); n * step <= lines_high_; n += 1.0) {
      const double y = sheet_y(n * step) / sheet_height;
      ticks_ += fmt::format("{}\"{}\" {:.6f}",
                            ticks_.empty() ? "" : ", ",
                            decimal_text(n * step, decimals),
                            n * step);
      annotations_ += fmt::format(
          "set arrow from screen {:.5f},{:.5f} to screen {:.5f},{:.5f} nohead lw 0.6 "
          "lc rgb \"{}\" back\n",
          left_edge / sheet_width,
          y,
          right_edge / sheet_width,
          y,
          level_colour);
    }
  }

  void write_text_held(const PlacedLabel& placed, double y, std::string_view text) {
    switch (placed.hold) {
      case TextHold::Left:
        write_text(placed.left, y, text, "left", text_size);
        break;
      case TextHold::Centre:
        write_text(placed.left + text_width(text) / 2.0, y, text, "center", text_size);
        break;
      case TextHold::Right:
        write_text(placed.left + text_width(text), y, text, "right", text_size);
        break;
    }
  }

  /// Written by hand: the terminals place an axis's own title each in its own way.
  void annotate_axes() {
    const std::string_view unit = length_unit(options_.units);
    write_text((left_edge + right_edge) / 2.0,
               16.0,
               fmt::format("distance along the run, {}", unit),
               "center",
               text_size);
    write_text(18.0,
               (bottom_edge + top_edge_) / 2.0,
               fmt::format("level, {}", unit),
               "center rotate by 90",
               text_size);
  }

  void draw_leader(double x1, double y1, double x2, double y2) {
    annotations_ += fmt::format(
        "set arrow from screen {:.5f},{:.5f} to screen {:.5f},{:.5f} nohead lw 0.8 lc rgb \"{}\" "
        "back\n",
        x1 / sheet_width,
        y1 / sheet_height,
        x2 / sheet_width,
        y2 / sheet_height,
        leader_colour);
  }

  void annotate_title() {
    double y = sheet_height - 22.0;
    constexpr int widest = 78;
    write_text(left_edge, y, cut_to_width(farm_.name, widest), "left", title_size);
    y -= 24.0;
    for (const std::string& line : titles_) {
      write_text(left_edge, y, line, "left", text_size);
      y -= line_height;
    }
    if (lines_.suction.empty()) {
      return;
    }
    annotations_ += fmt::format(
        "set object rectangle from screen {:.5f},{:.5f} to screen {:.5f},{:.5f} front fs pattern 4 "
        "border lc rgb \"{}\" lw 0.8 fc rgb \"{}\"\n",
        left_edge / sheet_width,
        (y - 6.0) / sheet_height,
        (left_edge + 34.0) / sheet_width,
        (y + 7.0) / sheet_height,
        leader_colour,
        pipe_colour);
    write_text(left_edge + 42.0,
               y,
               "suction: here the running grade line lies below the pipe",
               "left",
               text_size);
  }

  void annotate_band(const std::vector<Callout>& callouts,
                     const std::vector<PlacedLabel>& placed,
                     Band band) {
    const double direction = band == Band::Above ? 1.0 : -1.0;
    const double edge = sheet_y(band == Band::Above ? lines_high_ : lines_low_);
    for (std::size_t i = 0; i < callouts.size(); ++i) {
      const double row = static_cast<double>(placed[i].row);
      const double y = edge + direction * (band_gap + line_height * (row + 0.5));
      const double x = sheet_x(callouts[i].at.x);
      draw_leader(x, sheet_y(callouts[i].at.y), x, y - direction * line_height * 0.45);
      write_text_held(placed[i], y, callouts[i].text);
    }
  }

  void name_line(const std::vector<Polyline>& line, std::string_view name) {
    if (!line.empty() && !line.back().empty()) {
      ends_.push_back({line.back().back(), std::string(name)});
    }
  }

  /// Each line's name at its right end, outside the frame.
  void annotate_line_names() {
    name_line(lines_.pipe, "pipe");
    name_line(lines_.running, "running grade line");
    const bool is_static = profile_.answer.load_case == solver::LoadCase::Static;
    name_line(lines_.standing, is_static ? "standing water" : "static grade line");
    name_line(lines_.rating, "pipe's rating");
    std::vector<double> wanted;
    for (const Callout& end : ends_) {
      wanted.push_back(sheet_y(end.at.y));
    }
    const std::vector<double> heights =
        spread_apart(wanted, line_height, bottom_edge, sheet_y(lines_high_) + line_height / 2.0);
    for (std::size_t i = 0; i < ends_.size(); ++i) {
      draw_leader(sheet_x(ends_[i].at.x) + 2.0, wanted[i], right_edge + 14.0, heights[i]);
      write_text(right_edge + 18.0, heights[i], ends_[i].text, "left", text_size);
    }
  }

  // The script ---------------------------------------------------------------------------------

  [[nodiscard]] std::string data() const {
    return data_block("pipe", lines_.pipe) + data_block("running", lines_.running) +
           data_block("standing", lines_.standing) + data_block("rating", lines_.rating) +
           data_block("part_full", lines_.part_full) + data_block("suction", lines_.suction);
  }

  /// A bar before each line: no text can be taken for the end of the block.
  [[nodiscard]] std::string words() const {
    std::string text = "$words << END_OF_WORDS\n";
    for (const std::string& each : words_) {
      text += '|' + each + '\n';
    }
    return text + "END_OF_WORDS\nbehind_bar(s) = s[2:*]\ntold(i) = behind_bar($words[i])\n";
  }

  [[nodiscard]] std::string settings() const {
    std::string text = "set encoding utf8\nset decimalsign \".\"\nunset key\n";
    text += fmt::format(
        "set lmargin at screen {:.5f}\nset rmargin at screen {:.5f}\n"
        "set bmargin at screen {:.5f}\nset tmargin at screen {:.5f}\n",
        left_edge / sheet_width,
        right_edge / sheet_width,
        bottom_edge / sheet_height,
        top_edge_ / sheet_height);
    text += fmt::format("set xrange [0:{:.6f}]\nset yrange [{:.6f}:{:.6f}]\n",
                        run_length(),
                        shown_.low,
                        shown_.high);
    return text +
           "set border 3 lc rgb \"#444444\" lw 1\nset tics nomirror out\n"
           "set ytics (" +
           ticks_ + ")\n";
  }

  [[nodiscard]] std::string plot() const {
    std::vector<std::string> parts;
    const auto add = [&parts](const std::vector<Polyline>& pieces,
                              std::string_view name,
                              const std::string& style) {
      if (!pieces.empty()) {
        parts.push_back(fmt::format("${} using 1:2 with {}", name, style));
      }
    };
    add(lines_.suction,
        "suction",
        fmt::format("filledcurves closed fs pattern 4 noborder fc rgb \"{}\"", pipe_colour));
    add(lines_.rating,
        "rating",
        fmt::format("lines lw 1.6 dt \"_.\" lc rgb \"{}\"", rating_colour));
    add(lines_.standing,
        "standing",
        fmt::format("lines lw 1.8 dt (10,6) lc rgb \"{}\"", standing_colour));
    add(lines_.running, "running", fmt::format("lines lw 2.2 lc rgb \"{}\"", running_colour));
    add(lines_.pipe, "pipe", fmt::format("lines lw 4 lc rgb \"{}\"", pipe_colour));
    // A pipe that is not full is drawn hollow.
    add(lines_.part_full, "part_full", "lines lw 2 lc rgb \"white\"");
    return fmt::format("plot {}\n", fmt::join(parts, ", \\\n     "));
  }

  const model::Farm& farm_;
  const solver::Profile& profile_;
  ChartOptions options_;
  ProfileLines lines_;
  std::vector<std::string> titles_;
  double top_edge_ = 0.0;
  std::vector<Callout> above_;
  std::vector<Callout> below_;
  std::vector<Callout> ends_;
  std::vector<PlacedLabel> above_placed_;
  std::vector<PlacedLabel> below_placed_;
  Range shown_;
  double lines_low_ = 0.0;
  double lines_high_ = 0.0;
  std::vector<std::string> words_;
  std::string annotations_;
  std::string ticks_;  // of the level axis
};

}  // namespace

std::string profile_script(const model::Farm& farm,
                           const solver::Profile& profile,
                           const ChartOptions& options) {
  return ProfileSheet(farm, profile, options).script();
}

ChartResult draw_profile(const model::Farm& farm,
                         const solver::Profile& profile,
                         const ChartOptions& options) {
  GnuplotResult drawn = run_gnuplot(profile_script(farm, profile, options));
  return {std::move(drawn.bytes), std::move(drawn.problem), std::move(drawn.hint)};
}

}  // namespace leat::render
