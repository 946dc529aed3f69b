#include "io/musicxml/melodic_line.hpp"

#include <algorithm>

namespace insideline::io {
namespace {

class LineBuilder {
 public:
  LineBuilder(const WrittenPart& part, std::size_t voice, Notices& notices)
      : part_(part), voice_(voice), notices_(notices) {}

  MelodicLine build() {
    line_.notes.reserve(part_.voices[voice_].notes);
    line_.first_note.reserve(part_.measures.size() + 1);
    for (const WrittenMeasure& measure : part_.measures) {
      line_.first_note.push_back(line_.notes.size());
      read_measure(measure);
    }
    line_.first_note.push_back(line_.notes.size());
    return std::move(line_);
  }

 private:
  void read_measure(const WrittenMeasure& measure) {
    const std::size_t first = line_.notes.size();
    for (std::size_t i = measure.first_note; i < measure.end_note; ++i)
      if (part_.notes[i].voice == voice_) line_.notes.push_back(part_.notes[i]);
    const auto begin = line_.notes.begin() + static_cast<std::ptrdiff_t>(first);
    const auto earlier = [](const WrittenNote& a, const WrittenNote& b) { return a.position < b.position; };
    if (!std::is_sorted(begin, line_.notes.end(), earlier)) std::stable_sort(begin, line_.notes.end(), earlier);
    reduce(measure, first);
  }

  /// Keeps one note at each place and cuts notes that sound on into the next one.
  void reduce(const WrittenMeasure& measure, std::size_t first) {
    std::vector<WrittenNote>& notes = line_.notes;
    std::size_t kept = first;
    std::size_t sounding = first;  // index of the last note that is not a grace note, if `has_sounding`
    bool has_sounding = false;
    bool in_chord = false;
    for (std::size_t i = first; i < notes.size(); ++i) {
      const bool beside_last = kept > first && share_a_pass(notes[kept - 1], notes[i]) &&
                               notes[kept - 1].position == notes[i].position &&
                               notes[kept - 1].grace == notes[i].grace && (!notes[i].grace || notes[i].chord_member);
      if (beside_last) {
        if (!in_chord) notices_.add(Oddity::chord_notes, measure.offset_bytes, measure.number);
        in_chord = true;
        if (midi_number(notes[i].pitch) > midi_number(notes[kept - 1].pitch)) notes[kept - 1] = notes[i];
        continue;
      }
      in_chord = false;
      if (has_sounding && notes[sounding].position < notes[i].position && share_a_pass(notes[sounding], notes[i]))
        cut(notes[sounding], notes[i].position, measure);
      notes[kept] = notes[i];
      if (!notes[kept].grace) {
        sounding = kept;
        has_sounding = true;
      }
      ++kept;
    }
    notes.resize(kept);
  }

  void cut(WrittenNote& note, const Beats& at, const WrittenMeasure& measure) {
    if (note.position + note.duration <= at) return;
    note.duration = at - note.position;
    note.tied_on = false;
    notices_.add(Oddity::overlapping_notes, measure.offset_bytes, measure.number);
  }

  const WrittenPart& part_;
  std::size_t voice_;
  Notices& notices_;
  MelodicLine line_;
};

}  // namespace

MelodicLine melodic_line(const WrittenPart& part, std::size_t voice, Notices& notices) {
  std::size_t others = 0;
  for (std::size_t i = 0; i < part.voices.size(); ++i)
    if (i != voice) others += part.voices[i].notes;
  notices.add(Oddity::other_voices, part.measures.front().offset_bytes, {}, others);
  return LineBuilder(part, voice, notices).build();
}

}  // namespace insideline::io
