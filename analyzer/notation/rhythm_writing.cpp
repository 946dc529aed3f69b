#include "analyzer/notation/rhythm_writing.hpp"

#include "analyzer/notation/bar_regions.hpp"
#include "analyzer/notation/note_values.hpp"

#include <algorithm>

namespace insideline {
namespace {

/// A note, or silence, within one bar; times from the start of the full bar.
struct Span {
  Beats onset;
  Beats end;
  std::optional<std::size_t> note;
  bool struck = true;  ///< begins here, and not in a bar before
  bool held = false;   ///< sounds on in the next bar
};

/// Where the bar would begin if it were full: a pickup is counted back from the bar line.
Beats full_bar_onset(const Bar& bar) {
  return bar.number == 0 ? bar.onset + bar.length - bar_length(bar.meter) : bar.onset;
}

/// The struck notes with the time until which each is written, in order; grace notes are none of them.
struct Line {
  std::vector<std::size_t> notes;
  std::vector<Beats> ends;
};

Line line_of(const Solo& solo) {
  Line line;
  for (std::size_t note = 0; note < solo.notes.size(); ++note) {
    if (solo.notes[note].grace) continue;
    if (!line.ends.empty()) line.ends.back() = std::min(line.ends.back(), solo.notes[note].onset);
    line.notes.push_back(note);
    line.ends.push_back(std::min(end_of(solo.notes[note]), end_of(solo)));
  }
  return line;
}

/// The bar's notes with the silences between them, from its start to `bar_end`.
std::vector<Span> spans_of(const Solo& solo, const Line& line, const Bar& bar, const Beats& bar_end) {
  std::vector<Span> spans;
  const Beats zero = full_bar_onset(bar);
  Beats at = bar.onset;
  const auto first = std::ranges::upper_bound(line.ends, bar.onset);
  for (auto index = static_cast<std::size_t>(first - line.ends.begin()); index < line.notes.size(); ++index) {
    const Beats onset = std::max(solo.notes[line.notes[index]].onset, bar.onset);
    const Beats end = std::min(line.ends[index], bar.onset + bar.length);
    if (onset >= bar.onset + bar.length) break;
    if (onset >= end) continue;
    if (at < onset) spans.push_back({at - zero, onset - zero, std::nullopt});
    spans.push_back({onset - zero, end - zero, line.notes[index], solo.notes[line.notes[index]].onset >= bar.onset,
                     line.ends[index] > end});
    at = end;
  }
  if (at < bar_end) spans.push_back({at - zero, bar_end - zero, std::nullopt});
  return spans;
}

/// The spans moved to places that notation has; a note that loses all its length is left out.
std::vector<Span> writable(const std::vector<Span>& spans, const Beats& beat) {
  std::vector<Beats> places{spans.front().onset};
  for (const Span& span : spans) places.push_back(span.end);
  const std::vector<Beats> moved = writable_places(places, beat);
  std::vector<Span> result;
  for (std::size_t index = 0; index < spans.size(); ++index) {
    if (moved[index] >= moved[index + 1]) continue;
    result.push_back(spans[index]);
    result.back().onset = moved[index];
    result.back().end = moved[index + 1];
  }
  return result;
}

/// The values of one span within one region.
std::vector<NoteValue> values_of(const Span& span, const Region& region, const Meter& meter) {
  const Sounding sounding = span.note ? Sounding::note : Sounding::rest;
  const Beats onset = std::max(span.onset, region.onset);
  const Beats end = std::min(span.end, region.end);
  if (region.notes == region.in_time_of) return values_in_bar(meter, sounding, onset, end);
  return values_in_tuplet(sounding, (end - onset) * Beats(region.notes, region.in_time_of));
}

WrittenGroup group_of(const Region& region, const std::vector<Span>& spans, const Meter& meter) {
  WrittenGroup group{region.notes, region.in_time_of, {}};
  for (const Span& span : spans) {
    if (span.end <= region.onset || span.onset >= region.end) continue;
    bool struck = span.struck && span.onset >= region.onset;
    for (const NoteValue& value : values_of(span, region, meter)) {
      group.symbols.push_back({span.note, value, struck, span.note.has_value(), {}, {}});
      struck = false;
    }
    if (span.end <= region.end) group.symbols.back().tied = span.held;
  }
  return group;
}

WrittenBar written_bar(const Solo& solo, const Line& line, std::size_t index) {
  const Bar& bar = solo.bars[index];
  const Beats zero = full_bar_onset(bar);
  WrittenBar written{index, zero + rounded_up(bar.onset + bar.length - zero) - bar.onset, {}};
  const std::vector<Span> found = spans_of(solo, line, bar, bar.onset + written.length);
  if (std::ranges::none_of(found, [](const Span& span) { return span.note.has_value(); })) return written;
  const Beats beat = reading_beat(bar.meter);
  const std::vector<Span> spans = writable(found, beat);
  std::vector<Beats> places{spans.front().onset};
  for (const Span& span : spans) places.push_back(span.end);
  for (const Region& region : regions_of(places, beat)) written.groups.push_back(group_of(region, spans, bar.meter));
  return written;
}

/// Each grace note goes before the next struck note, or, where none follows, with the last one.
void add_grace_notes(const Solo& solo, std::vector<WrittenBar>& bars) {
  std::vector<std::size_t> waiting;
  std::size_t next = 0;
  WrittenSymbol* last = nullptr;
  const auto take_up_to = [&](std::size_t end) {
    for (; next < end; ++next)
      if (solo.notes[next].grace) waiting.push_back(next);
  };
  for (WrittenBar& bar : bars) {
    for (WrittenGroup& group : bar.groups) {
      for (WrittenSymbol& symbol : group.symbols) {
        if (!symbol.note || !symbol.struck) continue;
        take_up_to(*symbol.note);
        symbol.grace_notes = std::move(waiting);
        waiting.clear();
        last = &symbol;
      }
    }
  }
  take_up_to(solo.notes.size());
  if (last != nullptr) last->grace_notes_after = std::move(waiting);
}

}  // namespace

std::vector<WrittenBar> written_rhythm(const Solo& solo) {
  const Line line = line_of(solo);
  std::vector<WrittenBar> bars;
  for (std::size_t index = 0; index < solo.bars.size(); ++index) bars.push_back(written_bar(solo, line, index));
  add_grace_notes(solo, bars);
  return bars;
}

}  // namespace insideline
