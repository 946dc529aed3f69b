#include "analyzer/utf8.hpp"

#include <catch2/catch.hpp>

#include <string_view>

using insideline::code_point;
using insideline::utf8_length;

TEST_CASE("letters of one to four bytes are measured and read") {
  struct Row {
    std::string_view character;
    char32_t code_point;
  };
  const Row rows[] = {{"A", U'A'},
                      {"\x7F", 0x7F},
                      {"\xC2\x80", 0x80},
                      {"\xDF\xBF", 0x7FF},
                      {"\xE0\xA0\x80", 0x800},
                      {"\xE2\x99\xAD", 0x266D},  // a flat
                      {"\xED\x9F\xBF", 0xD7FF},
                      {"\xEE\x80\x80", 0xE000},
                      {"\xEF\xBF\xBF", 0xFFFF},
                      {"\xF0\x90\x80\x80", 0x10000},
                      {"\xF4\x8F\xBF\xBF", 0x10FFFF}};
  for (const Row& row : rows) {
    INFO(static_cast<unsigned>(row.code_point));
    CHECK(utf8_length(row.character) == row.character.size());
    CHECK(code_point(row.character) == row.code_point);
  }
}

TEST_CASE("a letter is found behind others") {
  CHECK(utf8_length("B\xE2\x99\xAD", 1) == 3);
  CHECK(utf8_length("B\xE2\x99\xAD", 2) == 0);
}

TEST_CASE("what only looks like a letter of UTF-8 is none") {
  const std::string_view rows[] = {"\x80",              // the middle of a letter
                                   "\xE4",              // Latin-1
                                   "\xC0\xAF",          // a slash in two bytes
                                   "\xC1\xBF",          // in two bytes what one holds
                                   "\xE0\x9F\xBF",      // in three what two hold
                                   "\xED\xA0\x80",      // half of a pair of UTF-16
                                   "\xED\xBF\xBF",      // the other half
                                   "\xF0\x8F\xBF\xBF",  // in four what three hold
                                   "\xF4\x90\x80\x80",  // above the last
                                   "\xF5\x80\x80\x80",  //
                                   "\xFF",              //
                                   "\xE2\x99",          // broken off
                                   "\xE2\x99!"};        // the same inside a text
  for (const std::string_view row : rows) {
    INFO(row);
    CHECK(utf8_length(row) == 0);
  }
  CHECK(code_point("\xE4") == 0xFFFD);
}
