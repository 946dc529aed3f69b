#include "io/read_solo.hpp"

#include "io/abc/abc.hpp"
#include "io/audio/sound_file.hpp"
#include "io/file_bytes.hpp"
#include "io/midi/midi.hpp"
#include "io/musicxml/musicxml.hpp"

#include <array>
#include <string_view>

namespace insideline::io {
namespace {

constexpr std::string_view only_listened_to =
    "this is a recording; analyze and assess listen to one, and their --heard-midi writes a MIDI file for everything "
    "else";

struct Importer {
  bool (*recognises)(std::string_view bytes, std::string_view file_name);
  ReadResult (*parse)(std::string_view bytes, std::string_view file_name, const ReadOptions& options);
};

/// Whatever no other importer recognises is read as MusicXML, which says best what is wrong with it.
bool takes_the_rest(std::string_view /*bytes*/, std::string_view /*file_name*/) { return true; }

bool begins_as_sound(std::string_view bytes, std::string_view /*file_name*/) { return begins_as_recording(bytes); }

ReadResult refuse_sound(std::string_view /*bytes*/, std::string_view file_name, const ReadOptions& /*options*/) {
  throw ReadError(place_of(file_name), only_listened_to);
}

bool begins_as_midi(std::string_view bytes, std::string_view /*file_name*/) { return is_midi(bytes); }

constexpr std::array importers = {
    Importer{begins_as_midi, parse_midi},
    Importer{begins_as_sound, refuse_sound},
    Importer{is_abc, parse_abc},
    Importer{takes_the_rest, parse_musicxml},
};

constexpr std::size_t largest_file_bytes = std::size_t{32} << 20U;

}  // namespace

std::string read_solo_bytes(const std::filesystem::path& file) {
  // Before its size is looked at: recordings are large.
  if (is_named_as_recording(file) && std::filesystem::is_regular_file(file))
    throw ReadError(place_of(file.filename().string()), only_listened_to);
  return read_bytes(file, largest_file_bytes);
}

ReadResult parse_solo(std::string_view bytes, std::string_view file_name, const ReadOptions& options) {
  for (const Importer& importer : importers)
    if (importer.recognises(bytes, file_name)) return importer.parse(bytes, file_name, options);
  throw ReadError(place_of(file_name), "this is not a score that can be read; export it as MusicXML");
}

ReadResult read_solo(const std::filesystem::path& file, const ReadOptions& options) {
  return parse_solo(read_solo_bytes(file), file.filename().string(), options);
}

}  // namespace insideline::io
