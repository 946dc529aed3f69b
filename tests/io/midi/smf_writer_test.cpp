#include "io/midi/smf_writer.hpp"

#include "io/midi/smf_check.hpp"
#include "io/midi/smf_events.hpp"
#include "tests/io/midi/second_reader.hpp"
#include "tests/io/midi/smf_bytes.hpp"

#include <catch2/catch.hpp>

#include <string>

using insideline::io::check_smf;
using insideline::io::events_of;
using insideline::io::OutgoingSmf;
using insideline::io::save_smf;
using insideline::tests::bytes_from;

namespace {

OutgoingSmf notes_in_a_row(std::uint32_t count) {
  OutgoingSmf file{96, {{}, {}}, 0};
  for (std::uint32_t i = 0; i < count; ++i) {
    file.tracks[1].push_back({48 * i, bytes_from("90 3C 40")});
    file.tracks[1].push_back({48 * i + 47, bytes_from("80 3C 00")});
  }
  return file;
}

}  // namespace

TEST_CASE("what is saved is loaded again: events, tempo, meter and key") {
  OutgoingSmf file{480, {}, 1920};
  file.tracks.push_back({{0, bytes_from("FF 51 03 0F 42 40")},
                         {0, bytes_from("FF 58 04 06 03 18 08")},
                         {0, bytes_from("FF 59 02 FD 01")}});
  file.tracks.push_back({{0, bytes_from("93 40 50")}, {480, bytes_from("83 40 00")}, {480, bytes_from("C3 07")}});
  const auto checked = check_smf(save_smf(file));
  REQUIRE(checked);
  CHECK(checked->findings.empty());
  const auto loaded = events_of(checked->clean);
  CHECK(loaded.ticks_per_quarter == 480);
  CHECK(loaded.end_ticks == 1920);
  CHECK(loaded.tempos.at(0).quarter_microseconds == 1'000'000);
  CHECK(loaded.meters.at(0).meter == insideline::Meter{6, 8});
  CHECK(loaded.keys.at(0).key == insideline::Key{-3, true});
  REQUIRE(loaded.tracks.size() == 2);  // the key stays in the track it was in
  REQUIRE(loaded.tracks[1].size() == 3);
  CHECK(loaded.tracks[1][1].ticks == 480);
  CHECK(loaded.tracks[1][2].status == 0xC3);
}

TEST_CASE("the second reader hears what libsmf says") {
  // An event of an undefined kind: the check would not let it through, and libsmf only complains about it.
  const auto second = insideline::tests::read_by_libsmf(
      bytes_from("4D546864 00000006 0000 0001 0060 4D54726B 0000000E 00F400903C4060803C4000FF2F00"));
  REQUIRE_FALSE(second.complaints.empty());
  CHECK_THAT(second.complaints[0], Catch::Contains("status byte"));
}

TEST_CASE("one track alone makes a file of format 0, and lasts as long as is asked for") {
  CHECK(save_smf({96, {{{48, bytes_from("90 3C 40")}}}, 200}) ==
        bytes_from("4D546864 00000006 0000 0001 0060 4D54726B 00000009 30 903C40 8118 FF2F00"));
}

TEST_CASE("a long file is saved whole") {
  const auto checked = check_smf(save_smf(notes_in_a_row(5'000)));
  REQUIRE(checked);
  CHECK(checked->note_count == 5'000);
  CHECK(events_of(checked->clean).tracks.at(0).size() == 10'000);
}
