#include "io/musicxml/notices.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <iterator>

namespace insideline::io {
namespace {

constexpr std::size_t most_bars_named = 5;

/// `one` and `many` for one occurrence and for several; {} is the count.
struct Wording {
  Oddity oddity;
  std::string_view one;
  std::string_view many;
};

constexpr std::array wordings = {
    Wording{Oddity::chord_notes, "{} chord in the solo: only its top note was kept",
            "{} chords in the solo: only their top notes were kept"},
    Wording{Oddity::overlapping_notes, "{} note sounds on into the next one and was cut there",
            "{} notes sound on into the next one and were cut there"},
    Wording{Oddity::cue_notes, "{} cue note was left out", "{} cue notes were left out"},
    Wording{Oddity::unpitched_notes, "{} note without pitch was left out", "{} notes without pitch were left out"},
    Wording{Oddity::slash_notes, "{} slash was left out: it marks a beat, not a pitch",
            "{} slashes were left out: they mark beats, not pitches"},
    Wording{Oddity::joined_voices,
            "{} note of another voice, which never sounds together with the line, was joined to it; --voice chooses",
            "{} notes of other voices, which never sound together with the line, were joined to it; --voice chooses"},
    Wording{Oddity::other_voices, "{} note of another voice was left out; --voice chooses",
            "{} notes of other voices were left out; --voice chooses"},
    Wording{Oddity::quarter_tones, "{} note between the semitones was rounded to the nearest",
            "{} notes between the semitones were rounded to the nearest"},
    Wording{Oddity::missing_durations, "{} note has no duration; its printed length was taken",
            "{} notes have no duration; their printed lengths were taken"},
    Wording{Oddity::stray_backups, "{} backup leads out of its bar; the start of the bar was taken",
            "{} backups lead out of their bars; the start of the bar was taken"},
    Wording{Oddity::short_bars, "{} bar holds less than its meter and was filled with a rest",
            "{} bars hold less than their meter and were filled with rests"},
    Wording{
        Oddity::nearly_full_pickups,
        "{} bar lacks less than a beat and was read as a pickup; fill it with a rest where it is meant as bar 1",
        "{} bars lack less than a beat and were read as pickups; fill them with rests where they are meant as bar 1"},
    Wording{Oddity::repeated_bars, "{} bar has a sign to repeat what stands before it and was played so",
            "{} bars have signs to repeat what stands before them and were played so"},
    Wording{Oddity::long_bars, "{} bar holds more than its meter and was taken as a longer bar",
            "{} bars hold more than their meter and were taken as longer bars"},
    Wording{Oddity::lost_jumps, "{} jump has no sign to go to and was not taken",
            "{} jumps have no sign to go to and were not taken"},
    Wording{Oddity::unplayed_bars, "{} bar is never played by the repeats and jumps; --as-written reads the page once",
            "{} bars are never played by the repeats and jumps; --as-written reads the page once"},
    Wording{Oddity::jumps_from_words, "{} jump or sign was read from its words, as nothing says how it sounds",
            "{} jumps or signs were read from their words, as nothing says how they sound"},
    Wording{Oddity::two_chords, "{} place has two chord symbols; the first was taken",
            "{} places have two chord symbols; the first was taken"},
    Wording{Oddity::concert_transpose, "{} transposition was not applied: the score says it is in concert pitch",
            "{} transpositions were not applied: the score says it is in concert pitch"},
    Wording{Oddity::odd_meters, "{} time signature could not be read; the one before stays",
            "{} time signatures could not be read; the ones before stay"},
    Wording{Oddity::printed_ties, "{} tie was read from its print, as nothing says that it sounds",
            "{} ties were read from their print, as nothing says that they sound"},
    Wording{Oddity::jumps_inside_bars, "{} jump stands inside its bar and was taken at the end of it",
            "{} jumps stand inside their bars and were taken at the end of them"},
    Wording{Oddity::idle_codas, "{} bar has a coda sign, but no D.C. or D.S. leads there: it was played straight on",
            "{} bars have coda signs, but no D.C. or D.S. leads there: they were played straight on"},
    Wording{Oddity::renumbered_endings, "{} ending has a number that cannot be meant; its place told when to play it",
            "{} endings have numbers that cannot be meant; their places told when to play them"},
    Wording{Oddity::shared_chords, "{} place has several chord symbols over one note; they share it",
            "{} places have several chord symbols over one note; they share it"},
    Wording{Oddity::unknown_chords, "{} chord symbol cannot be read and counts as N.C.",
            "{} chord symbols cannot be read and count as N.C."},
    Wording{Oddity::stray_chords, "{} chord symbol stands outside of its bar by its offset and was put at the bar line",
            "{} chord symbols stand outside of their bars by their offsets and were put at the bar line"},
    Wording{Oddity::contrary_prints, "{} chord symbol is printed otherwise than the file means it",
            "{} chord symbols are printed otherwise than the file means them"},
    Wording{Oddity::long_chords,
            "{} bar has no chord symbol after the last one, which was held to the end; --changes gives others",
            "{} bars have no chord symbol after the last one, which was held to the end; --changes gives others"},
    Wording{Oddity::missing_divisions, "no <divisions> say how long the lengths are; the printed note values told it",
            "no <divisions> say how long the lengths are; the printed note values told it"},
};

const Wording& wording(Oddity oddity) {
  const auto* const found = std::ranges::find(wordings, oddity, &Wording::oddity);
  assert(found != wordings.end() && "every oddity has its wording");
  return *found;
}

std::string with_bars(std::string message, const std::vector<std::string>& bars, bool more) {
  if (bars.empty()) return message;
  message += bars.size() == 1 && !more ? " (bar " : " (bars ";
  for (std::size_t i = 0; i < bars.size(); ++i) message += (i == 0 ? "" : ", ") + bars[i];
  return message + (more ? " ...)" : ")");
}

}  // namespace

void Notices::add(Oddity oddity, std::ptrdiff_t offset_bytes, std::string_view bar, std::size_t count) {
  if (count == 0) return;
  Seen& seen = seen_[oddity];
  if (seen.count == 0) seen.first_offset = offset_bytes;
  seen.count += count;
  if (std::ranges::find(seen.bars, bar) != seen.bars.end() || bar.empty()) return;
  if (seen.bars.size() < most_bars_named)
    seen.bars.emplace_back(bar);
  else
    seen.more_bars = true;
}

void Notices::explain(Oddity oddity, std::string_view why) {
  if (Seen& seen = seen_[oddity]; seen.why.empty()) seen.why = why;
}

void Notices::take_over_chords(const Notices& other) {
  for (const Oddity oddity : {Oddity::two_chords, Oddity::shared_chords, Oddity::unknown_chords, Oddity::stray_chords,
                              Oddity::contrary_prints})
    if (const auto found = other.seen_.find(oddity); found != other.seen_.end()) seen_.insert(*found);
}

void Notices::remark(Place place, std::string message) { remarks_.push_back({std::move(place), std::move(message)}); }

std::vector<Warning> Notices::warnings(const ScoreDocument& document) const {
  return warnings([&](std::ptrdiff_t offset_bytes) { return document.place(offset_bytes); });
}

std::vector<Warning> Notices::warnings(const std::function<Place(std::ptrdiff_t)>& place_at) const {
  std::vector<Warning> all = remarks_;
  for (const auto& [oddity, seen] : seen_) {
    const Wording& words = wording(oddity);
    const std::string message = fmt::format(fmt::runtime(seen.count == 1 ? words.one : words.many), seen.count);
    const std::string why = seen.why.empty() ? "" : (seen.count == 1 ? ": " : "; the first: ") + seen.why;
    all.push_back({place_at(seen.first_offset), with_bars(message, seen.bars, seen.more_bars) + why});
  }
  return all;
}

}  // namespace insideline::io
