#include "io/changes/chart_writer.hpp"

#include "io/changes/changes_file.hpp"
#include "tests/io/changes/chart_shorthand.hpp"

#include <catch2/catch.hpp>

#include <optional>
#include <string>
#include <string_view>

using insideline::Bar;
using insideline::Beats;
using insideline::Changes;
using insideline::ChordSpan;
using insideline::Extent;
using insideline::Key;
using insideline::Meter;
using insideline::Solo;
using insideline::io::chart_of_solo;
using insideline::io::parse_changes;
using insideline::io::parse_chart;
using insideline::io::write_chart;
using insideline::tests::played;

namespace {

Solo bars_of(int count, const Meter& meter = {}) {
  Solo solo;
  solo.title = "Slack Water";
  solo.keys = {{Beats(0), Key{-1}}};
  for (int bar = 0; bar < count; ++bar)
    solo.bars.push_back({bar + 1, bar_length(meter) * Beats(bar), bar_length(meter), meter});
  return solo;
}

/// A chord of a chart at another place.
ChordSpan at(std::string_view symbol, const Beats& onset, const Beats& duration) {
  ChordSpan span = parse_changes("| " + std::string(symbol) + " |", "a").spans.front();
  span.onset = onset;
  span.duration = duration;
  return span;
}

}  // namespace

TEST_CASE("the chords of a score become a chart, four bars a line, with its title, key, meter and tempo") {
  Changes over;
  over.extent = Extent::once;
  over.spans = {at("Fmaj7", Beats(0), Beats(8)), at("Gm7", Beats(8), Beats(2)), at("C7", Beats(10), Beats(2)),
                at("F6", Beats(12), Beats(3)), at("D7", Beats(15), Beats(5))};
  const auto chart = write_chart(chart_of_solo(bars_of(5), over), 140.0);
  CHECK(chart.text ==
        "title: Slack Water\nkey: F\nmeter: 4/4\ntempo: 140\n\n"
        "| Fmaj7 | % | Gm7 C7 | F6 . . D7 |\n| D7 |\n");
  CHECK(chart.moved.empty());
}

TEST_CASE("read again, the chart has the same chords at the same places") {
  const std::string text =
      "key: Eb\nmeter: 3/4\n[A] | Eb6 | Cm7 F7 | N.C. | Bb7 . C7/E |\nmeter: 2/4\n| Fm7 |\nmeter: 3/4\n[B] | Gm7 | % "
      "|\n";
  const Changes once = parse_changes(text, "a");
  const Changes again = parse_changes(write_chart(once, std::nullopt).text, "b");
  CHECK(played(again) == played(once));
  CHECK(again.key == once.key);
  REQUIRE(again.bars.size() == once.bars.size());
  for (std::size_t i = 0; i < once.bars.size(); ++i) {
    CHECK(again.bars[i].section == once.bars[i].section);
    CHECK(again.bars[i].length == once.bars[i].length);
  }
}

TEST_CASE("where no chord sounds the chart says so, and a pickup has no bar") {
  Solo solo = bars_of(3);
  solo.bars.insert(solo.bars.begin(), Bar{0, Beats(-1), Beats(1), {}});
  Changes over;
  over.spans = {at("C7", Beats(-1), Beats(1)), at("F7", Beats(4), Beats(4))};
  const auto chart = write_chart(chart_of_solo(solo, over), std::nullopt);
  CHECK(chart.text.find("pickup: 1\n\n| N.C. | F7 | N.C. |\n") != std::string::npos);
  CHECK(parse_changes(chart.text, "a").pickup == Beats(1));
}

TEST_CASE("a chord that begins within a beat is written on the nearest one, and its bar is told") {
  Changes over;
  over.spans = {at("C7", Beats(0), Beats(7, 2)), at("F7", Beats(7, 2), Beats(9, 2))};
  const auto chart = write_chart(chart_of_solo(bars_of(2), over), std::nullopt);
  CHECK(chart.moved == std::vector<int>{1});
  CHECK(chart.text.ends_with("| F7 | F7 |\n") == false);
  CHECK(chart.text.ends_with("| C7 . . F7 | F7 |\n"));
}

TEST_CASE("a bar shorter than its meter has a meter of its own in the chart") {
  Solo solo = bars_of(3);
  solo.bars[1].length = Beats(3);
  solo.bars[2].onset = Beats(7);
  Changes over;
  over.spans = {at("C7", Beats(0), Beats(11))};
  const auto chart = write_chart(chart_of_solo(solo, over), std::nullopt);
  CHECK(chart.text.ends_with("| C7 |\nmeter: 3/4\n| C7 |\nmeter: 4/4\n| C7 |\n"));
}
