// Our reader of clean files against libsmf, on every file there is: the seeds of the fuzzer, what it found, and files
// made at random. The public files are read by both in `list_midi`, any bytes in `midi_fuzz`.
#include "io/midi/smf_events.hpp"

#include "io/midi/smf_bytes.hpp"
#include "io/midi/smf_check.hpp"
#include "tests/io/midi/second_reader.hpp"
#include "tests/io/midi/smf_bytes.hpp"
#include "tests/support/folders.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <string>

using insideline::io::check_smf;
using insideline::io::Damage;
using insideline::io::events_of;
using insideline::tests::read_by_libsmf;

namespace {

namespace io = insideline::io;
using insideline::tests::bytes_from;

unsigned drawn(std::mt19937& random, unsigned below) { return static_cast<unsigned>(random() % below); }

/// A track of random notes, controllers, programs, wheels, texts, tempos, meters and keys.
std::string random_track(std::mt19937& random, int count) {
  std::string events;
  for (int i = 0; i < count; ++i) {
    io::append_vlq(events, drawn(random, drawn(random, 4) == 0 ? 40'000 : 200));
    const unsigned kind = drawn(random, 10);
    const unsigned status = 0x80U + 16U * std::min(kind, 6U) + drawn(random, 16);
    if (kind < 7) {
      io::append_byte(events, status);
      io::append_byte(events, drawn(random, 128));
      if (status < 0xC0U || status >= 0xE0U) io::append_byte(events, drawn(random, 128));
    } else if (kind == 7) {
      events += bytes_from("FF 51 03");
      io::append_byte(events, 1 + drawn(random, 200));
      io::append_u16(events, drawn(random, 65536));
    } else if (kind == 8) {
      events += bytes_from("FF 58 04");
      io::append_byte(events, 1 + drawn(random, 12));
      io::append_byte(events, drawn(random, 5));
      io::append_u16(events, 0x1808);
    } else {
      events += bytes_from(drawn(random, 2) == 0 ? "FF 59 02 FD 01" : "FF 06 03 41 42 43");
    }
  }
  return events + bytes_from("00 FF 2F 00");
}

std::string random_file(std::mt19937& random) {
  const unsigned tracks = 1 + drawn(random, 4);
  std::string file = bytes_from("4D546864 00000006 0001");
  io::append_u16(file, tracks);
  io::append_u16(file, 1 + drawn(random, 2000));
  for (unsigned i = 0; i < tracks; ++i) {
    const std::string track = random_track(random, static_cast<int>(drawn(random, 60)));
    file += "MTrk";
    io::append_u32(file, static_cast<std::uint32_t>(track.size()));
    file += track;
  }
  return file;
}

/// Whether the check lets the file through at all.
bool read_alike(const std::string& bytes, Damage damage) {
  const auto checked = check_smf(bytes, {.damage = damage});
  if (!checked) return false;
  const auto second = read_by_libsmf(checked->clean);
  CHECK(second.complaints.empty());
  CHECK((second.events == events_of(checked->clean)));
  return true;
}

}  // namespace

TEST_CASE("two readers find the same events in every file of the fuzzer") {
  int read = 0;
  for (const char* folder : {"/io/crashes/midi", "/fuzz/seeds/midi"})
    for (const auto& entry : std::filesystem::directory_iterator(std::string(INSIDELINE_TESTS) + folder)) {
      CAPTURE(entry.path());
      std::ifstream file(entry.path(), std::ios::binary);
      const std::string bytes{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
      for (const Damage damage : {Damage::refused, Damage::salvaged}) read += read_alike(bytes, damage) ? 1 : 0;
    }
  CHECK(read > 0);
}

TEST_CASE("two readers find the same events in files made at random") {
  std::mt19937 random(29);
  for (int i = 0; i < 500; ++i) {
    CAPTURE(i);
    CHECK(read_alike(random_file(random), Damage::refused));
  }
}
