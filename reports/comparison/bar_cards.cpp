#include "reports/comparison/bar_cards.hpp"

#include "reports/html/line_map.hpp"
#include "reports/html/map_data.hpp"
#include "reports/html/map_layout.hpp"
#include "reports/text/display_width.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace insideline::reports {
namespace {

constexpr double card_width = 320.0;
constexpr double card_left = 14.0;  // the first mark and its frame
constexpr double card_right = 6.0;
constexpr double card_semitone = 4.4;
constexpr double room_for_chords = 20.0;
constexpr double room_for_degrees = 24.0;  // above the highest and below the lowest mark
constexpr int least_range = 9;             // semitones, so that bars of one note are not flat

/// What the two lines of a card share.
struct CardAxes {
  double quarters = 4.0;
  int lowest = 127;
  int highest = 0;
};

struct CardLine {
  const Report& report;
  const std::string& name;
  std::size_t solo = 0;  ///< index into ComparisonReport::solos
  std::size_t bar = 0;
  const std::vector<NoteBeside>& notes;
};

void widen(CardAxes& axes, const CardLine& line) {
  axes.quarters = std::max(axes.quarters, to_double(line.report.solo.bars[line.bar].length));
  for (const NoteBeside& note : line.notes) {
    const int midi = midi_number(line.report.solo.notes[note.note].pitch);
    axes.lowest = std::min(axes.lowest, midi);
    axes.highest = std::max(axes.highest, midi);
  }
}

CardAxes card_axes(const CardLine& first, const CardLine& other) {
  CardAxes axes{.quarters = 0.0};
  widen(axes, first);
  widen(axes, other);
  if (axes.lowest > axes.highest) axes.lowest = axes.highest = 60;
  const int missing = std::max(0, least_range - (axes.highest - axes.lowest));
  axes.lowest -= missing / 2;
  axes.highest += missing - missing / 2;
  return axes;
}

double card_x(const CardAxes& axes, const Beats& moment) {
  return card_left + to_double(moment) / axes.quarters * (card_width - card_left - card_right);
}

double card_y(const CardAxes& axes, int midi) {
  return room_for_chords + room_for_degrees + card_semitone * (axes.highest - midi);
}

double card_height(const CardAxes& axes) {
  return room_for_chords + 2 * room_for_degrees + card_semitone * (axes.highest - axes.lowest);
}

std::string said_difference(NoteDifference difference) {
  switch (difference) {
    case NoteDifference::none: return "the same";
    case NoteDifference::pitch: return "another pitch";
    case NoteDifference::role: return "another role";
    case NoteDifference::pitch_and_role: return "another pitch and role";
    case NoteDifference::alone: return "only here";
  }
  return {};
}

/// A solid frame is another pitch, a line below another role, a dashed frame a note that the other line has not.
Markup frame_of(NoteDifference difference) {
  const auto box = [](std::string_view style) {
    return shape(
        "rect",
        {{"class", std::string(style)}, {"x", "-9"}, {"y", "-9"}, {"width", "18"}, {"height", "18"}, {"rx", "2"}});
  };
  const Markup line = shape("path", {{"class", "other-role"}, {"d", "M-9 12.5h18"}});
  switch (difference) {
    case NoteDifference::none: return {};
    case NoteDifference::pitch: return box("other-pitch");
    case NoteDifference::role: return line;
    case NoteDifference::pitch_and_role: return box("other-pitch") + line;
    case NoteDifference::alone: return box("alone");
  }
  return {};
}

/// A degree stands above its mark; in quick figures every second one below, so that none lies on another.
bool stands_below(const CardAxes& axes, const CardLine& line, std::size_t index) {
  constexpr double lettering = 27.0;
  if (index % 2 == 0) return false;
  const auto onset = [&](std::size_t i) { return line.report.solo.notes[line.notes[i].note].onset; };
  const auto near = [&](std::size_t a, std::size_t b) {
    return to_double(onset(b) - onset(a)) / axes.quarters * (card_width - card_left - card_right) < lettering;
  };
  return near(index - 1, index) || (index + 1 < line.notes.size() && near(index, index + 1));
}

Markup card_note(const CardAxes& axes, const CardLine& line, std::size_t index) {
  const NoteBeside& beside = line.notes[index];
  const Note& note = line.report.solo.notes[beside.note];
  const NoteLabel& label = line.report.analysis.labels[beside.note];
  const Bar& bar = line.report.solo.bars[line.bar];
  const double x = card_x(axes, note.onset - bar.onset);
  const bool same = beside.difference == NoteDifference::none;
  const std::string role(role_class(label.role));
  Markup content;
  content += frame_of(beside.difference);
  content += shape("use", {{"href", (same ? "#small-" : "#mark-") + role}});
  content += element("text", {{"x", "0"}, {"y", stands_below(axes, line, index) ? "23" : "-12"}}, shown_degree(label));
  return element(
      "g",
      {{"class", (same ? "note same " : "note ") + role},
       {"data-note", std::to_string(beside.note)},
       {"transform", fmt::format("translate({} {})", drawn(x), drawn(card_y(axes, midi_number(note.pitch))))}},
      content);
}

/// How long each note sounds; drawn first, so that no lettering lies under it.
Markup card_tails(const CardAxes& axes, const CardLine& line) {
  const Bar& bar = line.report.solo.bars[line.bar];
  Markup tails;
  for (const NoteBeside& beside : line.notes) {
    const Note& note = line.report.solo.notes[beside.note];
    const bool same = beside.difference == NoteDifference::none;
    const std::string role(role_class(line.report.analysis.labels[beside.note].role));
    const double end = std::min(card_x(axes, end_of(note) - bar.onset) - 2.0, card_width - 2.0);
    tails += element("g", {{"class", (same ? "note same " : "note ") + role}},
                     shape("path", {{"d", fmt::format("M{} {}H{}", drawn(card_x(axes, note.onset - bar.onset)),
                                                      drawn(card_y(axes, midi_number(note.pitch))), drawn(end))}}));
  }
  return tails;
}

Markup card_grid(const CardAxes& axes, const CardLine& line) {
  const Bar& bar = line.report.solo.bars[line.bar];
  const double bottom = card_height(axes);
  std::string beats;
  for (Beats beat; beat < bar.length; beat += beat_length(bar.meter))
    beats += fmt::format("M{} {}V{}", drawn(card_x(axes, beat)), drawn(room_for_chords), drawn(bottom));
  return shape("path", {{"class", "beats"}, {"d", beats}});
}

/// The chords that sound in the bar, at their places; one that goes on from before in brackets.
Markup card_chords(const CardAxes& axes, const CardLine& line) {
  const Bar& bar = line.report.solo.bars[line.bar];
  Markup symbols;
  for (const SoundingChord& chord : line.report.analysis.harmony.chords) {
    if (chord.onset + chord.duration <= bar.onset || chord.onset >= bar.onset + bar.length) continue;
    const bool held = chord.onset < bar.onset;
    const std::string symbol = printable(chord.chord.symbol);
    symbols += element("text",
                       {{"class", held ? "chord held" : "chord"},
                        {"x", drawn(card_x(axes, std::max(chord.onset, bar.onset) - bar.onset) - 6)},
                        {"y", "14"}},
                       held ? "(" + symbol + ")" : symbol);
  }
  return symbols;
}

/// "Anke: C4 (1) the same, E4 (3) only here".
std::string said_line(const CardLine& line) {
  std::vector<std::string> notes;
  for (const NoteBeside& beside : line.notes)
    notes.push_back(fmt::format("{} ({}) {}", to_string(line.report.solo.notes[beside.note].pitch),
                                shown_degree(line.report.analysis.labels[beside.note]),
                                said_difference(beside.difference)));
  return fmt::format("{}: {}", line.name, notes.empty() ? "rests" : fmt::format("{}", fmt::join(notes, ", ")));
}

Markup card_line(const ComparisonReport& report, const CardAxes& axes, const CardLine& line, const std::string& where) {
  Markup drawing =
      element("g", {{"aria-hidden", "true"}}, card_grid(axes, line) + card_chords(axes, line) + card_tails(axes, line));
  for (std::size_t i = 0; i < line.notes.size(); ++i) drawing += card_note(axes, line, i);
  const Markup hear = element("button",
                              {{"type", "button"},
                               {"class", "hear"},
                               {"data-read", report.read.size() == 1 ? "0" : std::to_string(line.solo)},
                               {"data-bar", std::to_string(line.bar)},
                               {"data-name", line.name},
                               {"aria-pressed", "false"},
                               {"aria-label", fmt::format("{}, {}: play", line.name, where)},
                               {"hidden", ""}},
                              line.name);
  return element("div", {{"class", "line-beside"}},
                 element("p", {{"class", "line-name"}}, hear + element("span", line.name)) +
                     element("svg",
                             {{"class", "map"},
                              {"role", "img"},
                              {"aria-label", said_line(line)},
                              {"viewBox", fmt::format("0 0 {} {}", drawn(card_width), drawn(card_height(axes)))}},
                             drawing));
}

Markup card(const ComparisonReport& report, const BesideFirst& pair, std::size_t index, std::size_t rank) {
  const SameBar& bar = pair.bars.bars[index];
  const CardLine first{report_of_solo(report, 0), report.solos.front().name, 0, bar.first_bar, bar.first};
  const CardLine other{report_of_solo(report, pair.other), report.solos[pair.other].name, pair.other, bar.other_bar,
                       bar.other};
  const CardAxes axes = card_axes(first, other);
  const std::string name = bar_name(report, pair, bar);
  const bool talk = std::ranges::find(pair.bars.to_talk_about, index) != pair.bars.to_talk_about.end();
  Markup content = element(
      "h4", text(with_capital(name)) + element("span", {{"class", "amount"}}, percent(bar.difference) + " apart"));
  if (talk) content += element("p", {{"class", "talk"}}, "To talk about first");
  content += card_line(report, axes, first, name) + card_line(report, axes, other, name);
  content += element("p", {{"class", "counts"}}, with_capital(counts_in_words(report, pair, bar)) + ".");
  return element("li",
                 {{"class", talk ? "card to-talk" : "card"},
                  {"id", fmt::format("s{}-b{}", pair.other, index)},
                  {"data-place", std::to_string(index)},
                  {"data-rank", std::to_string(rank)}},
                 content);
}

/// The bars to talk about, each with its sentence and a link to its card.
Markup talk_about(const ComparisonReport& report, const BesideFirst& pair) {
  Markup items;
  for (const std::size_t index : pair.bars.to_talk_about) {
    const SameBar& bar = pair.bars.bars[index];
    items += element(
        "li", element("a", {{"href", fmt::format("#s{}-b{}", pair.other, index)}},
                      with_capital(bar_name(report, pair, bar))) +
                  text(fmt::format(", {} apart: {}.", percent(bar.difference), counts_in_words(report, pair, bar))));
  }
  if (items.empty()) return element("p", "No bar in which both play differs.");
  return element("p", {{"class", "lead"}}, "To talk about first:") + element("ol", {{"class", "talk-about"}}, items);
}

Markup pair_view(const ComparisonReport& report, const BesideFirst& pair) {
  Markup cards;
  std::size_t rank = 0;
  for (const std::size_t index : pair.bars.by_difference) cards += card(report, pair, index, rank++);
  const std::string name = fmt::format("{} beside {}", report.solos[pair.other].name, report.solos.front().name);
  return element(
      "div",
      {{"class", "pair"}, {"data-pair", std::to_string(pair.other)}, {"data-name", report.solos[pair.other].name}},
      element("h3", with_capital(name)) + talk_about(report, pair) + element("ol", {{"class", "cards"}}, cards));
}

Markup beside_sign(NoteDifference difference, std::string_view words) {
  const bool same = difference == NoteDifference::none;
  const Markup note = element("g", {{"class", same ? "note same c" : "note c"}},
                              frame_of(difference) + shape("use", {{"href", same ? "#small-c" : "#mark-c"}}));
  return element(
      "li",
      element(
          "svg",
          {{"width", "30"}, {"height", "30"}, {"viewBox", "-15 -15 30 30"}, {"class", "map"}, {"aria-hidden", "true"}},
          note) +
          text(words));
}

Markup beside_signs() {
  return element("ul", {{"class", "key signs beside-signs"}},
                 beside_sign(NoteDifference::none, "small and grey: the same in both") +
                     beside_sign(NoteDifference::pitch, "framed: the other strikes another pitch") +
                     beside_sign(NoteDifference::role, "underlined: heard in another role") +
                     beside_sign(NoteDifference::alone, "dashed frame: only here"));
}

}  // namespace

Markup bar_cards(const ComparisonReport& report, const std::vector<BesideFirst>& pairs) {
  Markup view = element("p", how_bars_differ()) + mark_shapes() + beside_signs();
  view +=
      element("p", {{"class", "soft"}},
              "Round: chord tone; square: tension; triangle: non-chord tone; diamond: outside; cross: no chord. The "
              "numbers are degrees.");
  view += element("div", {{"class", "controls beside-controls"}, {"id", "beside-controls"}, {"hidden", ""}}, "");
  for (const BesideFirst& pair : pairs) view += pair_view(report, pair);
  view += element("div", {{"id", "beside-player"}}, "");
  return view;
}

std::string bar_cards_data(const ComparisonReport& report) {
  std::string solos;
  for (const Report& read : report.read) solos += (solos.empty() ? "" : ",") + map_data(read);
  return "{\"solos\":[" + solos + "]}";
}

}  // namespace insideline::reports
