#include "io/midi/voice_of_midi.hpp"

#include "analyzer/small_letters.hpp"
#include "io/read_result.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <span>

namespace insideline::io {
namespace {

constexpr double most_chordal = 0.1;  // of the notes may be below the line of a melodic track
constexpr std::size_t most_listed = 12;

std::optional<int> number_in(std::string_view text) {
  int number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return number;
}

/// General MIDI programs 33 to 40, or a track that says so.
bool is_bass(const MidiVoice& voice) {
  constexpr int first_bass = 32;
  constexpr int last_bass = 39;
  if (in_small_letters(voice.name).find("bass") != std::string::npos) return true;
  return voice.program && *voice.program >= first_bass && *voice.program <= last_bass;
}

std::string list_of(const MidiSong& song) {
  std::string list;
  for (std::size_t i = 0; i < std::min(song.voices.size(), most_listed); ++i)
    list += (i == 0 ? "" : "; ") + name_of(song, song.voices[i]);
  return song.voices.size() > most_listed ? list + "; ..." : list;
}

bool is_only_track(const MidiSong& song) {
  return std::ranges::all_of(song.voices, [&](const MidiVoice& voice) { return voice.track == song.voices[0].track; });
}

constexpr std::string_view channel_word = "channel ";

/// A number is that of a track, or, in a file with all its music in one track, of a channel.
bool answers_to(const MidiSong& song, const MidiVoice& voice, const std::string& wanted) {
  const std::string asked = in_small_letters(wanted);
  if (asked.starts_with(channel_word))
    return number_in(std::string_view(asked).substr(channel_word.size())) == voice.channel;
  if (!voice.name.empty() && in_small_letters(voice.name) == asked) return true;
  const auto number = number_in(asked);
  if (!number) return false;
  return *number == voice.track || (is_only_track(song) && *number == voice.channel);
}

struct Candidate {
  std::size_t voice = 0;
  MidiLine line;
  double chordal = 1.0;
  bool bass = false;
};

/// Of a track whose channels are not one line only one is read, whether or not that was meant.
std::string reason_among_channels(const MidiSong& song, const MidiVoice& taken, std::span<const Candidate> asked_for) {
  std::size_t all = 0;
  for (const Candidate& candidate : asked_for) all += song.voices[candidate.voice].notes.size();
  return fmt::format(
      "{} has {} of the {} notes asked for, which lie on {} channels and are not one line; the others were left out, "
      "--track 'channel N' chooses another",
      name_of(song, taken), taken.notes.size(), all, asked_for.size());
}

std::string reason(const MidiSong& song, const Candidate& taken, std::size_t melodic,
                   std::span<const Candidate> asked_for) {
  if (song.voices.size() < 2) return {};
  const std::string name = name_of(song, song.voices[taken.voice]);
  if (asked_for.size() == 1) return {};
  if (asked_for.size() > 1) return reason_among_channels(song, song.voices[taken.voice], asked_for);
  if (taken.chordal > most_chordal)
    return fmt::format("no track has a single melodic line; {} comes nearest; --track chooses another", name);
  if (melodic == 1) return fmt::format("the solo is {}, the only one with a single melodic line", name);
  return fmt::format("the solo is {}, the first of {} with a single melodic line; --track chooses another", name,
                     melodic);
}

}  // namespace

std::string name_of(const MidiSong& song, const MidiVoice& voice) {
  const auto same_track = [&](const MidiVoice& other) { return other.track == voice.track; };
  const bool alone = std::ranges::count_if(song.voices, same_track) == 1;
  std::string name = fmt::format("track {}", voice.track);
  if (!voice.name.empty()) name += fmt::format(" ({})", voice.name);
  return alone ? name : fmt::format("channel {} of {}", voice.channel, name);
}

bool asks_for_channel(const MidiSong& song, const std::string& wanted) {
  if (in_small_letters(wanted).starts_with(channel_word)) return true;
  const auto number = number_in(wanted);
  return number && !song.voices.empty() && is_only_track(song) && *number != song.voices.front().track;
}

std::vector<const MidiVoice*> voices_named(const MidiSong& song, const std::string& wanted,
                                           std::string_view file_name) {
  std::vector<const MidiVoice*> found;
  for (const MidiVoice& voice : song.voices)
    if (answers_to(song, voice, wanted)) found.push_back(&voice);
  if (found.empty())
    throw ReadError(place_of(file_name),
                    fmt::format("it has no track '{}' with notes; there is {}", wanted, list_of(song)));
  return found;
}

ChosenVoice solo_voice(const MidiSong& song, const TempoClock& clock, const std::optional<std::string>& wanted,
                       std::string_view file_name) {
  if (song.voices.empty()) {
    const bool drums = song.percussion_notes > 0;
    throw ReadError(place_of(file_name), drums ? "it has percussion only (channel 10), which has no pitches to analyse"
                                               : "it has no notes; record or export it again");
  }
  if (wanted) static_cast<void>(voices_named(song, *wanted, file_name));
  std::vector<Candidate> candidates;
  for (std::size_t i = 0; i < song.voices.size(); ++i) {
    const MidiVoice& voice = song.voices[i];
    if (wanted && !answers_to(song, voice, *wanted)) continue;
    MidiLine line = line_of(voice.notes, clock);
    const double chordal = chordal_share(line, voice.notes.size());
    candidates.push_back({i, std::move(line), chordal, is_bass(voice)});
  }
  // A bass accompanies, unless there is no other line.
  const auto is_line = [](const Candidate& candidate) { return candidate.chordal <= most_chordal; };
  const bool only_basses = std::ranges::none_of(
      candidates, [&](const Candidate& candidate) { return is_line(candidate) && !candidate.bass; });
  const auto is_melodic = [&](const Candidate& candidate) {
    return is_line(candidate) && (only_basses || !candidate.bass);
  };
  auto taken = std::ranges::find_if(candidates, is_melodic);
  const auto melodic = static_cast<std::size_t>(std::ranges::count_if(candidates, is_melodic));
  if (taken == candidates.end()) taken = std::ranges::min_element(candidates, {}, &Candidate::chordal);
  std::string why =
      reason(song, *taken, melodic, wanted ? std::span<const Candidate>(candidates) : std::span<const Candidate>{});
  const PartTaken choice = song.voices.size() < 2 ? PartTaken::only_one
                           : is_line(*taken)      ? PartTaken::first_line
                                                  : PartTaken::nearest_line;
  return {taken->voice, std::move(taken->line), std::move(why), choice};
}

}  // namespace insideline::io
