#include "io/read_solo.hpp"

#include "analyzer/small_letters.hpp"
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

/// ".mid" of "Take.MID".
std::string small_ending(std::string_view file_name) {
  return in_small_letters(std::filesystem::path(file_name).extension().string());
}

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

/// What is no MIDI file says so; a score may have any name.
bool is_only_called_midi(std::string_view bytes, std::string_view file_name) {
  const std::string ending = small_ending(file_name);
  return (ending == ".mid" || ending == ".midi") && bytes.find('<') != 0 && !bytes.starts_with("PK");
}

bool is_chart(std::string_view bytes, std::string_view file_name) {
  return small_ending(file_name) == ".changes" && !bytes.starts_with("<");
}

ReadResult refuse_chart(std::string_view /*bytes*/, std::string_view file_name, const ReadOptions& /*options*/) {
  throw ReadError(place_of(file_name),
                  "this is a chart and no solo; the solo comes first, and its chart behind --changes");
}

bool is_picture(std::string_view bytes, std::string_view /*file_name*/) {
  return bytes.starts_with("%PDF") || bytes.starts_with("\x89PNG") || bytes.starts_with("\xFF\xD8\xFF");
}

ReadResult refuse_picture(std::string_view /*bytes*/, std::string_view file_name, const ReadOptions& /*options*/) {
  throw ReadError(place_of(file_name), "this is a picture of a page; export the score itself, as MusicXML");
}

constexpr std::array importers = {
    Importer{begins_as_midi, parse_midi},      Importer{is_picture, refuse_picture},
    Importer{is_only_called_midi, parse_midi}, Importer{is_chart, refuse_chart},
    Importer{begins_as_sound, refuse_sound},   Importer{is_abc, parse_abc},
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
