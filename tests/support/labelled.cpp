#include "tests/support/labelled.hpp"

#include "analyzer/labels/label_notes.hpp"
#include "analyzer/phrases.hpp"
#include "tests/support/label_file.hpp"
#include "tests/support/melody.hpp"

namespace insideline::tests {

LabelledLine labelled(std::string_view chords, std::string_view melody, const Beats& start_beat, const Meter& meter,
                      const Settings& settings) {
  LabelledLine line;
  line.solo = solo_from(melody, meter, start_beat);
  line.harmony = harmony_from(chords, line.solo);
  line.labels = label_notes(line.solo, line.harmony, find_phrases(line.solo, line.harmony, settings), settings);
  return line;
}

std::string codes(const std::vector<NoteLabel>& labels) {
  std::string text;
  for (const NoteLabel& label : labels) text += (text.empty() ? "" : " ") + code_of(label);
  return text;
}

}  // namespace insideline::tests
