#include "reports/printed/text_rows.hpp"

#include "reports/printed/chord_markup.hpp"
#include "reports/printed/lilypond_text.hpp"
#include "reports/printed/signs.hpp"
#include "reports/text/marks.hpp"

#include <fmt/format.h>

#include <functional>
#include <map>
#include <optional>
#include <vector>

namespace insideline::reports {
namespace {

/// A text at a place of a bar; the place counts from the start of the bar.
struct Entry {
  Beats place;
  std::string before;  ///< calls in front of the text
  std::string markup;
  std::string after;  ///< calls attached to it
};

/// One bar of a row: each entry lasts to the next, the last to the end of the bar.
std::string row_of_bar(const std::vector<Entry>& entries, const Beats& length) {
  const Beats first = entries.empty() ? length : entries.front().place;
  std::string text = first > Beats(0) ? fmt::format("\\skip {} ", lilypond_length(first)) : "";
  for (std::size_t index = 0; index < entries.size(); ++index) {
    const Entry& entry = entries[index];
    const Beats end = index + 1 < entries.size() ? entries[index + 1].place : length;
    text +=
        fmt::format("{}\\markup {} {}{} ", entry.before, entry.markup, lilypond_length(end - entry.place), entry.after);
  }
  return text;
}

using EntriesOfBar = std::function<std::vector<Entry>(const WrittenBar&)>;

std::string row(const Sheet& sheet, std::span<const WrittenBar> bars, const EntriesOfBar& entries_of) {
  std::string text;
  for (const WrittenBar& bar : bars)
    text += fmt::format("  % bar {}\n  {}\n", sheet.report.solo.bars[bar.bar].number,
                        row_of_bar(entries_of(bar), bar.length));
  return text;
}

/// The chord that sounds at the start of a sheet is repeated there, and N.C. stands where
/// chords stop; not before the first of them, where no one has said anything yet.
std::vector<Entry> chords_of_bar(const Sheet& sheet, const Bar& bar) {
  const Harmony& harmony = sheet.report.analysis.harmony;
  const Interval shift = to_printed_pitch(sheet);
  const bool opens_sheet = bar.onset == sheet.excerpt.onset;
  const Beats end = bar.onset + bar.length;
  std::map<Beats, std::string> texts;
  for (std::size_t index = 0; index < harmony.chords.size(); ++index) {
    const SoundingChord& sounding = harmony.chords[index];
    const Beats stops = sounding.onset + sounding.duration;
    const bool sounds_on = opens_sheet && sounding.onset < bar.onset && stops > bar.onset;
    if (sounds_on || (sounding.onset >= bar.onset && sounding.onset < end))
      texts[std::max(sounding.onset, bar.onset)] = chord_markup(transposed(sounding.chord, shift));
    const bool is_gap = index + 1 == harmony.chords.size() || harmony.chords[index + 1].onset > stops;
    if (is_gap && stops >= bar.onset && stops < end) texts.emplace(stops, "\\no-chord");
  }
  if (opens_sheet && texts.empty() && !harmony.chords.empty() && bar.onset > harmony.chords.front().onset)
    texts.emplace(bar.onset, "\\no-chord");
  std::vector<Entry> entries;
  for (const auto& [onset, markup] : texts) entries.push_back({onset - bar.onset, "", markup, ""});
  return entries;
}

/// An arrow runs from degree to degree; where the line of music ends between them, it stands before the second.
struct Arrow {
  std::size_t to = 0;
  bool is_guide_tone = false;
  bool over_line_end = false;
};

std::map<std::size_t, Arrow> arrows_of(const Sheet& sheet, const LinePlan& plan, const Marks& marks) {
  const auto line_of_note = [&](std::size_t note) {
    return line_of(plan, bar_index_at(sheet.report.solo, sheet.report.solo.notes[note].onset));
  };
  std::map<std::size_t, Arrow> arrows;
  for (const Connection* connection : drawn_connections(sheet)) {
    const auto mark = marks.arrows.find(*connection->from_note);
    if (mark == marks.arrows.end()) continue;
    arrows[mark->first] = {*connection->to_note, mark->second,
                           line_of_note(mark->first) != line_of_note(*connection->to_note)};
  }
  return arrows;
}

class PrintedDegrees {
 public:
  PrintedDegrees(const Sheet& sheet, const LinePlan& plan, const Marks& marks)
      : sheet_(sheet), marks_(marks), arrows_(arrows_of(sheet, plan, marks)) {}

  std::vector<Entry> entries_of(const WrittenBar& written) {
    std::vector<Entry> entries;
    Beats place;
    for (const WrittenGroup& group : written.groups) {
      for (const WrittenSymbol& symbol : group.symbols) {
        if (symbol.note && symbol.struck && marks_.degrees.contains(*symbol.note))
          entries.push_back(entry_of(place, *symbol.note));
        place += length_of(symbol.value) * Beats(group.in_time_of, group.notes);
      }
    }
    return entries;
  }

 private:
  Entry entry_of(const Beats& place, std::size_t note) {
    std::string markup = degree_markup(sheet_.report.analysis.labels[note]);
    if (arriving_ && arriving_->to == note)
      markup = fmt::format("\\reached #{} {}", arriving_->is_guide_tone ? "0.3" : "0.1", markup);
    arriving_.reset();
    const auto arrow = arrows_.find(note);
    if (arrow == arrows_.end()) return {place, "", markup, ""};
    if (arrow->second.over_line_end) {
      arriving_ = arrow->second;
      return {place, "", markup, ""};
    }
    return {place, arrow->second.is_guide_tone ? "\\guide " : "", markup, " \\connection"};
  }

  const Sheet& sheet_;
  const Marks& marks_;
  std::map<std::size_t, Arrow> arrows_;
  std::optional<Arrow> arriving_;
};

}  // namespace

std::string chord_row(const Sheet& sheet, std::span<const WrittenBar> bars) {
  return row(sheet, bars,
             [&](const WrittenBar& written) { return chords_of_bar(sheet, sheet.report.solo.bars[written.bar]); });
}

std::string degree_row(const Sheet& sheet, std::span<const WrittenBar> bars, const LinePlan& plan, const Marks& marks) {
  PrintedDegrees degrees(sheet, plan, marks);
  return row(sheet, bars, [&](const WrittenBar& written) { return degrees.entries_of(written); });
}

std::string motion_row(const Sheet& sheet, std::span<const WrittenBar> bars, const Marks& marks) {
  return row(sheet, bars, [&](const WrittenBar& written) {
    std::vector<Entry> entries;
    Beats place;
    for (const WrittenGroup& group : written.groups)
      for (const WrittenSymbol& symbol : group.symbols) {
        if (symbol.note && symbol.struck && marks.motions.contains(*symbol.note))
          entries.push_back(
              {place, "",
               fmt::format("\\motion \"{}\"", abbreviation(sheet.report.analysis.labels[*symbol.note].figure)), ""});
        place += length_of(symbol.value) * Beats(group.in_time_of, group.notes);
      }
    return entries;
  });
}

}  // namespace insideline::reports
