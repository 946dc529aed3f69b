#include "reports/reading_words.hpp"

#include "analyzer/small_letters.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <cstdlib>

namespace insideline::reports {
namespace {

/// "14 semitones", "an octave".
std::string distance_in_words(int semitones) {
  const int size = std::abs(semitones);
  if (size % semitones_in_octave != 0 || size == 0) return counted(size, "semitone");
  const int octaves = size / semitones_in_octave;
  return octaves == 1 ? "an octave" : fmt::format("{} octaves", octaves);
}

/// "alto saxophone": in the middle of a sentence.
std::string instrument_in_words(const Instrument& instrument) {
  std::string name(instrument.part);
  name.front() = small_letter(name.front());
  return name;
}

/// "the written pitch of the part, 14 semitones above what it sounds".
std::string pitch_in_words(const std::string& whose, int written_above) {
  if (written_above == 0) return fmt::format("concert pitch, in which the {} is written", whose);
  return fmt::format("the written pitch of the {}, {} {} what it sounds", whose, distance_in_words(written_above),
                     written_above > 0 ? "above" : "below");
}

std::string of_instrument(const Reading& reading) {
  const Instrument& instrument = *reading.instrument;
  std::string text = fmt::format("Names are in {}.", pitch_in_words(instrument_in_words(instrument),
                                                                    -instrument.sounding_minus_written.semitones));
  if (reading.octaves != 0)
    text += fmt::format(" The line stands {}, in the range of the instrument.", moved_in_words(reading));
  if (reading.notes_outside > 0)
    text +=
        fmt::format(" {} {} outside its range, {} to {}.", counted(reading.notes_outside, "note"),
                    agreeing(reading.notes_outside, "lies", "lie"), instrument.written_low, instrument.written_high);
  return text;
}

}  // namespace

std::string pitch_of(const Instrument& instrument) {
  if (instrument.sounding_minus_written.semitones == 0) return "in concert pitch";
  return "in the written pitch of the " + instrument_in_words(instrument);
}

std::string moved_in_words(const Reading& reading) {
  if (reading.octaves == 0) return {};
  return fmt::format("{} {} than played", distance_in_words(reading.octaves * semitones_in_octave),
                     reading.octaves < 0 ? "lower" : "higher");
}

std::string outside_in_words(const Reading& reading) {
  if (reading.notes_outside == 0 || !reading.instrument) return {};
  return fmt::format("{} {} outside its range, {} to {}", counted(reading.notes_outside, "note"),
                     agreeing(reading.notes_outside, "lies", "lie"), reading.instrument->written_low,
                     reading.instrument->written_high);
}

std::string reading_sentences(const Report& report) {
  const int written_above = -report.solo.sounding_minus_written.semitones;
  switch (report.reading.reader) {
    case ReadBy::everybody:
      if (written_above == 0) return "Names are in concert pitch.";
      return fmt::format("The part sounds {} {} than it is written; names are in concert pitch.",
                         distance_in_words(written_above), written_above > 0 ? "lower" : "higher");
    case ReadBy::player_of_the_part: return fmt::format("Names are in {}.", pitch_in_words("part", written_above));
    case ReadBy::player_of_an_instrument: return of_instrument(report.reading);
  }
  return {};
}

std::string reader_in_short(const Report& report, const std::string& part) {
  const std::string comma = part.empty() ? "" : ", ";
  const bool transposes = report.solo.sounding_minus_written.semitones != 0;
  switch (report.reading.reader) {
    case ReadBy::everybody:  // an alto player reads "Alto Sax" alone as written pitch
      return part.empty() && !transposes ? "" : part + comma + "in concert pitch";
    case ReadBy::player_of_the_part: return part + comma + "in written pitch";
    case ReadBy::player_of_an_instrument: {
      std::string text(report.reading.instrument->part);
      if (report.reading.instrument->sounding_minus_written.semitones != 0) text += ", in written pitch";
      const std::string moved = moved_in_words(report.reading);
      return moved.empty() ? text : text + ", " + moved;
    }
  }
  return part;
}

int sounding_midi(const Reading& reading, const Pitch& pitch) {
  return midi_number(pitch) - reading.above_sounding.semitones;
}

}  // namespace insideline::reports
