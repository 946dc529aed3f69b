#include "reports/printed/worksheet_tasks.hpp"

#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <functional>
#include <string_view>

namespace insideline::reports {
namespace {

constexpr std::size_t most_tasks = 7;
constexpr std::string_view answers_above =
    "The degrees stand under the notes; a box is a tension, parentheses a non-chord tone.";

using IsWanted = std::function<bool(const NoteLabel&)>;

std::vector<int> bars_of_notes(const Sheet& sheet, const IsWanted& is_wanted) {
  std::vector<int> bars;
  for (std::size_t note = 0; note < sheet.report.analysis.labels.size(); ++note)
    if (is_printed_note(sheet, note) && is_wanted(sheet.report.analysis.labels[note]))
      bars.push_back(bar_of_note(sheet, note));
  return bars;
}

bool has_leg(const Arpeggio& arpeggio, Direction direction) {
  return std::ranges::find(arpeggio.legs, direction, &Leg::direction) != arpeggio.legs.end();
}

std::vector<int> bars_of_arpeggios(const Sheet& sheet, const std::function<bool(const Arpeggio&)>& is_wanted) {
  std::vector<int> bars;
  for (const Arpeggio& arpeggio : sheet.report.analysis.arpeggios) {
    const bool is_whole =
        std::ranges::all_of(arpeggio.notes, [&](std::size_t note) { return is_printed_note(sheet, note); });
    if (is_whole && is_wanted(arpeggio)) bars.push_back(bar_of_note(sheet, arpeggio.notes.front()));
  }
  return bars;
}

/// Connections with both their notes on the sheet, by the bar they lead into.
std::vector<int> bars_of_connections(const Sheet& sheet, const std::function<bool(const Connection&)>& is_wanted) {
  std::vector<int> bars;
  for (const Connection& connection : sheet.report.analysis.connections) {
    if (!connection.from_note || !connection.to_note || connection.kind == ConnectionKind::none) continue;
    if (!is_printed_note(sheet, *connection.from_note) || !is_printed_note(sheet, *connection.to_note)) continue;
    if (is_wanted(connection)) bars.push_back(bar_of_note(sheet, *connection.to_note));
  }
  return bars;
}

bool is_chord_tone_number(const NoteLabel& label, int number) {
  return label.role == Role::chord_tone && label.degree && label.degree->number == number;
}

/// A task that has something to find.
void add(std::vector<Task>& tasks, std::string_view instruction, std::string_view one, std::string_view many,
         const std::vector<int>& bars) {
  if (bars.empty()) return;
  const auto count = static_cast<int>(bars.size());
  tasks.push_back(
      {fmt::format("{} ({})", instruction, counted(count, one, many)),
       fmt::format("{}: {} {}", counted(count, one, many),
                   bars.size() == 1 || bars.front() == bars.back() ? "bar" : "bars", bars_with_counts(bars))});
}

void add_note_tasks(const Sheet& sheet, std::vector<Task>& tasks) {
  add(tasks, "Circle the thirds of the chords.", "third", "thirds",
      bars_of_notes(sheet, [](const NoteLabel& label) { return is_chord_tone_number(label, 3); }));
  add(tasks, "Underline the sevenths of the chords.", "seventh", "sevenths",
      bars_of_notes(sheet, [](const NoteLabel& label) { return is_chord_tone_number(label, 7); }));
}

void add_arpeggio_tasks(const Sheet& sheet, std::vector<Task>& tasks) {
  add(tasks, "Bracket every descending arpeggio.", "descending arpeggio", "descending arpeggios",
      bars_of_arpeggios(sheet, [](const Arpeggio& found) { return has_leg(found, Direction::descending); }));
  add(tasks, "Bracket every ascending arpeggio, and write at the bracket which degrees it goes through.",
      "ascending arpeggio", "ascending arpeggios",
      bars_of_arpeggios(sheet, [](const Arpeggio& found) { return has_leg(found, Direction::ascending); }));
}

void add_connection_tasks(const Sheet& sheet, std::vector<Task>& tasks) {
  const auto all = bars_of_connections(sheet, [](const Connection&) { return true; });
  const auto nearest =
      bars_of_connections(sheet, [](const Connection& connection) { return connection.took_nearest.value_or(false); });
  add(tasks,
      fmt::format("Draw an arrow wherever the line takes the nearest tone of the next chord, or keeps a common one; "
                  "the chord changes under {}.",
                  counted(static_cast<int>(all.size()), "pair of notes", "pairs of notes")),
      "arrow", "arrows", nearest);
  add(tasks, "Mark with a star where a seventh leads to a third, or a third to a seventh, as the chord changes.",
      "star", "stars", bars_of_connections(sheet, [](const Connection& connection) { return connection.guide_tone; }));
}

/// The figure that the bars have most of, as a name for one and for many.
struct FigureWords {
  Figure figure;
  std::string_view one;
  std::string_view many;
  std::string_view hint;
};
constexpr std::array<FigureWords, 7> figure_words{{
    {Figure::enclosure, "enclosure note", "enclosure notes", "the notes above and below that surround a chord tone"},
    {Figure::approach_tone, "approach tone", "approach tones", "leapt to, then a step into a chord tone"},
    {Figure::appoggiatura, "appoggiatura", "appoggiaturas", "it leans on a strong place, then resolves by step"},
    {Figure::passing_tone, "passing tone", "passing tones", "by step through, from one tone to another"},
    {Figure::neighbour_tone, "neighbour tone", "neighbour tones", "a step away and back"},
    {Figure::double_neighbour, "double neighbour note", "double neighbour notes",
     "both neighbours, then the tone again"},
    {Figure::escape_tone, "escape tone", "escape tones", "a step away, then a leap"},
}};

void add_other_note_tasks(const Sheet& sheet, std::vector<Task>& tasks) {
  const FigureWords* most = nullptr;
  std::vector<int> bars_of_most;
  for (const FigureWords& words : figure_words) {
    std::vector<int> bars = bars_of_notes(sheet, [&](const NoteLabel& label) { return label.figure == words.figure; });
    if (bars.size() <= bars_of_most.size()) continue;
    most = &words;
    bars_of_most = std::move(bars);
  }
  if (most != nullptr)
    add(tasks, fmt::format("Put a cross over every {}: {}.", most->one, most->hint), most->one, most->many,
        bars_of_most);
  add(tasks, "Write E over a note that arrives early, before the chord it belongs to.", "early note", "early notes",
      bars_of_notes(sheet, [](const NoteLabel& label) { return label.placement == Placement::anticipation; }));
  add(tasks, "Draw a box around every tension that the line keeps as a colour.", "tension", "tensions",
      bars_of_notes(sheet, [](const NoteLabel& label) { return label.role == Role::tension; }));
}

}  // namespace

std::string bars_with_counts(const std::vector<int>& bars) {
  std::string text;
  for (auto at = bars.begin(); at != bars.end();) {
    const auto next = std::find_if(at, bars.end(), [&](int bar) { return bar != *at; });
    text += fmt::format("{}{}", text.empty() ? "" : ", ", *at);
    if (next - at > 1) text += fmt::format(" ({})", next - at);
    at = next;
  }
  return text;
}

std::vector<Task> worksheet_tasks(const Sheet& sheet) {
  std::vector<Task> tasks;
  const std::vector<int> notes = bars_of_notes(sheet, [](const NoteLabel&) { return true; });
  if (notes.empty()) return tasks;
  tasks.push_back({fmt::format("Write under every note which degree of its chord it is. ({})",
                               counted(static_cast<int>(notes.size()), "note")),
                   std::string(answers_above)});
  add_note_tasks(sheet, tasks);
  add_arpeggio_tasks(sheet, tasks);
  add_connection_tasks(sheet, tasks);
  add_other_note_tasks(sheet, tasks);
  if (tasks.size() > most_tasks) tasks.resize(most_tasks);
  return tasks;
}

}  // namespace insideline::reports
