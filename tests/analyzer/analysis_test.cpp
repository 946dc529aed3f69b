// Laws that hold for every solo, tried on random ones.
#include "analyzer/analysis.hpp"

#include "tests/support/analysed.hpp"
#include "tests/support/melody.hpp"

#include <string>
#include <vector>

#include <rapidcheck.h>
#include <catch2/catch.hpp>

using insideline::Analysis;
using insideline::Beats;
using insideline::Harmony;
using insideline::Interval;
using insideline::Share;
using insideline::Solo;
using insideline::Summary;
using insideline::tests::random_line;

namespace {

/// Everything about an analysis that does not depend on names or on where bar 1 is.
std::string figures_of(const Analysis& analysis) {
  const Summary& summary = analysis.summary;
  std::string text;
  const auto add = [&](auto value) { text += std::to_string(value) + ' '; };
  const auto add_share = [&](const Share& share) {
    text += std::to_string(share.count) + '/' + std::to_string(share.of) + ' ';
  };
  for (const Share& share :
       {summary.chord_tone_share, summary.chord_tone_share_strict, summary.chord_tone_share_on_beat,
        summary.arpeggio_share, summary.nearest_taken_share, summary.guide_tone_resolutions, summary.thirds_given,
        summary.sevenths_given, analysis.heard.first_rank})
    add_share(share);
  for (const auto& [kind, count] : summary.connections_by_kind)
    text += to_string(kind) + ' ' + std::to_string(count) + ' ';
  for (const auto& arpeggio : analysis.arpeggios)
    text += to_string(arpeggio.direction) + to_string(arpeggio.inversion) + ' ';
  for (const auto& connection : analysis.connections) add(connection.semitones.value_or(99));
  for (const auto& cell : analysis.cells) add(cell.count);
  for (const auto& phrase : analysis.phrases) add(phrase.last);
  for (const auto& thread : analysis.threads) {
    add(thread.semitones);
    add(thread.least_possible);
  }
  return text;
}

std::string chance_of(const Analysis& analysis) {
  std::string text;
  for (const auto* chance : {&analysis.summary.chance, &analysis.summary.chance_by_transposing})
    for (const double value : chance->values) text += std::to_string(value) + ' ';
  return text;
}

void move_by(Solo& solo, Harmony& harmony, const Beats& time) {
  for (auto& note : solo.notes) note.onset += time;
  for (auto& chord : harmony.chords) chord.onset += time;
  const insideline::Bar last = solo.bars.back();
  for (Beats onset = last.onset + last.length; onset < last.onset + last.length + time; onset += last.length)
    solo.bars.push_back(
        {.number = solo.bars.back().number + 1, .onset = onset, .length = last.length, .meter = last.meter});
}

}  // namespace

TEST_CASE("transposing line and changes together changes nothing but names") {
  CHECK(rc::check([] {
    const auto line = random_line(*rc::gen::arbitrary<unsigned>(), 8);
    const Interval by = insideline::usual_interval(*rc::gen::inRange(-11, 12));
    const Analysis before = analyze(line.solo, line.harmony);
    const Analysis after =
        analyze(insideline::tests::transposed(line.solo, by), insideline::tests::transposed(line.harmony, by));
    RC_ASSERT(figures_of(before) == figures_of(after));
    RC_ASSERT(chance_of(before) == chance_of(after));
  }));
}

TEST_CASE("moving line and changes by whole bars changes nothing") {
  CHECK(rc::check([] {
    auto line = random_line(*rc::gen::arbitrary<unsigned>(), 8);
    const std::string before = figures_of(analyze(line.solo, line.harmony));
    move_by(line.solo, line.harmony, Beats(4 * *rc::gen::inRange(1, 5)));
    RC_ASSERT(before == figures_of(analyze(line.solo, line.harmony)));
  }));
}

TEST_CASE("the same solo gives the same analysis") {
  const auto line = random_line(9, 16);
  const Analysis once = analyze(line.solo, line.harmony);
  const Analysis again = analyze(line.solo, line.harmony);
  CHECK(figures_of(once) == figures_of(again));
  CHECK(chance_of(once) == chance_of(again));
  REQUIRE(once.telling_bars.size() == again.telling_bars.size());
  for (std::size_t i = 0; i < once.telling_bars.size(); ++i)
    CHECK(once.telling_bars[i].why == again.telling_bars[i].why);
}

TEST_CASE("whoever asks for the first page only gets its figures as they are, and the others not at all") {
  const auto line = random_line(7, 24);
  const Analysis all = analyze(line.solo, line.harmony);
  const Analysis figures = analyze(line.solo, line.harmony, {.detail = insideline::Detail::figures});
  const Analysis first_page = analyze(line.solo, line.harmony, {.detail = insideline::Detail::first_page});
  CHECK(figures_of(figures) == figures_of(all));
  Analysis without = all;
  without.cells.clear();
  without.threads.clear();
  CHECK(figures_of(first_page) == figures_of(without));
  for (const Analysis* whole : {&all, &figures}) {
    CHECK_FALSE(whole->threads.empty());
    CHECK(whole->phrase_figures.size() == whole->phrases.size());
    CHECK_FALSE(whole->densities.by_chorus.empty());
    CHECK(whole->summary.chance_by_transposing.shifts > 0);
  }
  CHECK(first_page.threads.empty());
  CHECK(first_page.phrase_figures.empty());
  CHECK(first_page.densities.by_chorus.empty());
  CHECK(first_page.summary.chance_by_transposing.shifts == 0);
}

TEST_CASE("arpeggios share a note only where one ends and the next begins, and connections stand at every change") {
  CHECK(rc::check([] {
    const auto line = random_line(*rc::gen::arbitrary<unsigned>(), 8);
    const Analysis analysis = analyze(line.solo, line.harmony);
    std::size_t next = 0;
    for (const auto& arpeggio : analysis.arpeggios) {
      RC_ASSERT(arpeggio.notes.front() >= next);
      RC_ASSERT(arpeggio.notes.size() >= 3U);
      next = arpeggio.notes.back();
    }
    int changes = 0;
    for (std::size_t i = 1; i < analysis.harmony.chords.size(); ++i)
      changes += analysis.harmony.chords[i].stretch != analysis.harmony.chords[i - 1].stretch ? 1 : 0;
    RC_ASSERT(analysis.summary.connections == changes);
  }));
}

TEST_CASE("a solo of one note, a solo of grace notes and a solo without chords are analysed") {
  const auto [chords, melody] = GENERATE(table<std::string, std::string>(
      {{"C@0", "C4:1"}, {"C@0", "C4:0 D4:0"}, {"N.C.@0", "C4:1 E4:1 G4:1 C5:1"}, {"C@0", "r:4 C4:0"}}));
  const Solo solo = insideline::tests::solo_from(melody);
  const Analysis analysis = analyze(solo, insideline::tests::harmony_from(chords, solo));
  CHECK(analysis.labels.size() == solo.notes.size());
  CHECK(analysis.arpeggios.empty());
}
