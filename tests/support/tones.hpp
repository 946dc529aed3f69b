// Sounds of known pitch, made of partials: the notes of a line with what players do to them, and the bytes of a WAV
// file.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace insideline::tests {

struct Tone {
  double onset_seconds = 0.0;
  double seconds = 0.3;
  double midi = 60.0;
  double level = 0.3;            ///< of full scale
  double vibrato_cents = 0.0;    ///< to either side, 5.5 a second
  double scoop_semitones = 0.0;  ///< from so far below, over 80 ms
  double attack_seconds = 0.012;
  int partials = 8;      ///< 1 for a sine
  bool slurred = false;  ///< begins at full level, as the note before it ends
};

/// One channel at 22,050 samples a second, with half a second of silence behind the last tone.
constexpr int tone_rate = 22'050;
std::vector<float> sound_of(std::span<const Tone> tones);

/// The same tones one after the other, `apart` seconds from onset to onset, from half a second on.
std::vector<Tone> line_of(std::span<const int> midi, double apart, double seconds);

/// Adds four clicks or so: a burst of noise of 8 ms at each of these seconds.
void add_clicks(std::vector<float>& sound, std::span<const double> seconds);
/// Noise that is the same every time, of this level (its standard deviation).
void add_noise(std::vector<float>& sound, double level);

/// A WAV file of 16 bits, or of floats as they are.
enum class WavKind : std::uint8_t { sixteen_bit, floats };
std::string wav_of(std::span<const float> samples, int rate = tone_rate, int channels = 1,
                   WavKind kind = WavKind::sixteen_bit);

}  // namespace insideline::tests
