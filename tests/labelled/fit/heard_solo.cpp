#include "tests/labelled/fit/heard_solo.hpp"

#include "analyzer/alignment.hpp"
#include "analyzer/labels/label_notes.hpp"
#include "analyzer/phrases.hpp"
#include "analyzer/spelling.hpp"
#include "io/changes/changes_file.hpp"
#include "io/hearing/hearing_file.hpp"
#include "io/read_result.hpp"
#include "io/read_solo.hpp"
#include "io/solo_files.hpp"

#include <filesystem>
#include <stdexcept>

namespace insideline::tests {
namespace {

std::string solo_beside(const std::string& hearing_file) {
  for (const char* const ending : {".musicxml", ".xml", ".mxl", ".abc", ".mid"}) {
    const std::filesystem::path solo = std::filesystem::path(hearing_file).replace_extension(ending);
    if (std::filesystem::exists(solo)) return solo.string();
  }
  throw std::invalid_argument("no solo of the same name beside " + hearing_file);
}

Changes changes_of(const io::ReadResult& read, const std::string& solo) {
  if (const auto beside = io::changes_beside(solo)) return io::read_chart(*beside).changes;
  if (read.changes) return *read.changes;
  throw std::invalid_argument("no chord symbols in " + solo + " and no changes file beside it");
}

ReadNote read_note(const NoteLabel& label) {
  ExpectedLabel expected{.role = label.role, .figure = {}, .degree = {}, .placement = {}, .against = {}};
  if (label.role == Role::non_chord_tone || label.role == Role::outside) {
    expected.figure = label.figure;
  } else if (label.chord) {
    expected.against = label.governor == label.chord                ? Against::sounding
                       : label.placement == Placement::anticipation ? Against::next
                                                                    : Against::previous;
  }
  return {.acceptable = {expected}, .sure = {}};
}

}  // namespace

LabelledExample heard_solo(const std::string& hearing_file) {
  const std::string file = solo_beside(hearing_file);
  io::ReadResult read = io::read_solo(file);
  LabelledExample example;
  example.id = std::filesystem::path(file).filename().string();
  example.harmony = lay_out(changes_of(read, file), read.solo);
  example.solo = spelled_by_harmony(std::move(read.solo), example.harmony);
  const io::HearingReading hearing = io::read_hearing(hearing_file, example.solo);
  Settings settings;
  settings.pins = hearing.pins;
  const auto phrases = find_phrases(example.solo, example.harmony, settings);
  if (const auto faults = pin_faults(example.solo, example.harmony, phrases, settings); !faults.empty())
    throw io::ReadError(hearing.places[faults.front().pin], faults.front().why);
  Reader teacher;
  for (const NoteLabel& label : label_notes(example.solo, example.harmony, phrases, settings)) {
    teacher.codes.push_back(label.pinned ? code_of(label) : "-");
    teacher.notes.push_back(label.pinned ? read_note(label) : ReadNote{});
  }
  example.codes = teacher.codes;
  for (const ReadNote& note : teacher.notes) example.acceptable.push_back(note.acceptable);
  example.readers = {std::move(teacher)};
  return example;
}

}  // namespace insideline::tests
