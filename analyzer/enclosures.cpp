#include "analyzer/enclosures.hpp"

namespace insideline {

std::vector<Enclosure> find_enclosures(const Solo& solo, std::span<const NoteLabel> labels) {
  std::vector<std::size_t> line;  // without grace notes, which stand in nobody's way
  for (std::size_t note = 0; note < labels.size(); ++note)
    if (!solo.notes[note].grace) line.push_back(note);
  std::vector<Enclosure> found;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const NoteLabel& label = labels[line[i]];
    if (label.figure != Figure::enclosure || !label.resolves_to) continue;
    if (!found.empty() && found.back().target == *label.resolves_to) {
      if (found.back().around.back() != line[i]) found.back().around.push_back(line[i]);
      continue;
    }
    Enclosure enclosure{{line[i]}, *label.resolves_to};
    const bool closes = i + 1 < line.size() && line[i + 1] == enclosure.target;
    if (closes && i > 0) enclosure.around.insert(enclosure.around.begin(), line[i - 1]);
    if (!closes && i + 1 < line.size()) enclosure.around.push_back(line[i + 1]);
    found.push_back(enclosure);
  }
  return found;
}

}  // namespace insideline
