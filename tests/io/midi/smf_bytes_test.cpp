#include "io/midi/smf_bytes.hpp"

#include "tests/io/midi/smf_bytes.hpp"

#include <catch2/catch.hpp>

using insideline::io::append_vlq;
using insideline::io::SmfCursor;
using insideline::io::SmfFault;
using insideline::tests::bytes_from;

TEST_CASE("variable-length quantities are read and written as in the standard's table") {
  // Standard MIDI Files 1.0 (RP-001), "Some Examples of Variable-Length Quantities".
  const auto [value, hexadecimal] = GENERATE(table<std::uint32_t, std::string>({
      {0x00000000, "00"},
      {0x00000040, "40"},
      {0x0000007F, "7F"},
      {0x00000080, "81 00"},
      {0x00002000, "C0 00"},
      {0x00003FFF, "FF 7F"},
      {0x00004000, "81 80 00"},
      {0x00100000, "C0 80 00"},
      {0x001FFFFF, "FF FF 7F"},
      {0x00200000, "81 80 80 00"},
      {0x08000000, "C0 80 80 00"},
      {0x0FFFFFFF, "FF FF FF 7F"},
  }));
  const std::string bytes = bytes_from(hexadecimal);
  std::string written;
  append_vlq(written, value);
  CHECK(written == bytes);
  SmfCursor cursor(bytes, 0);
  CHECK(cursor.vlq() == value);
  CHECK(cursor.at_end());
}

TEST_CASE("a quantity that is cut off or too long is an error") {
  const std::string cut = bytes_from("81 80");
  CHECK(SmfCursor(cut, 0).vlq().error() == SmfFault::vlq_truncated);
  const std::string too_long = bytes_from("81 80 80 80 00");
  CHECK(SmfCursor(too_long, 0).vlq().error() == SmfFault::vlq_too_long);
}

TEST_CASE("a cursor never leaves its bytes") {
  const std::string bytes = bytes_from("01 02 03");
  SmfCursor cursor(bytes, 10);
  CHECK_FALSE(cursor.take(4));
  CHECK(cursor.take(2) == bytes.substr(0, 2));
  CHECK(cursor.offset() == 12);
  CHECK(cursor.take_at_most(9) == bytes.substr(2));
  CHECK_FALSE(cursor.byte());
}
