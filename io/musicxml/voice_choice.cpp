#include "io/musicxml/voice_choice.hpp"

#include "analyzer/small_letters.hpp"
#include "io/musicxml/numbers.hpp"
#include "io/read_result.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>
#include <vector>

namespace insideline::io {
namespace {

/// Out of a hundred notes, this many may belong to a chord or another voice in a part that still counts as one line.
constexpr std::size_t most_extra_notes_percent = 10;
constexpr std::size_t most_names_listed = 12;

std::size_t melody_notes(const Voice& voice) {
  const std::size_t extra = std::max(voice.chord_members, voice.hidden);
  return voice.notes - extra;
}

std::size_t all_notes(const WrittenPart& part) {
  std::size_t notes = 0;
  for (const Voice& voice : part.voices) notes += voice.notes;
  return notes;
}

std::size_t best_voice(const WrittenPart& part) {
  std::size_t most = 0;
  for (const Voice& voice : part.voices) most = std::max(most, melody_notes(voice));
  std::size_t best = part.voices.size();
  for (std::size_t i = 0; i < part.voices.size(); ++i) {
    const Voice& voice = part.voices[i];
    if (melody_notes(voice) * 2 < most) continue;
    if (best == part.voices.size() ||
        voice.chord_members * part.voices[best].notes < part.voices[best].chord_members * voice.notes)
      best = i;
  }
  return best;
}

/// Notes beside the best line, out of a hundred.
std::size_t extra_percent(const WrittenPart& part) {
  const std::size_t notes = all_notes(part);
  return notes == 0 ? 100 : (notes - melody_notes(part.voices[best_voice(part)])) * 100 / notes;
}

struct Stretch {
  Beats begin;
  Beats end;
  bool other = false;  ///< of the voice that may join
};

/// Whether notes of the two voices sound together in the measure.
bool clash_in(const WrittenPart& part, const WrittenMeasure& measure, std::size_t line, std::size_t other) {
  std::vector<Stretch> stretches;
  for (std::size_t i = measure.first_note; i < measure.end_note; ++i) {
    const WrittenNote& note = part.notes[i];
    if (note.voice == line || note.voice == other)
      stretches.push_back({note.position, note.position + note.duration, note.voice == other});
  }
  std::ranges::sort(stretches, {}, &Stretch::begin);
  std::array<Beats, 2> sounds_until{};
  for (const Stretch& stretch : stretches) {
    if (stretch.begin < sounds_until.at(stretch.other ? 0 : 1)) return true;
    Beats& until = sounds_until.at(stretch.other ? 1 : 0);
    until = std::max(until, stretch.end);
  }
  return false;
}

template <typename Item, typename Name>
std::string listed(std::span<const Item> items, Name name) {
  std::string text;
  for (std::size_t i = 0; i < items.size() && i < most_names_listed; ++i)
    text += fmt::format("{}{}", i == 0 ? "" : ", ", name(i, items[i]));
  return items.size() > most_names_listed ? text + " ..." : text;
}

}  // namespace

std::size_t part_named(std::span<const PartSource> parts, const std::string& wanted, const ScoreDocument& document) {
  for (std::size_t i = 0; i < parts.size(); ++i)
    if (same_but_for_capitals(parts[i].name, wanted)) return i;
  if (const auto number = parse_int(wanted);
      number && *number >= 1 && static_cast<std::size_t>(*number) <= parts.size())
    return static_cast<std::size_t>(*number) - 1;
  for (std::size_t i = 0; i < parts.size(); ++i)
    if (same_but_for_capitals(parts[i].id, wanted)) return i;
  const std::string names =
      listed(parts, [](std::size_t i, const PartSource& part) { return fmt::format("{} \"{}\"", i + 1, part.name); });
  throw ReadError(place_of(document.file_name()),
                  fmt::format("there is no part \"{}\"; the score has {}", wanted, names));
}

TakenPart melodic_part(std::span<const WrittenPart> parts, const ScoreDocument& document) {
  const auto with_notes = std::ranges::count_if(parts, [](const WrittenPart& part) { return !part.notes.empty(); });
  std::size_t best = parts.size();
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (all_notes(parts[i]) == 0) continue;
    if (with_notes == 1) return {i, PartTaken::only_one};
    if (extra_percent(parts[i]) <= most_extra_notes_percent) return {i, PartTaken::first_line};
    if (best == parts.size() || extra_percent(parts[i]) < extra_percent(parts[best])) best = i;
  }
  if (best == parts.size())
    throw ReadError(document.place(document.root()),
                    "there is no note with a pitch in this score; is it the right file?");
  return {best, PartTaken::nearest_line};
}

std::size_t solo_voice(const WrittenPart& part, const std::optional<std::string>& wanted,
                       const ScoreDocument& document) {
  if (all_notes(part) == 0)
    throw ReadError(document.place(part.measures.front().offset_bytes),
                    fmt::format("there is no note with a pitch in the part \"{}\"; --part chooses another", part.name));
  if (!wanted) return best_voice(part);
  for (std::size_t i = 0; i < part.voices.size(); ++i)
    if (part.voices[i].name == *wanted) return i;
  const std::string names =
      listed(std::span<const Voice>(part.voices), [](std::size_t, const Voice& voice) { return voice.name; });
  throw ReadError(document.place(part.measures.front().offset_bytes),
                  fmt::format("the part \"{}\" has no voice {}; it has {}", part.name, *wanted, names));
}

void join_voices(WrittenPart& part, std::size_t voice, Notices& notices) {
  for (std::size_t other = 0; other < part.voices.size(); ++other) {
    Voice& joining = part.voices[other];
    const auto clashes = [&](const WrittenMeasure& measure) { return clash_in(part, measure, voice, other); };
    if (other == voice || melody_notes(joining) < joining.notes || std::ranges::any_of(part.measures, clashes))
      continue;
    for (WrittenNote& note : part.notes)
      if (note.voice == other) note.voice = static_cast<std::uint16_t>(voice);
    notices.add(Oddity::joined_voices, part.measures.front().offset_bytes, {}, joining.notes);
    part.voices[voice].notes += std::exchange(joining.notes, 0);
  }
}

}  // namespace insideline::io
