// What a tune in ABC sounds like here and in a MIDI file that another program made of it, note for note.
//
//   hear_abc --plain TUNES.abc              prints the tunes without what only changes how notes are performed
//   hear_abc TUNES.abc NUMBER OTHER.mid     compares every voice of tune NUMBER; what differs is printed, and is status
//   1
//
// Grace notes are left out: the standard does not say how long they are. Of notes struck together the highest counts.
#include "io/abc/abc.hpp"
#include "io/midi/midi_song.hpp"
#include "io/read_solo.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <map>
#include <sstream>
#include <string>
#include <vector>

namespace {

using insideline::Beats;

std::string bytes_of(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

/// Directives may ask for drums, other instruments and chords that are spread; some programs swing an R:hornpipe and
/// play rolls, trills and staccato dots.
void print_plain(const std::string& text) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with("%%MIDI") || line.starts_with("%%temperament") || line.starts_with("R:")) continue;
    const bool field = line.size() > 1 && line[1] == ':' && line[0] != '|' && line[0] != ':';
    if (!field) std::erase_if(line, [](char c) { return c == '~' || c == 'T' || c == '.'; });
    std::cout << line << '\n';
    if (line.starts_with("X:")) std::cout << "%%MIDI chordattack 0\n";
  }
}

struct Heard {
  Beats onset;
  Beats duration;
  int midi = 0;
};

std::string to_string(const Heard& note) {
  return fmt::format("{} for {} at {}", note.midi, to_string(note.duration), to_string(note.onset));
}

std::vector<Heard> notes_here(const insideline::io::ReadResult& read) {
  std::vector<Heard> notes;
  const Beats start = read.solo.bars.front().onset;
  for (const insideline::Note& note : read.solo.notes)
    if (!note.grace) notes.push_back({note.onset - start, note.duration, midi_number(note.pitch)});
  return notes;
}

std::vector<Heard> notes_there(const insideline::io::MidiVoice& voice, std::uint32_t ticks_per_quarter) {
  std::vector<Heard> notes;
  for (const auto& note : voice.notes) {
    const Heard heard{Beats(note.onset_ticks, ticks_per_quarter),
                      Beats(note.end_ticks - note.onset_ticks, ticks_per_quarter), note.midi};
    if (!notes.empty() && notes.back().onset == heard.onset) {
      if (heard.midi > notes.back().midi) notes.back() = heard;
    } else {
      notes.push_back(heard);
    }
  }
  return notes;
}

/// A MIDI file counts in whole ticks: a seventh of a beat is off by less than one of them, its end by less than two.
bool is_near(const Beats& a, const Beats& b, std::uint32_t ticks_per_quarter) {
  const Beats gap = a > b ? a - b : b - a;
  return gap <= Beats(2, ticks_per_quarter);
}

/// The number of notes that agree; says what does not.
std::size_t compare(const std::vector<Heard>& here, const std::vector<Heard>& there, std::uint32_t ticks_per_quarter) {
  const std::size_t count = std::max(here.size(), there.size());
  for (std::size_t i = 0; i < count; ++i) {
    const bool same = i < here.size() && i < there.size() && here[i].midi == there[i].midi &&
                      is_near(here[i].onset, there[i].onset, ticks_per_quarter) &&
                      is_near(here[i].duration, there[i].duration, ticks_per_quarter);
    if (same) continue;
    fmt::print("  note {}: here {}, there {}\n", i + 1, i < here.size() ? to_string(here[i]) : "none",
               i < there.size() ? to_string(there[i]) : "none");
    return i;
  }
  return count;
}

int compare_tune(const std::string& file, const std::string& number, const std::string& midi) {
  const auto checked = insideline::io::check_smf(bytes_of(midi));
  if (!checked) throw std::runtime_error(midi + ": " + to_string(checked.error()));
  auto song = insideline::io::song_of(*checked);
  std::erase_if(song.voices, [](const auto& voice) { return voice.notes.empty(); });
  if (song.voices.empty()) throw std::runtime_error(midi + " has no notes");
  std::ranges::stable_sort(song.voices, {}, [](const auto& voice) { return voice.track; });
  bool same = true;
  std::size_t notes = 0;
  for (std::size_t i = 0; i < song.voices.size(); ++i) {
    insideline::io::ReadOptions options;
    options.tune = number;
    options.part = std::to_string(i + 1);
    const auto here = notes_here(insideline::io::parse_abc(bytes_of(file), file, options));
    const auto there = notes_there(song.voices[i], song.ticks_per_quarter);
    const std::size_t agreed = compare(here, there, song.ticks_per_quarter);
    same = same && agreed == std::max(here.size(), there.size());
    notes += agreed;
  }
  fmt::print("{} tune {}: {} notes in {} voices {}\n", std::filesystem::path(file).filename().string(), number, notes,
             song.voices.size(), same ? "agree" : "agree, then they differ");
  return same ? EXIT_SUCCESS : EXIT_FAILURE;
}

}  // namespace

int main(int count, char** arguments) {
  const std::vector<std::string> words(arguments + 1, arguments + count);
  try {
    if (words.size() == 2 && words[0] == "--plain") {
      print_plain(bytes_of(words[1]));
      return EXIT_SUCCESS;
    }
    if (words.size() == 3) return compare_tune(words[0], words[1], words[2]);
    std::cerr << "usage: hear_abc --plain TUNES.abc | hear_abc TUNES.abc NUMBER OTHER.mid\n";
  } catch (const std::exception& error) {
    std::cout << "  " << error.what() << '\n';
  }
  return EXIT_FAILURE;
}
