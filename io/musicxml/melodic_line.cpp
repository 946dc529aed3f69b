#include "io/musicxml/melodic_line.hpp"

#include <algorithm>
#include <utility>

namespace insideline::io {
namespace {

/// What is kept of the notes moves to the front of them.
class LineBuilder {
 public:
  LineBuilder(std::vector<WrittenNote> notes, std::size_t voice, Notices& notices)
      : notes_(std::move(notes)), voice_(voice), notices_(notices) {}

  MelodicLine build(const std::vector<WrittenMeasure>& measures) {
    std::vector<std::size_t> first_note;
    first_note.reserve(measures.size() + 1);
    for (const WrittenMeasure& measure : measures) {
      first_note.push_back(kept_);
      read_measure(measure);
    }
    first_note.push_back(kept_);
    notes_.resize(kept_);
    return {std::move(notes_), std::move(first_note)};
  }

 private:
  void read_measure(const WrittenMeasure& measure) {
    const std::size_t first = kept_;
    std::size_t end = first;
    for (std::size_t i = measure.first_note; i < measure.end_note; ++i)
      if (notes_[i].voice == voice_) put(i, end++);
    const auto begin = notes_.begin() + static_cast<std::ptrdiff_t>(first);
    const auto behind = notes_.begin() + static_cast<std::ptrdiff_t>(end);
    const auto earlier = [](const WrittenNote& a, const WrittenNote& b) { return a.position < b.position; };
    if (!std::is_sorted(begin, behind, earlier)) std::stable_sort(begin, behind, earlier);
    reduce(measure, first, end);
  }

  void put(std::size_t from, std::size_t to) {
    if (from != to) notes_[to] = notes_[from];
  }

  /// Keeps one note at each place and cuts notes that sound on into the next one.
  void reduce(const WrittenMeasure& measure, std::size_t first, std::size_t end) {
    std::size_t sounding = end;  // the last note that is not a grace note; `end` for none
    bool in_chord = false;
    for (std::size_t i = first; i < end; ++i) {
      const WrittenNote& note = notes_[i];
      if (kept_ > first && stands_beside(notes_[kept_ - 1], note)) {
        if (!in_chord) notices_.add(Oddity::chord_notes, measure.offset_bytes, measure.number);
        in_chord = true;
        if (midi_number(note.pitch) > midi_number(notes_[kept_ - 1].pitch)) notes_[kept_ - 1] = note;
        continue;
      }
      in_chord = false;
      if (sounding != end && notes_[sounding].position < note.position && share_a_pass(notes_[sounding], note))
        cut(notes_[sounding], note.position, measure);
      if (!note.grace) sounding = kept_;
      put(i, kept_++);
    }
  }

  static bool stands_beside(const WrittenNote& last, const WrittenNote& note) {
    return last.position == note.position && last.grace == note.grace && (!note.grace || note.chord_member) &&
           share_a_pass(last, note);
  }

  void cut(WrittenNote& note, const Beats& at, const WrittenMeasure& measure) {
    if (note.position + note.duration <= at) return;
    note.duration = at - note.position;
    note.tied_on = false;
    notices_.add(Oddity::overlapping_notes, measure.offset_bytes, measure.number);
  }

  std::vector<WrittenNote> notes_;
  std::size_t kept_ = 0;
  std::size_t voice_;
  Notices& notices_;
};

}  // namespace

MelodicLine melodic_line(WrittenPart& part, std::size_t voice, Notices& notices) {
  std::size_t others = 0;
  for (std::size_t i = 0; i < part.voices.size(); ++i)
    if (i != voice) others += part.voices[i].notes;
  notices.add(Oddity::other_voices, part.measures.front().offset_bytes, {}, others);
  return LineBuilder(std::move(part.notes), voice, notices).build(part.measures);
}

}  // namespace insideline::io
