#include "reports/printed/text_rows.hpp"

#include "reports/printed/chord_markup.hpp"
#include "reports/printed/lilypond_text.hpp"
#include "reports/printed/signs.hpp"

#include <fmt/format.h>

#include <functional>
#include <map>
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

/// The next note with a degree under it; none at the end.
std::optional<std::size_t> next_printed(const Sheet& sheet, std::size_t note) {
  for (std::size_t next = note + 1; next < sheet.report.solo.notes.size(); ++next)
    if (!sheet.report.solo.notes[next].grace) return is_printed_note(sheet, next) ? std::optional(next) : std::nullopt;
  return std::nullopt;
}

/// The connections that an arrow can show, by the note they leave.
std::map<std::size_t, const Connection*> arrows(const Sheet& sheet) {
  std::map<std::size_t, const Connection*> result;
  for (const Connection& connection : sheet.report.analysis.connections) {
    if (connection.kind == ConnectionKind::none || !connection.from_note || !connection.to_note) continue;
    if (is_printed_note(sheet, *connection.from_note) &&
        next_printed(sheet, *connection.from_note) == connection.to_note)
      result[*connection.from_note] = &connection;
  }
  return result;
}

}  // namespace

std::string chord_row(const Sheet& sheet, std::span<const WrittenBar> bars) {
  return row(sheet, bars,
             [&](const WrittenBar& written) { return chords_of_bar(sheet, sheet.report.solo.bars[written.bar]); });
}

std::string degree_row(const Sheet& sheet, std::span<const WrittenBar> bars) {
  const auto connections = arrows(sheet);
  return row(sheet, bars, [&](const WrittenBar& written) {
    std::vector<Entry> entries;
    Beats place;
    for (const WrittenGroup& group : written.groups) {
      for (const WrittenSymbol& symbol : group.symbols) {
        if (symbol.note && symbol.struck) {
          const auto connection = connections.find(*symbol.note);
          const bool crosses = connection != connections.end();
          entries.push_back({place, crosses && connection->second->guide_tone ? "\\guide " : "",
                             degree_markup(sheet.report.analysis.labels[*symbol.note]),
                             crosses ? " \\connection" : ""});
        }
        place += length_of(symbol.value) * Beats(group.in_time_of, group.notes);
      }
    }
    return entries;
  });
}

}  // namespace insideline::reports
