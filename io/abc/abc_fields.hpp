// The values of the fields that say how notes are meant: K: M: L: Q: and the words of V:.
// Source: the ABC music standard 2.1 (abcnotation), from memory: 3.1.6 to 3.1.8, 3.1.14, 4.6, 7.1.
#pragma once

#include "analyzer/model/changes.hpp"
#include "io/abc/abc_text.hpp"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace insideline::io {

/// What K: says of the notes.
struct AbcKey {
  std::optional<Key> key;            ///< none for K:none and for "exp"
  std::array<int, 7> alterations{};  ///< of each Step, in semitones
  friend bool operator==(const AbcKey&, const AbcKey&) = default;
};

/// How a staff sounds, from K: or V:.
struct AbcStaff {
  std::optional<int> transpose;    ///< semitones from written to sounding: transpose=
  std::optional<int> octave;       ///< typed so many octaves lower than it is written: octave=
  std::optional<int> clef_octave;  ///< of a clef such as treble-8
  std::string name;                ///< name= of a voice
  std::vector<std::string> unknown;
};

struct AbcKeyField {
  std::optional<AbcKey> key;  ///< none where the field is about the staff alone
  AbcStaff staff;
};

struct AbcVoiceField {
  std::string id;
  AbcStaff staff;
};

/// Each throws ReadError where `value` (as abc_value gives it) cannot be read.
AbcKeyField read_abc_key(const AbcText& source, const AbcLine& value);
AbcVoiceField read_abc_voice(const AbcText& source, const AbcLine& value);
/// None: "none", free rhythm.
std::optional<Meter> read_abc_meter(const AbcText& source, const AbcLine& value);
/// In quarter notes.
Beats read_abc_unit(const AbcText& source, const AbcLine& value);
/// Quarter notes per minute; none where the field has words only. `unit` is what a bare number counts in.
std::optional<double> read_abc_tempo(const AbcText& source, const AbcLine& value, const Beats& unit);

/// The unit note length where no L: says it: a sixteenth below 3/4, otherwise an eighth (3.1.7).
Beats usual_abc_unit(const std::optional<Meter>& meter);

}  // namespace insideline::io
