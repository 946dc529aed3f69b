#include "io/musicxml/notices.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

namespace insideline::io {
namespace {

constexpr std::size_t most_bars_named = 5;

/// `one` and `many` for one occurrence and for several; {} is the count.
struct Wording {
  std::string_view one;
  std::string_view many;
};

Wording wording(Oddity oddity) {
  switch (oddity) {
    case Oddity::chord_notes:
      return {"{} chord in the solo: only its top note was kept",
              "{} chords in the solo: only their top notes were kept"};
    case Oddity::overlapping_notes:
      return {"{} note sounds on into the next one and was cut there",
              "{} notes sound on into the next one and were cut there"};
    case Oddity::cue_notes: return {"{} cue note was left out", "{} cue notes were left out"};
    case Oddity::unpitched_notes: return {"{} note without pitch was left out", "{} notes without pitch were left out"};
    case Oddity::other_voices:
      return {"{} note of another voice was left out; --voice chooses",
              "{} notes of other voices were left out; --voice chooses"};
    case Oddity::quarter_tones:
      return {"{} note between the semitones was rounded to the nearest",
              "{} notes between the semitones were rounded to the nearest"};
    case Oddity::missing_durations:
      return {"{} note has no duration; its printed length was taken",
              "{} notes have no duration; their printed lengths were taken"};
    case Oddity::stray_backups:
      return {"{} backup leads out of its bar; the start of the bar was taken",
              "{} backups lead out of their bars; the start of the bar was taken"};
    case Oddity::short_bars:
      return {"{} bar holds less than its meter and was filled with a rest",
              "{} bars hold less than their meter and were filled with rests"};
    case Oddity::long_bars:
      return {"{} bar holds more than its meter and was taken as a longer bar",
              "{} bars hold more than their meter and were taken as longer bars"};
    case Oddity::lost_jumps:
      return {"{} jump has no sign to go to and was not taken", "{} jumps have no sign to go to and were not taken"};
    case Oddity::jumps_from_words:
      return {"{} jump or sign was read from its words, as nothing says how it sounds",
              "{} jumps or signs were read from their words, as nothing says how they sound"};
    case Oddity::two_chords:
      return {"{} place has two chord symbols; the first was taken",
              "{} places have two chord symbols; the first was taken"};
    case Oddity::concert_transpose:
      return {"{} transposition was not applied: the score says it is in concert pitch",
              "{} transpositions were not applied: the score says it is in concert pitch"};
    case Oddity::odd_meters:
      return {"{} time signature could not be read; the one before stays",
              "{} time signatures could not be read; the ones before stay"};
  }
  return {};
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

void Notices::remark(Place place, std::string message) { remarks_.push_back({std::move(place), std::move(message)}); }

std::vector<Warning> Notices::warnings(const ScoreDocument& document) const {
  std::vector<Warning> all = remarks_;
  for (const auto& [oddity, seen] : seen_) {
    const auto [one, many] = wording(oddity);
    const std::string message = fmt::format(fmt::runtime(seen.count == 1 ? one : many), seen.count);
    all.push_back({document.place(seen.first_offset), with_bars(message, seen.bars, seen.more_bars)});
  }
  return all;
}

}  // namespace insideline::io
