#include "analyzer/model/sections.hpp"

#include "analyzer/alignment.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <string_view>
#include <vector>

using insideline::Bar;
using insideline::Beats;
using insideline::Changes;
using insideline::FormSection;
using insideline::Harmony;
using insideline::lay_out;
using insideline::names_of;
using insideline::place_among_its_name;
using insideline::sections_named;
using insideline::sections_of;
using insideline::Solo;

namespace {

/// A chart of bars in 4/4 with one letter a bar; a capital begins its section, a small letter goes on with it, "." has
/// none: "Aa Bb".
Changes lettered(std::string_view letters) {
  Changes changes;
  Beats now;
  for (const char letter : letters) {
    if (letter == ' ') continue;
    const bool begins = letter >= 'A' && letter <= 'Z';
    const std::string name =
        letter == '.' ? "" : std::string(1, begins ? letter : static_cast<char>(letter - 'a' + 'A'));
    changes.bars.push_back({.onset = now, .length = 4, .section = name, .meter = {}, .starts_section = begins});
    changes.spans.push_back({.chord = std::nullopt, .onset = now, .duration = 4});
    now += Beats(4);
  }
  return changes;
}

Solo resting(int bars, const Beats& pickup = {}) {
  Solo solo;
  if (pickup > Beats{}) solo.bars.push_back({.number = 0, .onset = -pickup, .length = pickup, .meter = {}});
  for (int bar = 0; bar < bars; ++bar)
    solo.bars.push_back({.number = bar + 1, .onset = Beats(4 * bar), .length = 4, .meter = {}});
  return solo;
}

/// "A1-2 B3-4x2": name, bars, and the chorus where it is not the first.
std::string sections(const Harmony& harmony) {
  std::string text;
  for (const auto& section : harmony.sections) {
    text += (text.empty() ? "" : " ") + section.name + std::to_string(section.first_bar) + "-" +
            std::to_string(section.last_bar);
    if (section.chorus > 1) text += "x" + std::to_string(section.chorus);
  }
  return text;
}

}  // namespace

TEST_CASE("a letter that comes twice in a row is two sections") {
  const std::vector<FormSection> form = sections_of(lettered("Aa Aa Bb Aa"));
  std::string text;
  for (const FormSection& section : form)
    text += section.name + std::to_string(section.first_bar) + "+" + std::to_string(section.bars) + " ";
  CHECK(text == "A0+2 A2+2 B4+2 A6+2 ");
}

TEST_CASE("bars before the first letter belong to no section, and a chart without letters has none") {
  const std::vector<FormSection> form = sections_of(lettered("..Aa"));
  REQUIRE(form.size() == 1);
  CHECK(form.front().first_bar == 2);
  CHECK(sections_of(lettered("....")).empty());
}

TEST_CASE("sections go round with the chart, and are cut where the solo ends") {
  CHECK(sections(lay_out(lettered("Aa Bb"), resting(7))) == "A1-2 B3-4 A5-6x2 B7-7x2");
}

TEST_CASE("a solo that begins inside the form begins in the section that sounds there") {
  CHECK(sections(lay_out(lettered("Aa Bb"), resting(6), {.start_bar = 3})) == "B1-2 A3-4x2 B5-6x2");
}

TEST_CASE("a pickup belongs to no section") {
  CHECK(sections(lay_out(lettered("Aa Bb"), resting(4, 1))) == "A1-2 B3-4");
}

TEST_CASE("where the chart has no letters the marks of the score name the sections") {
  Solo solo = resting(6);
  solo.marks = {{.onset = 8, .name = "B"}, {.onset = 16, .name = "C"}};
  CHECK(sections(lay_out(lettered(".."), solo)) == "B3-4 C5-6");
  CHECK(sections(lay_out(lettered("Aa"), solo)) == "A1-2 A3-4x2 A5-6x3");
}

TEST_CASE("sections are found as a musician names them") {
  const Harmony harmony = lay_out(lettered("Aa Aa Bb Aa"), resting(16));  // two choruses
  const auto [wanted, expected] = GENERATE(table<std::string, std::vector<std::size_t>>({
      {"B", {2, 6}},
      {"b", {2, 6}},
      {"A", {0, 1, 3, 4, 5, 7}},
      {"section A", {0, 1, 3, 4, 5, 7}},
      {"last A", {7}},
      {"Last a", {7}},
      {"first A", {0}},
      {"second A", {1}},
      {"A 2", {1}},
      {"A 4", {4}},
      {"B of chorus 2", {6}},
      {"last A of chorus 1", {3}},
      {"A 2 of chorus 2", {5}},
      {"A 7", {}},
      {"A 0", {}},
      {"C", {}},
      {"last C", {}},
      {"B of chorus 3", {}},
      {"last", {}},
      {"", {}},
      {" ", {}},
  }));
  CAPTURE(wanted);
  CHECK(sections_named(harmony.sections, wanted) == expected);
}

TEST_CASE("a chart has its sections by the same names") {
  const std::vector<FormSection> form = sections_of(lettered("Aa Aa Bb Aa"));
  const auto [wanted, expected] = GENERATE(table<std::string, std::vector<std::size_t>>({
      {"B", {2}},
      {"A", {0, 1, 3}},
      {"section b", {2}},
      {"last A", {3}},
      {"third A", {3}},
      {"A 2", {1}},
      {"fourth A", {}},
      {"A of chorus 1", {0, 1, 3}},
      {"A of chorus 2", {}},
  }));
  CAPTURE(wanted);
  CHECK(sections_named(form, wanted) == expected);
}

TEST_CASE("a section whose own name has a number or the word last is found by that name") {
  Solo solo = resting(6);
  solo.marks = {{.onset = 0, .name = "A 2"}, {.onset = 8, .name = "last time"}, {.onset = 16, .name = "17"}};
  const Harmony harmony = lay_out(lettered(".."), solo);
  CHECK(sections_named(harmony.sections, "A 2") == std::vector<std::size_t>{0});
  CHECK(sections_named(harmony.sections, "last time") == std::vector<std::size_t>{1});
  CHECK(sections_named(harmony.sections, "section 17") == std::vector<std::size_t>{2});
}

TEST_CASE("a double bar line stands where a section begins and where the source draws one") {
  Solo solo = resting(6);
  solo.double_bars = {20};
  const Harmony harmony = lay_out(lettered("..Aa"), solo);
  std::string bars;
  for (const auto& bar : solo.bars)
    if (has_double_bar(solo, harmony, bar.onset)) bars += std::to_string(bar.number) + " ";
  CHECK(bars == "3 6 ");
  CHECK_FALSE(has_double_bar(resting(4, 1), lay_out(lettered("Aa"), resting(4, 1)), 0));  // behind a pickup
}

TEST_CASE("a section knows which of its name it is") {
  const Harmony harmony = lay_out(lettered("Aa Aa Bb Aa"), resting(8));
  const auto place = place_among_its_name(harmony.sections, 3);
  CHECK(place.number == 3);
  CHECK(place.of == 3);
  CHECK(names_of(harmony.sections) == "A, A, B, A");
  CHECK(names_of(lay_out(lettered("Aa Bb"), resting(8)).sections) == "A, B");
}
