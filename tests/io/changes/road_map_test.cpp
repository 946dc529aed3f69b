#include "io/changes/road_map.hpp"

#include "io/changes/changes_file.hpp"
#include "tests/io/changes/chart_shorthand.hpp"

#include <string>

#include <catch2/catch.hpp>

using insideline::io::parse_changes;
using insideline::tests::chart_error;
using insideline::tests::played;

TEST_CASE("repeats and endings are played out") {
  const auto [text, bars] = GENERATE(table<std::string, std::string>({
      {"|: C | F :|", "C | F | C | F"},
      {"| C |: F :| G |", "C | F | F | G"},
      {"| C | F :| G |", "C | F | C | F | G"},   // back to the start
      {"| C :| F :| G |", "C | C | F | F | G"},  // back to the last :|
      {"|: C :|: F :|", "C | C | F | F"},
      {"|: C :||: F :|", "C | C | F | F"},
      {"|: C :| |: F :|", "C | C | F | F"},
      {"||: C :||", "C | C"},
      {"|: C :| x3", "C | C | C"},
      {"|: C :| 3x | F |", "C | C | C | F"},
      {"|: C :| (x4) F", "C | C | C | C | F"},
      {"|: C |1. F :|2. G | Am |", "C | F | C | G | Am"},
      {"|: C | 1. F :| 2. G |", "C | F | C | G"},
      {"|: C |1. F | G :|2. Am :|", "C | F | G | C | Am"},  // a sign after the last ending turns nothing
      {"|: C |1,2. F :|3. G |", "C | F | C | F | C | G"},
      {"|: C |1-3. F :|4. G |", "C | F | C | F | C | F | C | G"},
      {"|: C |1.,3. F :|2.,4. G :| Am", "C | F | C | G | C | F | C | G | Am"},
      {"|: C |1. F :| G |", "C | F | C | G"},  // the second time past the lone ending
      {"| C |1. F :|2. G |: Am :|", "C | F | C | G | Am | Am"},
      {"|: C |\n|1. F :|\n|2. G |", "C | F | C | G"},
      {"|: C |1. % :|2. F |", "C | C | C | F"},  // % repeats the bar written before
  }));
  CHECK(played(parse_changes(text, "a.changes")) == bars);
}

TEST_CASE("the header form puts the sections in order") {
  const auto [text, bars] = GENERATE(table<std::string, std::string>({
      {"form: A A B A\n[A] | C |\n[B] | F |", "C | C | F | C"},
      {"form: AABA\n[A] | C |\n[B] | F |", "C | C | F | C"},
      {"form: A, B, A\n[A] | C |\n[B] | F |", "C | F | C"},
      {"form: A bridge A\n[A]\n| C |\n[bridge]\n| F | G7 |", "C | F | G7 | C"},
      {"[A] | C |\n[B] | F |\nform: A B B", "C | F | F"},
      {"form: A\n[intro] | G7 |\n[A] | C |", "C"},  // a section it does not name is left out
      {"form: A B A\n[A] |: C |1. F :|2. G |\n[B] | Am |", "C | F | C | G | Am | C | F | C | G"},
      {"form: B A\n[A] | C | F :|\n[B] | G :|", "G | G | C | F | C | F"},  // back to the section's start
      {"[A] | C |\n[A] | F |", "C | F"},                                   // without a form as written
      {"|: [A] | C | [B] | F :|", "C | F | C | F"},
  }));
  CHECK(played(parse_changes(text, "a.changes")) == bars);
}

TEST_CASE("a road that cannot be followed is refused with its place") {
  const auto [text, message] = GENERATE(table<std::string, std::string>({
      {"| C |: F | G |", "1:8: the repeat that begins here has no :| at its end"},
      {"|: C |: F :| G :|", "1:9: this repeat begins inside another; close the one before it with :|"},
      {":| C |", "1:1: no bar stands before this :| to be repeated"},
      {"|: :| C |", "1:4: no bar stands before this :| to be repeated"},
      {"| C |: |: F :|", "1:8: the repeat before this one has no bars"},
      {"| C :| :|", "1:8: a :| stands here already"},
      {"| C |:", "1:5: the repeat that begins here has no bars"},
      {"| C |1.", "1:6: this ending has no bars"},
      {"|: C |1. F |2. G |", "1:10: ending 1 has no :| to go back"},
      {"|: C |2. F :|", "1:10: ending 2 has no ending 1 before it"},
      {"|: C |1. F :|3. G |", "1:10: ending 3 has no ending 2 before it"},
      {"|: C |1. F :|1. G |", "1:17: ending 1 is written twice"},
      {"|: C |1. F :|2,3. G |", "1:19: ending 2 has no :| to go back"},
      {"|: C |1. F :| x3 |2. G |", "1:10: the endings say how often to play; take the number of times away"},
      {"|: C |0. F :|", "1:7: \"0.\" is not an ending; write |1. or |1,2."},
      {"[A] | C | [B] | F :|",
       "1:17: the repeat that ends after section B begins has no |: to go back to; write |: where it begins"},
      {"form: A B\n[A] |: C |\n[B] | F :|", "2:8: the repeat that begins here has no :| at its end"},
      {"form: A C\n[A] | C |\n[B] | F |", "1:9: the form names a section \"C\" that is not written; written are A, B"},
      {"form: A B\n| G7 |\n[A] | C |\n[B] | F |",
       "2:3: the form names sections, but this bar lies in none; write [A] before it"},
      {"form: A B\n[A] | C |\n[B] | F |\n[A] | G |",
       "4:7: section A is written twice, so the form cannot tell which one it means"},
  }));
  CHECK(chart_error(text) == message);
}

TEST_CASE("a chart that grows without end when played is refused") {
  const std::string expected = "played out, this chart has more than 10000 bars; write one pass of the form";
  std::string repeats;
  for (int i = 0; i < 200; ++i) repeats += "|: C :| x99\n";
  CHECK(chart_error(repeats).ends_with(expected));
  std::string form = "form: ";
  for (int i = 0; i < 6'000; ++i) form += 'A';
  CHECK(chart_error(form + "\n[A] | C | F |").ends_with(expected));
}
