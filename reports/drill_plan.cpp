#include "reports/drill_plan.hpp"

#include "analyzer/drills/readable_drill.hpp"
#include "analyzer/takes/readiness.hpp"
#include "reports/assessment/words.hpp"
#include "reports/text/display_width.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <string_view>
#include <utility>

namespace insideline::reports {
namespace {

std::string_view rhythm_words(DrillRhythm rhythm) {
  switch (rhythm) {
    case DrillRhythm::quarters: return "in quarters";
    case DrillRhythm::eighths: return "in eighths";
    case DrillRhythm::triplets: return "in triplets";
    case DrillRhythm::off_beat: return "in eighths that start off the beat";
    case DrillRhythm::three_over_four: return "in threes across the bar: quarter, eighth, quarter, eighth";
  }
  return "";
}

std::string_view inversion_words(Inversion inversion) {
  switch (inversion) {
    case Inversion::root_position: return "in root position";
    case Inversion::first: return "in first inversion";
    case Inversion::second: return "in second inversion";
    case Inversion::third: return "in third inversion";
    case Inversion::none: return "";
  }
  return "";
}

std::string_view tone_words(int number) {
  switch (number) {
    case 1: return "root";
    case 3: return "third";
    case 5: return "fifth";
    case 7: return "seventh";
    default: return "sixth";
  }
}

std::string cell_words(const DrillCell& cell) {
  std::string text;
  for (const CellTone& tone : cell.tones) text += (text.empty() ? "" : "-") + to_string(tone.asked);
  if (cell.way) text += *cell.way == Way::up ? " up" : " down";
  return text;
}

std::string arpeggio_words(const DrillSettings& settings) {
  std::string text = settings.way == Way::up ? "Arpeggios up" : "Arpeggios down";
  if (settings.from_tone) text += fmt::format(" from the {}", tone_words(*settings.from_tone));
  if (settings.every_inversion) text += ", every inversion";
  if (settings.inversion && !settings.every_inversion) text += fmt::format(" {}", inversion_words(*settings.inversion));
  return text;
}

std::string figure_words(const DrillSettings& settings) {
  switch (settings.kind) {
    case DrillKind::nearest_tones: return "Nearest tones";
    case DrillKind::common_tones: return "Common tones";
    case DrillKind::arpeggios: return arpeggio_words(settings);
    case DrillKind::guide_tones: return settings.voices == 1 ? "Guide tones in one voice" : "Guide tones in two voices";
    case DrillKind::enclosures: return "Enclosed thirds";
    case DrillKind::descents: return "Straight down into the next chord";
    case DrillKind::cells: {
      std::vector<std::string> cells;
      for (const DrillCell& cell : settings.cells) cells.push_back(cell_words(cell));
      return (cells.size() == 1 ? "Cell " : "Cells ") + listed(cells);
    }
  }
  return "";
}

std::vector<std::string> arpeggio_sentences(const DrillSettings& settings) {
  std::vector<std::string> text;
  text.emplace_back(
      settings.way == Way::up
          ? "Every chord from below upwards, a note for each tone of the chord where there is room; a rest "
            "where time is left."
          : "Every chord straight down from above, a note for each tone of the chord where there is "
            "room; a rest where time is left.");
  if (settings.from_tone)
    text.push_back(fmt::format("Each starts on the chord's own {}. Hear that tone before you play it.",
                               tone_words(*settings.from_tone)));
  if (settings.every_inversion)
    text.emplace_back("Root position the first time through, first inversion the second, and so on.");
  return text;
}

std::vector<std::string> guide_tone_sentences(const DrillSettings& settings) {
  if (settings.voices == 1)
    return {
        "One long tone a chord, its third or its seventh. At every change the line stays or goes to the nearest third "
        "or "
        "seventh of the next chord."};
  return {
      "Third and seventh of every chord, one after the other: two voices, the upper one first. At every change the two "
      "go to the two of the next chord by the least motion; many stay."};
}

std::vector<std::string> what_it_is(const DrillSettings& settings) {
  switch (settings.kind) {
    case DrillKind::nearest_tones:
      return {
          "A line through the chord tones. At every change it moves to the nearest tone of the next chord, up or "
          "down. Where both are equally near, the second one stands beside the first as a small note in brackets: "
          "play either."};
    case DrillKind::common_tones:
      return {
          "A line through the chord tones. A tone that the next chord has as well is sounded again at the change; "
          "where there is none, the line moves to the nearest tone."};
    case DrillKind::arpeggios: return arpeggio_sentences(settings);
    case DrillKind::guide_tones: return guide_tone_sentences(settings);
    case DrillKind::enclosures:
      return {
          "A line through the chord tones. At every change it closes in on the third of the next chord: a tone above "
          "it "
          "and a tone below it, in either order, then the third itself. The lower one lies a half step away, the upper "
          "one is the next tone of the chord's usual scale."};
    case DrillKind::descents:
      return {
          "Every chord straight down from above, without going up through it first, and on into the nearest tone of "
          "the "
          "next chord, up or down. Where the chord lasts long enough, that tone is held while you hear the next way "
          "down."};
    case DrillKind::cells:
      return {
          "The same few tones of every chord, by number: 3 is each chord's own third, 7 its own seventh; with b, # or "
          "maj they are played as written, and a number that the chord lacks is of its usual scale. The cell is played "
          "over and over, up or down, and begins anew with each chord. Say the numbers while you play."};
  }
  return {};
}

std::string range_sentence(const DrillReport& report) {
  const Solo& solo = report.drill.solo;
  std::string text = fmt::format("Range {} in concert pitch", to_string(report.settings.range));
  const int written = -solo.sounding_minus_written.semitones;
  if (written != 0)
    text += fmt::format(
        ", written {} for {}",
        to_string(PitchRange{report.settings.range.lowest + written, report.settings.range.highest + written}),
        solo.part);
  return text + ".";
}

/// Of a sheet through all keys, the choices of the first key.
std::string choices_sentence(const DrillReport& report) {
  const Drill& drill = report.drill;
  const bool several_keys = report.keys.size() > 1;
  const std::size_t end = several_keys ? report.keys[1].bar : drill.solo.bars.size();
  std::map<int, int> bars;
  for (const OpenChoice& choice : drill.open_choices) {
    const std::size_t bar = bar_index_at(drill.solo, drill.solo.notes[choice.note].onset);
    if (bar < end) ++bars[drill.solo.bars[bar].number];
  }
  if (bars.empty()) return {};
  std::vector<std::string> numbers;
  for (const auto& [bar, count] : bars)
    numbers.push_back(count == 1 ? std::to_string(bar) : fmt::format("{} (twice)", bar));
  return fmt::format("Both ways are equally near into {} {}{}.", numbers.size() == 1 ? "bar" : "bars", listed(numbers),
                     several_keys ? " of the first key" : "");
}

/// "bar 19, notes 5 to 8"; notes are counted in their bar.
std::string notes_in_words(const Solo& solo, const OctaveMove& move) {
  const auto place = [&](std::size_t note) {
    const std::size_t bar = bar_index_at(solo, solo.notes[note].onset);
    const auto first =
        std::ranges::find_if(solo.notes, [&](const Note& other) { return other.onset >= solo.bars[bar].onset; });
    return std::pair(solo.bars[bar].number,
                     static_cast<int>(note - static_cast<std::size_t>(first - solo.notes.begin())) + 1);
  };
  const auto [first_bar, first_note] = place(move.first);
  const auto [last_bar, last_note] = place(move.last);
  if (first_bar != last_bar)
    return fmt::format("bar {}, note {}, to bar {}, note {}", first_bar, first_note, last_bar, last_note);
  if (first_note == last_note) return fmt::format("bar {}, note {}", first_bar, first_note);
  return fmt::format("bar {}, notes {} to {}", first_bar, first_note, last_note);
}

/// "In Ab, an octave down: bar 19, notes 5 to 8; bar 21, note 3.": a sentence a key and direction.
std::vector<std::string> moved_sentences(const DrillReport& report) {
  std::vector<std::string> text;
  for (const KeyStart& start : report.keys)
    for (const int way : {1, -1}) {
      std::vector<std::string> places;
      for (const OctaveMove& move : start.moves)
        if (move.octaves == way) places.push_back(notes_in_words(report.drill.solo, move));
      if (places.empty()) continue;
      text.push_back(fmt::format("In {}, an octave {}: {}.", to_string(start.key), way > 0 ? "up" : "down",
                                 fmt::join(places, "; ")));
    }
  return text;
}

/// The order of the keys, and where one has a line of its own.
std::vector<std::string> key_sentences(const DrillReport& report) {
  if (report.keys.empty()) return {};
  const Interval up = -report.drill.solo.sounding_minus_written;
  std::vector<std::string> names;
  std::vector<std::string> written;
  std::vector<std::string> own;
  for (const KeyStart& start : report.keys) {
    names.push_back(to_string(start.key));
    written.push_back(to_string(read_key(start.key, up)));
    if (start.own_line) own.push_back(to_string(start.key));
  }
  const bool fourths = report.key_order.value_or(KeyOrder::fourths) == KeyOrder::fourths;
  std::vector<std::string> text{
      fmt::format("All twelve keys, {}: {}{}. Each begins behind a double bar, with its name over it, every {}.",
                  fourths ? "round the fourths" : "by half steps", listed(names),
                  names == written ? "" : fmt::format(" in concert pitch, written {}", listed(written)),
                  counted(static_cast<int>(report.keys[1].bar), "bar"))};
  const std::vector<std::string> moved = moved_sentences(report);
  std::string same = "The line is the same in every key, in the octave that the range has for it";
  if (!own.empty())
    same += fmt::format("; in {} too much of it would leave the range, so there it is another line", listed(own));
  text.push_back(same + ".");
  if (moved.empty()) return text;
  text.emplace_back(
      "What would leave the range lies an octave away, with the notes that go with it (bars as the sheet counts "
      "them):");
  text.insert(text.end(), moved.begin(), moved.end());
  return text;
}

/// What could not be given as asked; of a sheet through all keys, in the first and in those with a line of their own.
std::vector<std::string> remarks_of(const DrillReport& report) {
  std::vector<std::string> remarks;
  for (const std::string& remark : report.drill.remarks)
    remarks.push_back(report.keys.empty() ? remark : fmt::format("In the first key: {}", remark));
  for (const KeyStart& start : report.keys)
    for (const std::string& remark : start.remarks)
      remarks.push_back(fmt::format("In {}, counted from its first bar: {}", to_string(start.key), remark));
  return remarks;
}

/// What was counted. An enclosing note that the sounding chord has is called a chord tone by an analysis of the sheet,
/// so enclosures are told by where the notes lie.
std::string checked_words(DrillKind kind) {
  switch (kind) {
    case DrillKind::guide_tones: return "Analysed like a solo, this sheet has such a tone in";
    case DrillKind::enclosures:
      return "Counted on the finished sheet, a note above and a note below lead into the third at";
    case DrillKind::nearest_tones:
    case DrillKind::common_tones:
    case DrillKind::arpeggios:
    case DrillKind::cells:
    case DrillKind::descents: return "Analysed like a solo, this sheet does so at";
  }
  return {};
}

/// "Analysed like a solo, this sheet does so at 43 of 43 changes."
std::string checked_sentence(const AimCheck& aim, DrillKind kind) {
  std::string text = fmt::format("{} {} of {}", checked_words(kind), aim.kept.count,
                                 counted(aim.kept.of, kind == DrillKind::guide_tones ? "note" : "change"));
  if (!aim.missed.empty()) {
    std::vector<std::string> bars;
    for (const int bar : aim.missed) bars.push_back(std::to_string(bar));
    text += fmt::format("; not in {} {}", bars.size() == 1 ? "bar" : "bars", listed(bars));
  }
  if (kind != DrillKind::enclosures) return text + ".";
  return text + ". Where the sounding chord has such a note, an analysis may call it a chord tone.";
}

PlanSection what_section(const DrillReport& report) {
  PlanSection section{"What to play", what_it_is(report.settings)};
  if (report.settings.tones_a_bar)
    section.paragraphs.push_back(
        fmt::format("{} a bar, and at least one for every chord.", counted(*report.settings.tones_a_bar, "tone")));
  if (report.aim && report.aim->kept.of > 0)
    section.paragraphs.push_back(checked_sentence(*report.aim, report.settings.kind));
  section.paragraphs.push_back(range_sentence(report));
  for (std::string& sentence : key_sentences(report)) section.paragraphs.push_back(std::move(sentence));
  if (std::string choices = choices_sentence(report); !choices.empty())
    section.paragraphs.push_back(std::move(choices));
  for (std::string& remark : remarks_of(report)) section.paragraphs.push_back(std::move(remark));
  return section;
}

PlanSection ladder_section(const DrillReport& report) {
  std::vector<std::string> steps;
  for (const int bpm : tempo_ladder(report.goal_bpm)) steps.push_back(std::to_string(bpm));
  return {"Tempo ladder",
          {fmt::format("Quarter note = {}.", listed(steps)),
           "Begin at the first. Play the sheet through without stopping to correct. A mistake is a note that comes out "
           "wrong or not at all; count them."}};
}

/// How few mistakes show that a sheet of so many notes is ready, and how many that it is not.
PlanSection moving_on_section(const Drill& drill) {
  const int bound = ReadyBounds{}.from_a_sheet;
  const auto once = static_cast<int>(std::ranges::count(drill.solo.notes, false, &Note::grace));
  int times = 1;
  while (once > 0 && !most_mistakes_when_ready(times * once, bound)) ++times;
  const int notes = times * once;
  const std::string counted_over =
      times == 1 ? "." : fmt::format(", too few to tell: play it {} times in a row and count over all.", times);
  return {"When to move on",
          {fmt::format("The sheet has {}{} It is ready with {}: then you surely miss less than one note in {}.",
                       counted(once, "note"), counted_over,
                       at_most_mistakes(most_mistakes_when_ready(notes, bound).value_or(0)), bound),
           fmt::format("Ready on two different days: take the next step. {} mistakes or more: take one step back. In "
                       "between, stay.",
                       fewest_mistakes_when_not_ready(notes, bound).value_or(notes)),
           "At the top of the ladder, put the sheet away and play it from the chord symbols alone."}};
}

}  // namespace

std::string drill_name(const DrillSettings& settings) {
  std::string text = figure_words(settings);
  if (settings.kind == DrillKind::guide_tones) return text;
  if (settings.tones_a_bar) return fmt::format("{}, {} a bar", text, counted(*settings.tones_a_bar, "tone"));
  return fmt::format("{}, {}", text, rhythm_words(settings.rhythm));
}

std::vector<int> tempo_ladder(double goal_bpm) {
  constexpr std::array shares{0.5, 0.6, 0.7, 0.8, 0.9, 1.0};
  std::vector<int> ladder;
  for (const double share : shares) {
    const int bpm = static_cast<int>(std::lround(goal_bpm * share));
    if (ladder.empty() || bpm > ladder.back()) ladder.push_back(bpm);
  }
  return ladder;
}

std::string caution_line() {
  return "Stop and rest before you tire, and mind the volume, also in headphones. With pain, numbness or ringing ears, "
         "stop and ask your teacher or a physician.";
}

std::string caution_words() {
  return "Many repetitions of one movement load hands, lips and ears. Short spells with rests teach as much as long "
         "ones. " +
         caution_line();
}

std::string recording_line() {
  return "Record a take with a telephone a metre away, and let it run on: four clicks of the tongue or a stick in the "
         "tempo, then the sheet. Chords and clicks only in headphones, softly, as loud sound harms hearing: the "
         "recording "
         "must hold the instrument alone. Save it as WAV, FLAC or Ogg; insideline assess tells what was right.";
}

std::vector<PlanSection> drill_plan(const DrillReport& report) {
  std::vector<PlanSection> sections;
  if (!report.why.empty()) sections.push_back({"Why this sheet", report.why});
  sections.push_back(what_section(report));
  sections.push_back(ladder_section(report));
  sections.push_back(moving_on_section(report.drill));
  sections.push_back({"To have it assessed", {recording_line()}});
  sections.push_back({std::string(caution_heading), {caution_words()}});
  return sections;
}

std::string drill_plan_text(const DrillReport& report) {
  std::string text =
      paragraph(printable(fmt::format("{}: {}", report.drill.solo.title, drill_name(report.settings))), 0);
  for (const PlanSection& section : drill_plan(report)) {
    text += "\n" + section.heading + "\n";
    for (const std::string& sentence : section.paragraphs) text += paragraph(printable(sentence));
  }
  return text;
}

}  // namespace insideline::reports
