#include "io/midi/smf_check.hpp"

#include "io/midi/smf_bytes.hpp"
#include "io/midi/smf_events.hpp"
#include "tests/io/midi/second_reader.hpp"
#include "tests/io/midi/smf_bytes.hpp"

#include <catch2/catch.hpp>

#include <cctype>
#include <string>
#include <tuple>

using insideline::io::check_smf;
using insideline::io::Damage;
using insideline::io::events_of;
using insideline::io::SmfFault;
using insideline::io::SmpteTime;
using insideline::tests::bytes_from;
using insideline::tests::smf_probes;
using insideline::tests::smf_with;

namespace {

const std::string note = " 00 903C40 60 803C40";
const std::string end = " 00 FF2F00";

/// The fault of a track that cannot be read strictly.
SmfFault fault_of(const std::string& track) {
  const auto checked = check_smf(smf_with({track}));
  REQUIRE_FALSE(checked);
  return checked.error().fault;
}

/// libsmf has nothing to say about the clean file and finds the same events in it.
void require_agreement(const std::string& clean) {
  const auto second = insideline::tests::read_by_libsmf(clean);
  CHECK(second.complaints.empty());
  CHECK((second.events == events_of(clean)));
}

void require_outcome(const std::string& bytes, const std::string& expected, Damage damage) {
  const auto checked = check_smf(bytes, {.damage = damage});
  const bool is_count = expected.size() < 3;
  REQUIRE(checked.has_value() == is_count);
  if (is_count) {
    CHECK(checked->note_count == std::stoul(expected));
    require_agreement(checked->clean);
    return;
  }
  const std::size_t words = expected.find(' ') + 1;
  CHECK(checked.error().offset_bytes == std::stoul(expected));
  CHECK_THAT(to_string(checked.error()), Catch::Contains(expected.substr(words)));
}

}  // namespace

TEST_CASE("every probe file is read or refused as its row says, strictly and salvaged") {
  for (const auto& probe : smf_probes()) {
    INFO(probe.name << ": " << probe.what);
    require_outcome(probe.bytes, probe.strict, Damage::refused);
    require_outcome(probe.bytes, probe.salvaged, Damage::salvaged);
  }
}

TEST_CASE("a clean file passes the check unchanged and without a finding") {
  for (const auto& probe : smf_probes()) {
    const auto checked = check_smf(probe.bytes, {.damage = Damage::salvaged});
    if (!checked) continue;
    INFO(probe.name);
    const auto again = check_smf(checked->clean);
    REQUIRE(again);
    CHECK(again->clean == checked->clean);
    CHECK(again->findings.empty());
  }
}

TEST_CASE("the files that crashed libsmf in other hands are read or refused") {
  // Found by fuzzing libsmf 1.3 alone; each aborted it or made it read past its buffer.
  const auto [bytes, refused] = GENERATE(table<std::string, bool>({
      {"4D546864 00000006 0001 0002 0060 58585858 7FFFFFFF 4D54726B 00000004 00FF2F00", true},
      {"4D546864 00000006 0001 0002 4D00", true},
      {"4D546864 00000006 0000 0001 0060 4D54726B 00000000 00000027", false},
      {"4D546864 00000006 0000 0002 0060 4D54726B 0000000C 00 9000 FF 2F 00", true},
      {"4D546864 00000006 0000 0001 0060 4D54726B 00000013 10 FF5103 005249 00", true},
  }));
  INFO(bytes);
  const auto checked = check_smf(bytes_from(bytes));
  CHECK(checked.has_value() != refused);
  if (checked) require_agreement(checked->clean);
}

TEST_CASE("a header is checked field by field") {
  const auto [header, fault] = GENERATE(table<std::string, SmfFault>({
      {"4D546864 00000005 0000 0001 0060", SmfFault::bad_header_length},
      {"4D546864 000000FF 0000 0001 0060", SmfFault::bad_header_length},
      {"4D546864 00000006 0002 0001 0060", SmfFault::format_2},
      {"4D546864 00000006 0003 0001 0060", SmfFault::bad_format},
      {"4D546864 00000006 0000 0001 0000", SmfFault::zero_division},
      {"4D546864 00000006 0000 0001 E728", SmfFault::smpte_division},
      {"4D546864 00000006 0000 0001 0060", SmfFault::no_tracks},
      {"4D546864 00000006 0000", SmfFault::too_short},
      {"4D5468", SmfFault::too_short},
      {"4D547264 00000006 0000 0001 0060", SmfFault::not_smf},
      {"50", SmfFault::not_smf},
  }));
  const auto checked = check_smf(bytes_from(header));
  REQUIRE_FALSE(checked);
  CHECK(checked.error().fault == fault);
}

