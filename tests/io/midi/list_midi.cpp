// What the second reader of MIDI files is compared with: the notes of every track and channel, one JSON line a file.
//
//   list_midi FOLDER SCORE-OR-MIDI...
//
//   list_midi --solo MIDI...
//
// lists the solo that is imported, on the page: [midi, onset in quarters from the start of the file].
// A score is written as a MIDI file into FOLDER first, and its own notes are listed beside those that are read back.
#include <fmt/format.h>

#include <cstdlib>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "analyzer/alignment.hpp"
#include "io/midi/midi_song.hpp"
#include "io/midi/midi_writer.hpp"
#include "io/read_solo.hpp"
#include "tests/io/midi/second_reader.hpp"

namespace {

namespace fs = std::filesystem;

std::string bytes_of(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

void demand_agreement(const fs::path& file, const insideline::io::CheckedSmf& checked) {
  const auto second = insideline::tests::read_by_libsmf(checked.clean);
  if (!second.complaints.empty()) throw std::runtime_error(file.string() + ": libsmf says: " + second.complaints[0]);
  if (!(second.events == insideline::io::events_of(checked.clean)))
    throw std::runtime_error(file.string() + ": libsmf finds other events in it");
}

/// [[midi, onset, length], ...] in ticks.
std::string notes_of(const insideline::io::MidiVoice& voice) {
  std::string text;
  for (const auto& note : voice.notes)
    text += fmt::format("{}[{},{},{}]", text.empty() ? "" : ",", note.midi, note.onset_ticks,
                        note.end_ticks - note.onset_ticks);
  return "[" + text + "]";
}

void list(const fs::path& file, std::size_t notes_of_score) {
  const auto checked = insideline::io::check_smf(bytes_of(file));
  if (!checked) throw std::runtime_error(file.string() + ": " + to_string(checked.error()));
  demand_agreement(file, *checked);
  const auto song = insideline::io::song_of(*checked);
  std::string voices;
  for (const auto& voice : song.voices)
    voices += fmt::format("{}{{\"track\":{},\"channel\":{},\"notes\":{}}}", voices.empty() ? "" : ",", voice.track,
                          voice.channel, notes_of(voice));
  std::string tempos;
  for (const auto& tempo : song.tempos)
    tempos += fmt::format("{}[{},{}]", tempos.empty() ? "" : ",", tempo.ticks, tempo.quarter_microseconds);
  fmt::print("{{\"file\":\"{}\",\"scoreNotes\":{},\"ppq\":{},\"tempos\":[{}],\"voices\":[{}]}}\n", file.string(),
             notes_of_score, song.ticks_per_quarter, tempos, voices);
}

fs::path written(const fs::path& score, const fs::path& folder, std::size_t& notes) {
  const auto read = insideline::io::read_solo(score);
  notes = read.solo.notes.size();
  const auto harmony = read.changes ? lay_out(*read.changes, read.solo) : insideline::Harmony{};
  const fs::path file = folder / score.filename().replace_extension(".mid");
  std::ofstream(file, std::ios::binary) << insideline::io::write_midi(read.solo, harmony);
  return file;
}

void list_solo(const fs::path& file) {
  insideline::io::ReadOptions options;
  options.bar_one = insideline::Beats(0);
  try {
    if (const auto checked = insideline::io::check_smf(bytes_of(file))) demand_agreement(file, *checked);
    const auto read = insideline::io::read_solo(file, options);
    std::string notes;
    for (const auto& note : read.solo.notes)
      if (!note.grace)
        notes += fmt::format("{}[{},\"{}\"]", notes.empty() ? "" : ",", midi_number(note.pitch), to_string(note.onset));
    fmt::print("{{\"file\":\"{}\",\"notes\":[{}]}}\n", file.string(), notes);
  } catch (const insideline::io::ReadError& error) {
    fmt::print("{{\"file\":\"{}\",\"refused\":\"{}\"}}\n", file.string(), error.what());
  }
}

}  // namespace

int main(int count, char** arguments) {
  try {
    if (count < 3) {
      fmt::print(stderr, "usage: list_midi FOLDER|--solo SCORE-OR-MIDI...\n");
      return EXIT_FAILURE;
    }
    if (arguments[1] == std::string("--solo")) {
      for (int i = 2; i < count; ++i) list_solo(arguments[i]);
      return EXIT_SUCCESS;
    }
    fs::create_directories(arguments[1]);
    for (int i = 2; i < count; ++i) {
      const fs::path file = arguments[i];
      std::size_t notes = 0;
      const bool is_midi = file.extension() == ".mid";
      list(is_midi ? file : written(file, arguments[1], notes), notes);
    }
    return EXIT_SUCCESS;
  } catch (const std::exception& error) {
    fmt::print(stderr, "list_midi: {}\n", error.what());
    return EXIT_FAILURE;
  }
}
