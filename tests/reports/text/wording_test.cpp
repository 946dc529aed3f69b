#include "reports/text/wording.hpp"
#include "reports/text/time_wording.hpp"

#include <catch2/catch.hpp>

#include <string>

namespace insideline::tests {

using reports::beat_in_words;
using reports::counted;
using reports::day_text;
using reports::gauge;
using reports::in_bars;
using reports::listed;
using reports::paragraph;
using reports::parsed_day;
using reports::percent;
using reports::share_text;
using reports::with_capital;

TEST_CASE("counts go with the right form of their noun") {
  CHECK(counted(0, "note") == "no notes");
  CHECK(counted(1, "note") == "1 note");
  CHECK(counted(2, "note") == "2 notes");
  CHECK(counted(2, "chorus", "choruses") == "2 choruses");
}

TEST_CASE("a rounded share never claims all or none where that is not so") {
  const auto [share, said] = GENERATE(table<double, std::string>({
      {0.0, "0 %"},
      {0.001, "under 1 %"},
      {0.005, "1 %"},
      {0.374, "37 %"},
      {0.375, "38 %"},
      {0.994, "99 %"},
      {0.9999, "over 99 %"},
      {1.0, "100 %"},
  }));
  CHECK(percent(share) == said);
}

TEST_CASE("a share is said with its counts") {
  CHECK(share_text({18, 28}) == "18 of 28 (64 %)");
  CHECK(share_text({18, 28}, "note") == "18 of 28 notes (64 %)");
  CHECK(share_text({1, 1}, "note") == "1 of 1 note (100 %)");
  CHECK(share_text({0, 0}, "note") == "no notes");
}

TEST_CASE("a gauge shows anything above nothing") {
  CHECK(gauge(5, 10, "#", 10) == "#####");
  CHECK(gauge(1, 1000, "#", 10) == "#");
  CHECK(gauge(0, 10, "#", 10).empty());
  CHECK(gauge(0, 0, "#", 10).empty());
  CHECK(gauge(10, 10, "#", 10) == "##########");
}

TEST_CASE("lists end in and") {
  CHECK(listed({}).empty());
  CHECK(listed({"a"}) == "a");
  CHECK(listed({"a", "b"}) == "a and b");
  CHECK(listed({"a", "b", "c"}) == "a, b and c");
}

TEST_CASE("bars are named once, in order, the pickup by its name") {
  CHECK(in_bars({4}) == "bar 4");
  CHECK(in_bars({7, 1, 3, 1}) == "bars 1, 3 and 7");
  CHECK(in_bars({0}) == "the pickup");
  CHECK(in_bars({0, 4}) == "the pickup and bar 4");
  CHECK(in_bars({0, 4, 5}) == "the pickup and bars 4 and 5");
  CHECK(in_bars({1, 2, 3, 4, 5, 6, 7, 8, 9, 10}) == "bars 1, 2, 3, 4, 5, 6, 7, 8 and 2 more");
}

TEST_CASE("one more bar is named, and with all details every bar is") {
  CHECK(in_bars({1, 2, 3, 4, 5, 6, 7, 8, 9}) == "bars 1, 2, 3, 4, 5, 6, 7, 8 and 9");
  CHECK(in_bars({1, 2, 3, 4, 5, 6, 7, 8, 9, 10}, insideline::reports::Length::whole) ==
        "bars 1, 2, 3, 4, 5, 6, 7, 8, 9 and 10");
}

TEST_CASE("a sentence begins with a capital, and a day is written year first") {
  CHECK(with_capital("bar 4") == "Bar 4");
  CHECK(with_capital("4 bars") == "4 bars");
  CHECK(with_capital("").empty());
  CHECK(day_text(std::chrono::sys_days(std::chrono::days(0))) == "1970-01-01");
  CHECK(day_text(std::chrono::year(2026) / 3 / 9) == "2026-03-09");
}

TEST_CASE("a day is read as it is written, and only if the calendar has it") {
  CHECK(parsed_day("2026-03-09") == std::chrono::sys_days(std::chrono::year(2026) / 3 / 9));
  CHECK(parsed_day("2024-02-29").has_value());
  for (const char* const none : {"2026-02-29", "2026-99-99", "2026-00-01", "2026-04-31", "2026-3-9", "26-03-09",
                                 "2026-03-09 ", "2026/03/09", "2026-0x-09", ""})
    CHECK_FALSE(parsed_day(none).has_value());
}

TEST_CASE("a place in a bar is told as it is counted") {
  CHECK(beat_in_words(Beats(2)) == "2");
  CHECK(beat_in_words(Beats(5, 2)) == "2&");
  CHECK(beat_in_words(Beats(7, 3)) == "2+1/3");
  CHECK(beat_in_words(Beats(11, 4)) == "2+3/4");
}

TEST_CASE("a paragraph keeps to the page and breaks between words") {
  const std::string word(38, 'x');
  CHECK(paragraph(word + " " + word + " end") == "  " + word + " " + word + "\n  end\n");
  CHECK(paragraph("").empty());
  CHECK(paragraph("one  two ") == "  one two\n");
}

}  // namespace insideline::tests
