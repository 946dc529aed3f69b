// Prints the notes of scores for the comparison with the reference reader: for each file named
// on standard input one line of JSON with its notes, or with the reason why it was refused.
// A note is [onset, duration, MIDI number, is a grace note, number of its element].
#include "io/read_solo.hpp"

#include <fmt/format.h>

#include <cstdio>
#include <iostream>
#include <string>

namespace {

using namespace std::string_literals;

std::string quoted(const std::string& text) {
  std::string json = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') json += '\\';
    json += static_cast<unsigned char>(c) < 0x20U ? ' ' : c;
  }
  return json + '"';
}

std::string notes_of(const insideline::io::ReadResult& score) {
  std::string notes;
  for (const insideline::Note& note : score.solo.notes)
    notes += fmt::format("{}[{},{},{},{},{}]", notes.empty() ? "" : ",", quoted(to_string(note.onset)),
                         quoted(to_string(note.duration)), midi_number(note.pitch), note.grace, note.place.element);
  return notes;
}

std::string warning_lines(const insideline::io::ReadResult& score) {
  std::string warnings;
  for (const insideline::io::Warning& warning : score.warnings)
    warnings += (warnings.empty() ? "" : ",") + quoted(warning.message);
  return warnings;
}

std::string line_for(const std::string& file, const insideline::io::ReadOptions& options) {
  try {
    const auto score = insideline::io::read_solo(file, options);
    const auto chords = score.changes ? score.changes->spans.size() : 0;
    return fmt::format(R"({{"file":{},"part":{},"start":{},"bars":{},"chords":{},"warnings":[{}],"notes":[{}]}})",
                       quoted(file), quoted(score.solo.part), quoted(to_string(score.solo.bars.front().onset)),
                       score.solo.bars.size(), chords, warning_lines(score), notes_of(score));
  } catch (const insideline::io::ReadError& error) {
    return fmt::format(R"({{"file":{},"refused":{}}})", quoted(file), quoted(error.what()));
  }
}

}  // namespace

int main(int argc, char** argv) {
  insideline::io::ReadOptions options;
  if (argc > 1 && argv[1] == "--as-written"s) options.road_map = insideline::io::RoadMap::as_written;
  try {
    for (std::string file; std::getline(std::cin, file);) std::cout << line_for(file, options) << std::endl;
  } catch (const std::exception& error) {
    std::fputs(error.what(), stderr);
    return 1;
  }
  return 0;
}
