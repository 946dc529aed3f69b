#include "reports/printed/worksheet_tasks.hpp"

#include "analyzer/enclosures.hpp"
#include "analyzer/placement_when_struck.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <functional>
#include <optional>
#include <utility>

namespace insideline::reports {
namespace {

constexpr std::size_t most_tasks = 7;

using IsWanted = std::function<bool(const NoteLabel&)>;

/// A thing to find: what one and many of them are called, and what is to be done.
struct Find {
  std::string_view instruction;
  std::string_view one;
  std::string_view many;
};

std::vector<std::size_t> notes_that(const Sheet& sheet, const IsWanted& is_wanted) {
  std::vector<std::size_t> notes;
  for (std::size_t note = 0; note < sheet.report.analysis.labels.size(); ++note)
    if (is_printed_note(sheet, note) && is_wanted(sheet.report.analysis.labels[note])) notes.push_back(note);
  return notes;
}

/// None where there is nothing to find.
std::optional<Task> task_at(const Sheet& sheet, const Find& find, const std::vector<std::size_t>& places) {
  if (places.empty()) return std::nullopt;
  const std::string number = counted(static_cast<int>(places.size()), find.one, find.many);
  const std::string places_of_all = places_text(sheet, places);
  const bool is_one_bar = places_of_all.find("), ") == std::string::npos;
  Task task;
  task.instruction = fmt::format("{} ({})", find.instruction, number);
  task.answer = fmt::format("{}: {} {}", number, is_one_bar ? "bar" : "bars", places_of_all);
  return task;
}

std::optional<Task> ringed_notes(const Sheet& sheet, const Find& find, Ring ring, const IsWanted& is_wanted) {
  const std::vector<std::size_t> notes = notes_that(sheet, is_wanted);
  auto task = task_at(sheet, find, notes);
  for (const std::size_t note : notes) task->marks.rings[note] = ring;
  return task;
}

std::optional<Task> named_notes(const Sheet& sheet, const Find& find, const std::string& word,
                                const IsWanted& is_wanted) {
  const std::vector<std::size_t> notes = notes_that(sheet, is_wanted);
  auto task = task_at(sheet, find, notes);
  for (const std::size_t note : notes) task->marks.words[note].push_back(word);
  return task;
}

IsWanted is_chord_tone_number(int number) {
  return [number](const NoteLabel& label) {
    return label.role == Role::chord_tone && label.degree && label.degree->number == number;
  };
}

IsWanted is_figure(Figure figure) {
  return [figure](const NoteLabel& label) { return label.figure == figure; };
}

std::optional<Task> degrees_task(const Sheet& sheet) {
  const std::vector<std::size_t> notes = notes_that(sheet, [](const NoteLabel&) { return true; });
  if (notes.empty()) return std::nullopt;
  Task task;
  task.instruction = fmt::format("Write under every note which degree of its chord it is. ({})",
                                 counted(static_cast<int>(notes.size()), "note"));
  task.answer = "The degrees stand under the notes; a box is a tension, parentheses a non-chord tone.";
  task.marks.degrees.insert(notes.begin(), notes.end());
  return task;
}

std::optional<Task> thirds_task(const Sheet& sheet) {
  return ringed_notes(sheet, {"Circle the thirds of the chords.", "third", "thirds"}, Ring::circle,
                      is_chord_tone_number(3));
}

std::optional<Task> sevenths_task(const Sheet& sheet) {
  return ringed_notes(sheet, {"Draw a square round the sevenths of the chords.", "seventh", "sevenths"}, Ring::square,
                      is_chord_tone_number(7));
}

/// One bracket a leg, so that a line down and up again is counted both ways.
std::optional<Task> arpeggios_task(const Sheet& sheet, Direction direction, const Find& find) {
  std::vector<std::size_t> places;
  Marks marks;
  for (const Arpeggio& arpeggio : sheet.report.analysis.arpeggios) {
    if (!is_printed_whole(sheet, arpeggio)) continue;
    for (const Leg& leg : arpeggio.legs) {
      if (leg.direction != direction) continue;
      marks.brackets.push_back(bracket_of(arpeggio, leg, sheet.options.chords));
      places.push_back(marks.brackets.back().notes.front());
    }
  }
  auto task = task_at(sheet, find, places);
  if (task) task->marks = std::move(marks);
  return task;
}

/// With chords to read, the degrees are asked for as well.
std::string bracket_instruction(const Sheet& sheet, std::string_view way) {
  return fmt::format("Bracket every arpeggio that goes {} through three tones or more{}.", way,
                     sheet.options.chords == ChordRow::shown ? ", and write its degrees at the bracket" : "");
}

std::optional<Task> arpeggios_down_task(const Sheet& sheet) {
  return arpeggios_task(sheet, Direction::descending,
                        {bracket_instruction(sheet, "down"), "arpeggio down", "arpeggios down"});
}

std::optional<Task> arpeggios_up_task(const Sheet& sheet) {
  return arpeggios_task(sheet, Direction::ascending, {bracket_instruction(sheet, "up"), "arpeggio up", "arpeggios up"});
}

std::optional<Task> connections_task(const Sheet& sheet) {
  const auto all = drawn_connections(sheet);
  std::vector<std::size_t> places;
  Marks marks;
  for (const Connection* connection : all) {
    if (!connection->took_nearest.value_or(false)) continue;
    places.push_back(*connection->to_note);
    marks.arrows[*connection->from_note] = false;
  }
  const std::string instruction = fmt::format(
      "Draw an arrow wherever the line takes the nearest tone of the next chord, or keeps a common one: {} to "
      "look at.",
      counted(static_cast<int>(all.size()), "change of chord", "changes of chord"));
  auto task = task_at(sheet, {instruction, "arrow", "arrows"}, places);
  if (task) task->marks = std::move(marks);
  return task;
}

std::optional<Task> guide_tones_task(const Sheet& sheet) {
  std::vector<std::size_t> places;
  for (const Connection* connection : drawn_connections(sheet))
    if (connection->guide_tone) places.push_back(*connection->to_note);
  auto task = task_at(sheet,
                      {"Put a star where a seventh leads to a third, or a third to a seventh, by step or by staying, "
                       "as the chord changes.",
                       "star", "stars"},
                      places);
  for (const std::size_t note : places) task->marks.words[note].emplace_back("*");
  return task;
}

std::optional<Task> early_notes_task(const Sheet& sheet) {
  return named_notes(sheet, {"Write ANT over a note that arrives before its chord does.", "anticipation", ""}, "ANT",
                     [](const NoteLabel& label) { return placement_when_struck(label) == Placement::anticipation; });
}

std::optional<Task> late_notes_task(const Sheet& sheet) {
  return named_notes(
      sheet, {"Write SUS over a note that stays from the chord before and then gives way by step.", "suspension", ""},
      "SUS", [](const NoteLabel& label) {
        return label.placement == Placement::suspension || label.placement == Placement::retardation;
      });
}

std::optional<Task> tensions_task(const Sheet& sheet) {
  return named_notes(sheet, {"Write T over every tension that the line keeps as a colour.", "tension", ""}, "T",
                     [](const NoteLabel& label) { return label.role == Role::tension; });
}

std::optional<Task> side_slips_task(const Sheet& sheet) {
  std::vector<std::size_t> places;
  std::vector<std::string> chords;
  for (const OutsideEvent& event : sheet.report.analysis.outside_events) {
    if (!is_printed_note(sheet, event.first)) continue;
    places.push_back(event.first);
    chords.push_back(event.plays);
  }
  auto task = task_at(
      sheet,
      {"Write OUT where the line leaves the changes for another chord close by. Which chord is it?", "side-slip", ""},
      places);
  for (const std::size_t note : places) task->marks.words[note].emplace_back("OUT");
  if (task) task->answer += fmt::format("; it plays {}", listed(chords));
  return task;
}

std::optional<Task> chords_task(const Sheet& sheet) {
  int chords = 0;
  for (const SoundingChord& sounding : sheet.report.analysis.harmony.chords)
    if (sounding.onset < sheet.excerpt.end && sounding.onset + sounding.duration > sheet.excerpt.onset) ++chords;
  if (chords == 0) return std::nullopt;
  Task task;
  task.instruction = fmt::format("Write the chord symbols over the bars: what does the line alone say? ({})",
                                 counted(chords, "chord"));
  task.answer = "The symbols stand over the line.";
  task.asks_for_chords = true;
  return task;
}

/// Counted by figures; the word stands over both sides of each.
std::optional<Task> enclosures_task(const Sheet& sheet) {
  std::vector<std::size_t> places;
  Marks marks;
  for (const Enclosure& enclosure : find_enclosures(sheet.report.solo, sheet.report.analysis.labels)) {
    const auto is_shown = [&](std::size_t note) { return is_printed_note(sheet, note); };
    if (!std::ranges::all_of(enclosure.around, is_shown) || !is_shown(enclosure.target)) continue;
    places.push_back(enclosure.around.front());
    for (const std::size_t note : enclosure.around) marks.words[note].emplace_back("ENC");
  }
  auto task = task_at(
      sheet, {"Write ENC over the notes above and below that surround a chord tone, both of them.", "enclosure", ""},
      places);
  if (task) task->marks = std::move(marks);
  return task;
}

template <Figure asked>
std::optional<Task> figure_task(const Sheet& sheet) {
  struct Words {
    Figure figure;
    std::string_view word;
    Find find;
  };
  // PT, NT, APP and ESC as in Open Music Theory; the others likewise, common practice.
  static constexpr std::array<Words, 6> words{{
      {Figure::approach_tone,
       "APR",
       {"Write APR over every approach tone: leapt to, then a step into a chord tone.", "approach tone", ""}},
      {Figure::appoggiatura,
       "APP",
       {"Write APP over every appoggiatura: it leans on a strong place, then resolves by step.", "appoggiatura", ""}},
      {Figure::passing_tone,
       "PT",
       {"Write PT over every passing tone: by step through, from one tone to another.", "passing tone", ""}},
      {Figure::neighbour_tone,
       "NT",
       {"Write NT over every neighbour tone: a step away and back.", "neighbour tone", ""}},
      {Figure::double_neighbour,
       "DN",
       {"Write DN over every double neighbour: both neighbours, then the tone again.", "double neighbour note", ""}},
      {Figure::escape_tone, "ESC", {"Write ESC over every escape tone: a step away, then a leap.", "escape tone", ""}},
  }};
  const auto found = std::ranges::find(words, asked, &Words::figure);
  return named_notes(sheet, found->find, std::string(found->word), is_figure(asked));
}

/// Tasks of one subject, of which the one with most to find is set first.
enum class Subject : std::uint8_t {
  degrees,
  chord_tones,
  arpeggios,
  connections,
  figures,
  placement,
  slips,
  tensions,
  chords
};

struct TaskKind {
  std::string_view name;
  Subject subject;
  bool needs_chords;
  std::optional<Task> (*make)(const Sheet&);
};
constexpr std::array<TaskKind, 18> task_kinds{{
    {"degrees", Subject::degrees, true, degrees_task},
    {"thirds", Subject::chord_tones, true, thirds_task},
    {"sevenths", Subject::chord_tones, true, sevenths_task},
    {"arpeggios down", Subject::arpeggios, false, arpeggios_down_task},
    {"arpeggios up", Subject::arpeggios, false, arpeggios_up_task},
    {"connections", Subject::connections, true, connections_task},
    {"guide tones", Subject::connections, true, guide_tones_task},
    {"enclosures", Subject::figures, true, enclosures_task},
    {"approach tones", Subject::figures, true, figure_task<Figure::approach_tone>},
    {"appoggiaturas", Subject::figures, true, figure_task<Figure::appoggiatura>},
    {"passing tones", Subject::figures, true, figure_task<Figure::passing_tone>},
    {"neighbour tones", Subject::figures, true, figure_task<Figure::neighbour_tone>},
    {"double neighbours", Subject::figures, true, figure_task<Figure::double_neighbour>},
    {"escape tones", Subject::figures, true, figure_task<Figure::escape_tone>},
    {"anticipations", Subject::placement, true, early_notes_task},
    {"suspensions", Subject::placement, true, late_notes_task},
    {"side-slips", Subject::slips, true, side_slips_task},
    {"tensions", Subject::tensions, true, tensions_task},
}};
constexpr TaskKind chords_kind{"chords", Subject::chords, false, chords_task};

/// A kind that the sheet has something for.
struct Candidate {
  std::size_t order;
  Subject subject;
  std::size_t found;
  Task task;
};

std::size_t found_in(const Marks& marks) {
  return std::max(
      {marks.degrees.size(), marks.rings.size(), marks.brackets.size(), marks.arrows.size(), marks.words.size()});
}

/// One of each subject, then a second of the subjects in their order, until there are enough; in the order of the
/// table.
std::vector<Task> chosen(std::vector<Candidate> candidates) {
  std::ranges::stable_sort(candidates, [](const Candidate& left, const Candidate& right) {
    return left.subject != right.subject ? left.subject < right.subject : left.found > right.found;
  });
  std::vector<std::pair<std::size_t, std::size_t>> by_turn;  // how many of the subject were before it, and which
  std::size_t before = 0;
  for (std::size_t index = 0; index < candidates.size(); ++index) {
    before = index > 0 && candidates[index].subject == candidates[index - 1].subject ? before + 1 : 0;
    by_turn.emplace_back(before, index);
  }
  std::ranges::sort(by_turn);
  if (by_turn.size() > most_tasks) by_turn.resize(most_tasks);
  std::ranges::sort(by_turn, {}, [&](const auto& turn) { return candidates[turn.second].order; });
  std::vector<Task> tasks;
  for (const auto& [turn, index] : by_turn) tasks.push_back(std::move(candidates[index].task));
  return tasks;
}

std::vector<Task> chosen_tasks(const Sheet& sheet) {
  const bool has_chords = sheet.options.chords == ChordRow::shown;
  std::vector<Candidate> candidates;
  for (const TaskKind& kind : task_kinds) {
    if (kind.needs_chords && !has_chords) continue;
    if (auto task = kind.make(sheet))
      candidates.push_back({candidates.size(), kind.subject, found_in(task->marks), std::move(*task)});
  }
  std::vector<Task> tasks = chosen(std::move(candidates));
  if (!has_chords)
    if (auto task = chords_task(sheet)) tasks.push_back(std::move(*task));
  return tasks;
}

/// Nullptr for words of the teacher's own.
const TaskKind* kind_named(std::string_view name) {
  if (name == chords_kind.name) return &chords_kind;
  const auto kind = std::ranges::find(task_kinds, name, &TaskKind::name);
  return kind == task_kinds.end() ? nullptr : &*kind;
}

std::vector<Task> own_tasks(const Sheet& sheet) {
  std::vector<Task> tasks;
  for (const OwnTask& own : sheet.options.tasks) {
    const TaskKind* const kind = kind_named(own.named);
    if (kind == nullptr) {
      tasks.push_back({own.instruction, own.answer, {}, false});
    } else if (auto task = kind->make(sheet)) {
      tasks.push_back(std::move(*task));
    }
  }
  return tasks;
}

}  // namespace

std::vector<std::string> tasks_without_finds(const Report& report, const HandoutOptions& options) {
  const Sheet sheet{report, options, *excerpt_of(report.solo, options.bars)};
  std::vector<std::string> names;
  for (const OwnTask& own : options.tasks) {
    const TaskKind* const kind = kind_named(own.named);
    if (kind != nullptr && !kind->make(sheet)) names.push_back(own.named);
  }
  return names;
}

std::vector<std::string_view> task_names() {
  std::vector<std::string_view> names;
  for (const TaskKind& kind : task_kinds) names.push_back(kind.name);
  names.push_back(chords_kind.name);
  return names;
}

Marks marks_of(const std::vector<Task>& tasks) {
  Marks marks;
  for (const Task& task : tasks) add_marks(marks, task.marks);
  return marks;
}

std::vector<Task> worksheet_tasks(const Sheet& sheet) {
  const auto notes = notes_that(sheet, [](const NoteLabel&) { return true; });
  if (notes.empty()) return {};
  return sheet.options.tasks.empty() ? chosen_tasks(sheet) : own_tasks(sheet);
}

}  // namespace insideline::reports
