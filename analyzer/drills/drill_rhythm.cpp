#include "analyzer/drills/drill_rhythm.hpp"

#include "analyzer/metre.hpp"

#include <algorithm>
#include <array>

namespace insideline {
namespace {

constexpr std::size_t enclosing_places = 3;  // a tone of the chord, and the two that enclose

/// A stretch of time to be filled.
struct Room {
  Beats onset;
  Beats end;
};

std::vector<Slot> even_slots(const Room& room, const Beats& step) {
  std::vector<Slot> slots;
  for (Beats at = room.onset; at < room.end; at += step) slots.push_back({at, std::min(step, room.end - at)});
  return slots;
}

/// Quarter and eighth in turn, counted from the beginning of the form and cut at the chord's end.
std::vector<Slot> three_over_four(const Room& room) {
  const Beats group = Beats(3, 2);
  std::vector<Slot> slots;
  const auto add = [&](const Beats& onset, const Beats& length) {
    if (onset >= room.onset && onset < room.end) slots.push_back({onset, std::min(length, room.end - onset)});
  };
  for (Beats at = group * whole_units(room.onset, group); at < room.end; at += group) {
    add(at, Beats(1));
    add(at + 1, Beats(1, 2));
  }
  return slots;
}

/// Half a beat late; the first half beat is silent. A room of half a beat is too short for that.
std::vector<Slot> off_beat(const Room& room) {
  const Beats late = Beats(1, 2);
  if (room.end - room.onset <= late) return even_slots(room, late);
  return even_slots({room.onset + late, room.end}, late);
}

std::vector<Slot> slots_in(const Room& room, DrillRhythm rhythm, const Meter& meter) {
  switch (rhythm) {
    case DrillRhythm::quarters: return even_slots(room, felt_beat(meter));
    case DrillRhythm::eighths: return even_slots(room, Beats(1, 2));
    case DrillRhythm::triplets: return even_slots(room, felt_beat(meter) / 3);
    case DrillRhythm::off_beat: return off_beat(room);
    case DrillRhythm::three_over_four: {
      std::vector<Slot> slots = three_over_four(room);
      return slots.empty() ? even_slots(room, room.end - room.onset) : slots;
    }
  }
  return {};
}

std::size_t whole_slots(const std::vector<Slot>& slots, const Beats& last_end) {
  return static_cast<std::size_t>(
      std::ranges::count_if(slots, [&](const Slot& slot) { return slot.onset + slot.duration <= last_end; }));
}

/// The first `count` places; where the rhythm has too few of them, the widest finer division that has enough.
std::vector<Slot> places_for(const Room& room, const Beats& last_end, std::size_t count, const DrillSettings& settings,
                             const Meter& meter) {
  const auto first_of = [&](std::vector<Slot> slots) {
    slots.resize(std::min(slots.size(), count));
    return slots;
  };
  const std::size_t enough = std::min<std::size_t>(count, 3);
  std::vector<Slot> slots = slots_in(room, settings.rhythm, meter);
  while (!slots.empty() && slots.back().onset + slots.back().duration > last_end) slots.pop_back();
  if (slots.size() >= enough) return first_of(std::move(slots));
  for (const Beats& step : {Beats(1), Beats(1, 2), Beats(1, 3), Beats(1, 4), Beats(1, 6), Beats(1, 8)}) {
    slots = even_slots(room, step);
    slots.resize(whole_slots(slots, last_end));
    if (slots.size() >= enough) return first_of(std::move(slots));
  }
  return first_of(even_slots(room, (room.end - room.onset) / static_cast<std::int64_t>(count)));
}

/// `slots`, or where they are fewer than `least` the widest even division of the room that has as many.
std::vector<Slot> at_least(std::size_t least, std::vector<Slot> slots, const Room& room) {
  for (const Beats& step : {Beats(1, 2), Beats(1, 3), Beats(1, 4), Beats(1, 6), Beats(1, 8)}) {
    if (slots.size() >= least) return slots;
    slots = even_slots(room, step);
  }
  if (slots.size() >= least) return slots;
  return even_slots(room, (room.end - room.onset) / static_cast<std::int64_t>(least));
}

/// One long tone a voice, one voice after the other; the second begins on a beat if it can.
std::vector<Slot> shared_among(int voices, const Room& room, const Meter& meter) {
  if (voices == 1) return {{room.onset, room.end - room.onset}};
  const Beats beat = felt_beat(meter);
  const Beats length = room.end - room.onset;
  Beats first = beat * whole_units(length / 2 + beat / 2, beat);
  if (first == Beats(0) || first >= length) first = length / 2;
  return {{room.onset, first}, {room.onset + first, length - first}};
}

/// The tone that is led to, then `tones` places that end where the chord does. Where the room is wide, the first is
/// held until a beat before the others.
std::vector<Slot> descent_slots(const Room& room, std::size_t tones, const DrillSettings& settings,
                                const Meter& meter) {
  constexpr std::size_t fewest = 4;  // a tone, and an arpeggio of three
  std::vector<Slot> slots = at_least(fewest, slots_in(room, settings.rhythm, meter), room);
  const std::size_t down = std::min(tones, slots.size() - 1);
  slots.erase(slots.begin() + 1, slots.end() - static_cast<std::ptrdiff_t>(down));
  const Beats rest = felt_beat(meter);
  const Beats free = slots[1].onset - slots[0].onset;
  slots[0].duration = free > rest ? free - rest : free;
  return slots;
}

/// `count` places in a bar: each of its chords first gets one, then the longest stretch is halved, on the beat if it
/// can be.
std::vector<Beats> sparse_onsets(const Bar& bar, std::vector<Beats> onsets, std::size_t count) {
  const Beats beat = felt_beat(bar.meter);
  while (onsets.size() < count) {
    std::size_t widest = 0;
    const auto end_after = [&](std::size_t at) {
      return at + 1 < onsets.size() ? onsets[at + 1] : bar.onset + bar.length;
    };
    for (std::size_t at = 1; at < onsets.size(); ++at)
      if (end_after(at) - onsets[at] > end_after(widest) - onsets[widest]) widest = at;
    const Beats length = end_after(widest) - onsets[widest];
    Beats half = beat * whole_units(length / 2 + beat / 2, beat);
    if (half == Beats(0) || half >= length) half = length / 2;
    onsets.insert(onsets.begin() + static_cast<std::ptrdiff_t>(widest) + 1, onsets[widest] + half);
  }
  return onsets;
}

/// Sparse places of all segments of one bar.
void fill_sparsely(const Bar& bar, std::span<DrillSegment> segments, std::span<const Room> rooms,
                   const DrillSettings& settings) {
  std::vector<Beats> onsets;
  for (const Room& room : rooms) onsets.push_back(room.onset);
  onsets = sparse_onsets(bar, std::move(onsets), static_cast<std::size_t>(settings.tones_a_bar.value_or(1)));
  const Beats late = settings.rhythm == DrillRhythm::off_beat ? Beats(1, 2) : Beats(0);
  for (std::size_t i = 0; i < segments.size(); ++i) {
    for (const Beats& onset : onsets) {
      if (onset < rooms[i].onset || onset >= rooms[i].end) continue;
      std::vector<Slot>& slots = segments[i].slots;
      const Beats at = onset + late < rooms[i].end ? onset + late : onset;
      if (!slots.empty()) slots.back().duration = at - slots.back().onset;
      slots.push_back({at, rooms[i].end - at});
    }
  }
}

/// The segments, still without places, and the room each has.
void cut_into_segments(const Solo& bars, const Harmony& harmony, std::vector<DrillSegment>& segments,
                       std::vector<Room>& rooms) {
  for (std::size_t index = 0; index < harmony.chords.size(); ++index) {
    const SoundingChord& sounding = harmony.chords[index];
    const Beats end = sounding.onset + sounding.duration;
    for (std::size_t bar = bar_index_at(bars, sounding.onset); bar < bars.bars.size(); ++bar) {
      const Room room{std::max(sounding.onset, bars.bars[bar].onset),
                      std::min(end, bars.bars[bar].onset + bars.bars[bar].length)};
      if (room.onset >= room.end) break;
      DrillSegment segment{.chord = index, .bar = bar, .chorus = sounding.chorus, .slots = {}};
      if (!segments.empty() && rooms.back().end == room.onset) {
        DrillSegment& before = segments.back();
        segment.goes_on = harmony.chords[before.chord].stretch == sounding.stretch;
        segment.is_change = !segment.goes_on;
        before.comes_on = segment.goes_on;
        if (segment.is_change) before.leads_to = index;
      }
      segments.push_back(segment);
      rooms.push_back(room);
    }
  }
}

}  // namespace

std::vector<DrillSegment> segments_of(const Solo& bars, const Harmony& harmony, const DrillSettings& settings,
                                      const std::vector<std::size_t>& wanted_tones) {
  std::vector<DrillSegment> segments;
  std::vector<Room> rooms;
  cut_into_segments(bars, harmony, segments, rooms);
  for (std::size_t first = 0; first < segments.size();) {
    std::size_t end = first + 1;
    while (end < segments.size() && segments[end].bar == segments[first].bar) ++end;
    const Bar& bar = bars.bars[segments[first].bar];
    const std::size_t wanted = wanted_tones[segments[first].chord];
    if (wanted == 0 && settings.tones_a_bar) {
      fill_sparsely(bar, std::span(segments).subspan(first, end - first), std::span(rooms).subspan(first, end - first),
                    settings);
      first = end;
      continue;
    }
    const Room& room = rooms[first];
    if (settings.kind == DrillKind::guide_tones) {
      segments[first].slots = shared_among(settings.voices, room, bar.meter);
    } else if (settings.kind == DrillKind::descents) {
      segments[first].slots = descent_slots(room, wanted, settings, bar.meter);
    } else if (wanted == 0) {
      segments[first].slots = slots_in(room, settings.rhythm, bar.meter);
      if (settings.kind == DrillKind::enclosures && segments[first].leads_to)
        segments[first].slots = at_least(enclosing_places, std::move(segments[first].slots), room);
    } else {
      // A rest of a beat parts two figures over one chord, or the ear takes them for one.
      const Beats rest = segments[first].comes_on ? felt_beat(bar.meter) : Beats(0);
      const Beats last_end = room.end - room.onset > rest ? room.end - rest : room.end;
      segments[first].slots = places_for(room, last_end, wanted, settings, bar.meter);
    }
    ++first;
  }
  return segments;
}

std::vector<DrillSegment> cell_segments_of(const Solo& bars, const Harmony& harmony, const DrillSettings& settings,
                                           std::size_t tones) {
  std::vector<DrillSegment> cut;
  std::vector<Room> rooms;
  cut_into_segments(bars, harmony, cut, rooms);
  std::vector<DrillSegment> segments;
  for (std::size_t i = 0; i < cut.size(); ++i) {
    const Bar& bar = bars.bars[cut[i].bar];
    bool begins = !cut[i].goes_on;
    for (const Slot& slot : slots_in(rooms[i], settings.rhythm, bar.meter)) {
      if (begins || segments.empty() || segments.back().slots.size() == tones) {
        DrillSegment cell = cut[i];
        cell.goes_on = !begins;
        cell.is_change = begins && cut[i].is_change;
        segments.push_back(cell);
      }
      begins = false;
      segments.back().slots.push_back(slot);
    }
  }
  return segments;
}

}  // namespace insideline