TEST_CASE("what would lose notes is refused, with the byte of the event") {
  CHECK(fault_of("81808080 00 903C40" + end) == SmfFault::vlq_too_long);
  CHECK(fault_of(note + " 81 80") == SmfFault::vlq_truncated);
  CHECK(fault_of("00 903C") == SmfFault::event_truncated);
  CHECK(fault_of("00 FF017F 41" + end) == SmfFault::event_truncated);
  CHECK(fault_of("00 3C40" + end) == SmfFault::no_running_status);
  CHECK(fault_of("00 90BC40" + end) == SmfFault::data_byte_high);
  CHECK(fault_of("00 F4" + end) == SmfFault::bad_status);
  CHECK(fault_of("00 F6" + note + end) == SmfFault::system_common);
  CHECK(fault_of("FFFFFF7F 903C40 01 803C40" + end) == SmfFault::time_overflow);
  CHECK(check_smf(smf_with({note + " 00 90BC40" + end})).error().offset_bytes == 30);
}

TEST_CASE("salvage keeps what comes before the damage and says what was dropped") {
  const auto checked = check_smf(smf_with({note + " 00 90BC40 00 903E40" + end}), {.damage = Damage::salvaged});
  REQUIRE(checked);
  CHECK(checked->note_count == 1);
  REQUIRE(checked->findings.size() == 1);
  CHECK(to_string(checked->findings[0]) == "byte 30: a note or controller has a value above 127");
}

TEST_CASE("salvage steps over a message for a cable by its length, and loses no note") {
  const std::string message = GENERATE("00 F15A", "00 F20102", "00 F307", "00 F6");
  const auto checked = check_smf(smf_with({note + message + note + end}), {.damage = Damage::salvaged});
  REQUIRE(checked);
  CHECK(checked->note_count == 2);
  REQUIRE(checked->findings.size() == 1);
  CHECK(to_string(checked->findings[0]) == "byte 30: a message for a cable (F1, F2, F3 or F6) stands inside a track");
  const auto cut = check_smf(smf_with({note + "00 F290" + note + end}), {.damage = Damage::salvaged});
  REQUIRE(cut);
  CHECK(cut->note_count == 1);
}

TEST_CASE("harmless oddities are read, counted and told") {
  const auto [track, fault, count] = GENERATE(table<std::string, SmfFault, std::size_t>({
      {"00 903C40 00 FF06014D 60 3C00 00 3C40" + end, SmfFault::running_after_meta, 1},
      {note, SmfFault::missing_end_of_track, 1},
      {note + end + " 00 903C40", SmfFault::bytes_after_end, 1},
      {"00 FF5103000000 00 FF51020102" + note + end, SmfFault::bad_tempo, 2},
      {"00 FF580404 1F1808" + note + end, SmfFault::bad_time_signature, 1},
      {"00 FF580400 021808" + note + end, SmfFault::bad_time_signature, 1},
      {"00 FF59020801 00 FF59020002" + note + end, SmfFault::bad_key_signature, 2},
      {"00 F8 00 FE 00 903C40 60 F8 00 803C40" + end, SmfFault::realtime_byte, 3},
  }));
  const auto checked = check_smf(smf_with({track}));
  REQUIRE(checked);
  CHECK(checked->note_count >= 1);
  REQUIRE(checked->findings.size() == 1);
  CHECK(checked->findings[0].fault == fault);
  CHECK(checked->findings[0].count == count);
  require_agreement(checked->clean);
}

TEST_CASE("tracks are counted by reading them") {
  const auto more = check_smf(smf_with({note + end, note + end}, "00010001"));
  REQUIRE(more);
  CHECK(more->note_count == 2);
  CHECK(more->findings.at(0).fault == SmfFault::track_count);
  const auto fewer = check_smf(smf_with({note + end}, "0001FFFF"));
  REQUIRE(fewer);
  CHECK(fewer->note_count == 1);
}

