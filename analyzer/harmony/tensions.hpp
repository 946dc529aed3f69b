// What a chord welcomes and what it avoids, worked out from its tones.
#pragma once

#include "analyzer/model/chord.hpp"

#include <optional>
#include <string>
#include <vector>

namespace insideline {

/// `altered` is the dominant of the symbol `alt`: 1 3 b7, every altered ninth and fifth a tension.
enum class Colouring : std::uint8_t { natural, altered };

/// The chord on `root` with these tones (any order, repeats allowed; the root need not be among
/// them and is always a tone). Degrees are renamed the way players name them: 2 and 4 beside a
/// third are 9 and 11; 6 beside a seventh is 13, and 13 without one is 6. A set of 1 3 b7 and every
/// altered ninth and fifth (b9 #9 #11 b13) is the altered dominant.
Chord make_chord(std::string symbol, const NoteName& root, std::vector<Degree> tones,
                 const std::optional<NoteName>& bass = std::nullopt, Colouring colouring = Colouring::natural);

bool has_tone(const std::vector<Degree>& tones, const Degree& degree);
/// Whether one of the tones sounds as `degree` does, in whatever octave and by whatever letter it is named.
bool sounds_among(const std::vector<Degree>& tones, const Degree& degree);

/// Every degree of a chord as other notations need them: for an altered dominant its tensions are among them.
std::vector<Degree> spelled_out_tones(const Chord& chord);

/// Whether the chord is an altered dominant in the sense of `alt`.
bool is_altered(const Chord& chord);

}  // namespace insideline
