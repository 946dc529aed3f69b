#include "cli/chart_key.hpp"

#include "io/read_result.hpp"

#include <string_view>

namespace insideline::cli {

std::string not_a_tonic(const std::string& text) {
  return parse_note_name(text) ? std::string() : "'" + text + "' is no note; write a tonic such as Ab or F#";
}

Changes in_key(const std::optional<NoteName>& tonic, const Changes& changes, const std::string& file) {
  if (!tonic) return changes;
  if (!changes.key)
    throw io::ReadError(io::place_of(file), "it does not say its key, which --key needs; add a line such as key: Eb");
  constexpr int letters = 7;
  constexpr int furthest_up = 6;
  const std::string named = to_string(*changes.key);
  const NoteName from = *parse_note_name(std::string_view(named).substr(0, named.find(' ')));
  Interval by{(static_cast<int>(tonic->step) - static_cast<int>(from.step) + letters) % letters,
              (pitch_class(*tonic) - pitch_class(from) + semitones_in_octave) % semitones_in_octave};
  if (by.semitones > furthest_up) by = {by.steps - letters, by.semitones - semitones_in_octave};
  return transposed(changes, by);
}

}  // namespace insideline::cli