TEST_CASE("the clean file spells out every status and has no system exclusives") {
  const auto checked = check_smf(smf_with({"00 F0057E7F0901F7 00 903C40 60 3C00 00 F702F301" + end}));
  REQUIRE(checked);
  const std::string expected = bytes_from(
      "4D546864 00000006 0001 0002 0060 4D54726B 00000004 00FF2F00 "
      "4D54726B 0000000C 00 903C40 60 903C00 00FF2F00");
  CHECK(checked->clean == expected);
}

TEST_CASE("tempos and time signatures move to the first track, in order and without repeats") {
  const std::string late = "60 FF51030F4240 00 FF5103 0F4240" + end;
  const std::string early = "00 FF58040302 1808 30 FF5103 07A120 30 FF58040302 1808" + note + end;
  const auto checked = check_smf(smf_with({late, early}));
  REQUIRE(checked);
  const auto loaded = events_of(checked->clean);
  REQUIRE(loaded.tempos.size() == 2);
  CHECK(loaded.tempos[0].ticks == 0x30);
  CHECK(loaded.tempos[0].quarter_microseconds == 500'000);
  CHECK(loaded.tempos[1].ticks == 0x60);
  REQUIRE(loaded.meters.size() == 1);
  CHECK(loaded.meters[0].meter == insideline::Meter{3, 4});
  CHECK(checked->track_numbers == std::vector<int>{2});
}

TEST_CASE("a long text is kept whole beside the clean file, which has 127 bytes of it") {
  const auto checked = check_smf(smf_with({"00 FF01 8148 [41 x200]" + note + end}));
  REQUIRE(checked);
  REQUIRE(checked->texts.size() == 1);
  CHECK(checked->texts[0].bytes == std::string(200, 'A'));
  const auto loaded = events_of(checked->clean);
  CHECK(loaded.tracks.at(0).size() == 2);
  CHECK(checked->clean.find(bytes_from("FF 01 7F 41")) != std::string::npos);
}

TEST_CASE("film frames are read where the beats are known from elsewhere") {
  const std::string file =
      bytes_from("4D546864 00000006 0000 0001 E728 4D54726B 0000000D 00903C40 8768 803C40 00FF2F00");
  const auto checked = check_smf(file, {.smpte = SmpteTime::beats_are_known});
  REQUIRE(checked);
  const auto loaded = events_of(checked->clean);
  CHECK(loaded.ticks_per_quarter == 1000);  // 25 frames of 40 ticks: a "quarter" of one second
  CHECK(loaded.tempos.at(0).quarter_microseconds == 1'000'000);
}

TEST_CASE("files beyond the limits are refused before they cost anything") {
  CHECK(check_smf(std::string((std::size_t{16} << 20U) + 1, '\0')).error().fault == SmfFault::file_too_large);
  std::string many = "MThd" + bytes_from("00000006 0001 FFFF 0060");
  for (int i = 0; i < 4097; ++i) many += "MTrk" + bytes_from("00000004 00FF2F00");
  CHECK(check_smf(many).error().fault == SmfFault::too_many_tracks);
  std::string events = bytes_from("00 B00740");
  for (int i = 0; i < 1'000'001; ++i) events += std::string("\0\x07\x40", 3);
  std::string long_track = "MThd" + bytes_from("00000006 0000 0001 0060") + "MTrk";
  insideline::io::append_u32(long_track, static_cast<std::uint32_t>(events.size()));
  CHECK(check_smf(long_track + events).error().fault == SmfFault::too_many_events);
}

TEST_CASE("tempo changes are limited, because each costs every event") {
  std::string events;
  for (int i = 0; i < 20'001; ++i) events += bytes_from(i % 2 == 0 ? "01FF51030F4240" : "01FF510307A120");
  std::string file = "MThd" + bytes_from("00000006 0000 0001 0060") + "MTrk";
  insideline::io::append_u32(file, static_cast<std::uint32_t>(events.size()));
  CHECK(check_smf(file + events).error().fault == SmfFault::too_many_tempos);
}
