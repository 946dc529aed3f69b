#include "reports/printed/marks.hpp"

#include "analyzer/placement_when_struck.hpp"
#include "reports/printed/signs.hpp"
#include "reports/text/marks.hpp"

#include <algorithm>
#include <functional>
#include <optional>
#include <string_view>

namespace insideline::reports {
namespace {

using IsMarked = std::function<bool(const NoteLabel&)>;

/// Notes with their degree, their heads as their role has them.
void mark_notes(const Sheet& sheet, Marks& marks, const IsMarked& is_marked) {
  for (std::size_t note = 0; note < sheet.report.analysis.labels.size(); ++note) {
    if (!is_marked(sheet.report.analysis.labels[note])) continue;
    marks.coloured.insert(note);
    if (is_printed_note(sheet, note)) marks.degrees.insert(note);
  }
}

void mark_role(const Sheet& sheet, Marks& marks, Role role) {
  mark_notes(sheet, marks, [role](const NoteLabel& label) { return label.role == role; });
}

/// What the non-chord tones do, in words as on a screen.
void mark_motions(const Sheet& sheet, Marks& marks) {
  const auto& labels = sheet.report.analysis.labels;
  for (std::size_t note = 0; note < labels.size(); ++note)
    if (labels[note].role == Role::non_chord_tone && is_printed_note(sheet, note) &&
        !abbreviation(labels[note].figure).empty())
      marks.motions.insert(note);
}

void mark_note(Marks& marks, std::size_t note) {
  marks.coloured.insert(note);
  marks.degrees.insert(note);
}

void mark_arpeggios(const Sheet& sheet, Marks& marks) {
  for (const Arpeggio& arpeggio : sheet.report.analysis.arpeggios) {
    if (!is_printed_whole(sheet, arpeggio)) continue;
    marks.brackets.push_back(
        {arpeggio.notes, cell_markup(way_of(arpeggio), arpeggio.degrees), arpeggio.straight_descent});
    for (const std::size_t note : arpeggio.notes) mark_note(marks, note);
  }
}

void mark_connections(const Sheet& sheet, Marks& marks, bool guide_tones_only) {
  for (const Connection* connection : drawn_connections(sheet)) {
    if (guide_tones_only && !connection->guide_tone) continue;
    marks.arrows[*connection->from_note] = connection->guide_tone;
    mark_note(marks, *connection->from_note);
    mark_note(marks, *connection->to_note);
  }
}

/// All degrees, on plain heads.
void mark_degrees(const Sheet& sheet, Marks& marks) {
  for (std::size_t note = 0; note < sheet.report.solo.notes.size(); ++note)
    if (is_printed_note(sheet, note)) marks.degrees.insert(note);
}

void mark_topic(const Sheet& sheet, Marks& marks, Topic topic) {
  switch (topic) {
    case Topic::degrees: return mark_degrees(sheet, marks);
    case Topic::arpeggios: return mark_arpeggios(sheet, marks);
    case Topic::connections: return mark_connections(sheet, marks, false);
    case Topic::guide_tones: return mark_connections(sheet, marks, true);
    case Topic::tensions: return mark_role(sheet, marks, Role::tension);
    case Topic::non_chord_tones: mark_motions(sheet, marks); return mark_role(sheet, marks, Role::non_chord_tone);
    case Topic::outside: return mark_role(sheet, marks, Role::outside);
  }
}

/// The next note with a degree under it; none at the end.
std::optional<std::size_t> next_printed(const Sheet& sheet, std::size_t note) {
  for (std::size_t next = note + 1; next < sheet.report.solo.notes.size(); ++next)
    if (!sheet.report.solo.notes[next].grace) return is_printed_note(sheet, next) ? std::optional(next) : std::nullopt;
  return std::nullopt;
}

void add_note_items(const Sheet& sheet, const Marks& marks, std::set<std::string>& items) {
  for (const std::size_t note : marks.degrees) {
    const NoteLabel& label = sheet.report.analysis.labels[note];
    if (label.role != Role::no_chord) items.emplace(role_letter(label.role));
    const Placement placement = placement_when_struck(label);
    if (placement == Placement::anticipation) items.emplace("early");
    if (placement == Placement::suspension || placement == Placement::retardation) items.emplace("late");
  }
}

}  // namespace

void add_marks(Marks& marks, const Marks& more) {
  marks.degrees.insert(more.degrees.begin(), more.degrees.end());
  marks.coloured.insert(more.coloured.begin(), more.coloured.end());
  marks.brackets.insert(marks.brackets.end(), more.brackets.begin(), more.brackets.end());
  std::ranges::stable_sort(marks.brackets, {}, [](const Bracket& bracket) { return bracket.notes.front(); });
  for (const auto& [note, is_guide_tone] : more.arrows) marks.arrows[note] |= is_guide_tone;
  marks.rings.insert(more.rings.begin(), more.rings.end());
  marks.motions.insert(more.motions.begin(), more.motions.end());
  for (const auto& [note, words] : more.words)
    marks.words[note].insert(marks.words[note].end(), words.begin(), words.end());
}

Marks annotated_marks(const Sheet& sheet, const std::set<Topic>& topics) {
  Marks marks;
  for (const Topic topic : topics) mark_topic(sheet, marks, topic);
  if (!topics.empty()) return marks;
  mark_notes(sheet, marks, [](const NoteLabel&) { return true; });
  mark_arpeggios(sheet, marks);
  mark_connections(sheet, marks, false);
  return marks;
}

std::vector<const Connection*> drawn_connections(const Sheet& sheet) {
  std::vector<const Connection*> drawn;
  for (const Connection& connection : sheet.report.analysis.connections) {
    if (connection.kind == ConnectionKind::none || !connection.from_note || !connection.to_note) continue;
    if (is_printed_note(sheet, *connection.from_note) &&
        next_printed(sheet, *connection.from_note) == connection.to_note)
      drawn.push_back(&connection);
  }
  return drawn;
}

Bracket bracket_of(const Arpeggio& arpeggio, const Leg& leg, ChordRow chords) {
  const auto from = static_cast<std::ptrdiff_t>(leg.first);
  const auto to = static_cast<std::ptrdiff_t>(leg.last) + 1;
  std::vector<Degree> degrees;
  if (chords == ChordRow::shown) degrees.assign(arpeggio.degrees.begin() + from, arpeggio.degrees.begin() + to);
  const bool straight_down = comes_straight_down(leg);
  const std::string_view way = leg.direction == Direction::ascending ? "up" : straight_down ? "down!" : "down";
  return {{arpeggio.notes.begin() + from, arpeggio.notes.begin() + to}, cell_markup(way, degrees), straight_down};
}

bool is_printed_whole(const Sheet& sheet, const Arpeggio& arpeggio) {
  return arpeggio.notes.size() > 1 &&
         std::ranges::all_of(arpeggio.notes, [&](std::size_t note) { return is_printed_note(sheet, note); });
}

std::set<std::string> legend_items(const Sheet& sheet, const Marks& marks) {
  std::set<std::string> items;
  add_note_items(sheet, marks, items);
  for (const std::size_t note : marks.motions) items.emplace(abbreviation(sheet.report.analysis.labels[note].figure));
  if (!marks.brackets.empty()) items.emplace("arpeggios");
  for (const Bracket& bracket : marks.brackets)
    if (bracket.straight_down) items.emplace("down");
  for (const auto& [note, is_guide_tone] : marks.arrows) items.emplace(is_guide_tone ? "guide-tones" : "connections");
  return items;
}

}  // namespace insideline::reports
