#include "cli/synthesizer.hpp"

#include "cli/child_process.hpp"
#include "cli/output.hpp"

#include <fmt/format.h>

#include <array>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <optional>

namespace insideline::cli {
namespace {

constexpr std::string_view not_there =
    "FluidSynth, which plays the sheet, is not installed; on Debian: apt-get install fluidsynth fluid-soundfont-gm";

/// Where Debian's packages put their General MIDI sounds: fluid-soundfont-gm, timgm6mb-soundfont, and whichever of the
/// installed ones is the usual one.
std::optional<std::string> sound_font() {
  static constexpr std::array files{"/usr/share/sounds/sf2/FluidR3_GM.sf2", "/usr/share/sounds/sf2/TimGM6mb.sf2",
                                    "/usr/share/sounds/sf2/default-GM.sf2", "/usr/share/sounds/sf3/default-GM.sf3"};
  std::error_code ignored;
  for (const char* file : files)
    if (std::filesystem::is_regular_file(file, ignored)) return file;
  return std::nullopt;
}

/// Throws where FluidSynth did not end well.
void expect_played(const ChildResult& result) {
  constexpr std::size_t longest = 200;
  switch (result.end) {
    case ChildEnd::exited:
      if (result.exit_status == 0) return;
      throw SoundError("FluidSynth could not play the sheet: " + result.text.substr(0, longest));
    case ChildEnd::not_found:
      throw SoundError(
          fmt::format("{}\n  `insideline drill -o sheet.mid` writes what any player of MIDI files plays", not_there));
    case ChildEnd::not_started: throw SoundError("FluidSynth cannot be started: " + result.text);
    case ChildEnd::killed:
      throw SoundError("FluidSynth needed more memory or time than it is given; fewer --choruses help");
    case ChildEnd::out_of_time: throw SoundError("FluidSynth did not finish in half an hour; fewer --choruses help");
    case ChildEnd::interrupted: throw SoundError("interrupted");
  }
}

}  // namespace

std::string synthesized(std::string_view midi) {
  // First the signals, so that they arrive when the folder is gone.
  const SignalsHeld signals;
  const PrivateFolder folder;
  PendingFile(folder.path() / "sheet.mid", midi).commit();
  const auto font = sound_font();
  constexpr std::chrono::seconds processor_time{1200};
  constexpr std::uint64_t most_bytes = 1ULL << 30U;
  const ChildResult result =
      run_child({"fluidsynth", "--quiet", "--no-midi-in", "--no-shell", "--audio-file-type=wav", "--sample-rate=44100",
                 "--gain=0.6", "--fast-render=sheet.wav", font.value_or("no-sound-font.sf2"), "sheet.mid"},
                folder.path(), {.processor_time = processor_time, .file_bytes = most_bytes}, signals);
  if (result.end != ChildEnd::not_found && !font)
    throw SoundError(
        "FluidSynth has no sound font; on Debian: apt-get install fluid-soundfont-gm, or timgm6mb-soundfont");
  expect_played(result);
  std::ifstream stream(folder.path() / "sheet.wav", std::ios::binary);
  std::string wav{std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
  if (!wav.starts_with("RIFF") || wav.substr(0, 12).find("WAVE") == std::string::npos)
    throw SoundError("FluidSynth ended well but left no sound; is the `fluidsynth` on PATH the real one?");
  return wav;
}

}  // namespace insideline::cli
