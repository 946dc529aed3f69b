#include "reports/html/map_systems.hpp"

#include "tests/support/analysed.hpp"
#include "tests/support/melody.hpp"

#include <string>

#include <catch2/catch.hpp>

using insideline::Beats;
using insideline::reports::bars_a_system;
using insideline::reports::map_systems;
using insideline::reports::MapSystem;
using insideline::reports::Report;
using insideline::reports::stacked_order;
using insideline::tests::harmony_from;
using insideline::tests::solo_from;

namespace {

/// Whole notes, one a bar.
Report report_of_bars(int bars, int form_bars, const Beats& start_beat = 1) {
  std::string melody;
  for (int bar = 0; bar < bars; ++bar) melody += "C4:4 ";
  Report report;
  report.solo = solo_from(melody, {}, start_beat);
  report.analysis.harmony = harmony_from("C@0", report.solo);
  report.analysis.harmony.chorus_length = Beats(4 * form_bars);
  report.analysis.harmony.choruses = form_bars > 0 ? (bars + form_bars - 1) / form_bars : 1;
  report.analysis.labels.resize(report.solo.notes.size());
  return report;
}

/// "1:1-4 1:5-6 2:7-10": chorus and bars of each system.
std::string systems_of(const Report& report) {
  std::string text;
  for (const MapSystem& system : map_systems(report))
    text += (text.empty() ? "" : " ") + std::to_string(system.chorus) + ":" +
            std::to_string(report.solo.bars[system.first_bar].number) + "-" +
            std::to_string(report.solo.bars[system.last_bar].number);
  return text;
}

}  // namespace

TEST_CASE("every chorus begins a system of its own") {
  CHECK(systems_of(report_of_bars(12, 6)) == "1:1-4 1:5-6 2:7-10 2:11-12");
  CHECK(systems_of(report_of_bars(5, 0)) == "1:1-4 1:5-5");
  CHECK(systems_of(report_of_bars(5, 4)) == "1:1-4 2:5-5");
}

TEST_CASE("bars before the form begins belong to no chorus") {
  Report report = report_of_bars(6, 4);
  report.analysis.harmony.first_chorus = Beats(8);
  CHECK(systems_of(report) == "0:1-2 1:3-6");
}

TEST_CASE("a pickup has a system of its own") {
  Report report = report_of_bars(4, 4, -2);
  CHECK(systems_of(report).starts_with("0:0-0 1:1-"));
}

TEST_CASE("stacked, the same bars of every chorus stand under each other") {
  const auto systems = map_systems(report_of_bars(16, 8));
  CHECK(stacked_order(systems) == std::vector<std::size_t>{0, 2, 1, 3});
}

TEST_CASE("every note is in one system") {
  const Report report = report_of_bars(11, 4);
  std::size_t next = 0;
  for (const MapSystem& system : map_systems(report)) {
    CHECK(system.first_note == next);
    next = system.end_note;
  }
  CHECK(next == report.solo.notes.size());
}

TEST_CASE("quick notes and long bars get fewer bars a system") {
  CHECK(bars_a_system(solo_from("C4:1/2 D4:1/2 E4:1 F4:2")) == 4);
  CHECK(bars_a_system(solo_from("C4:1/4 D4:1/4 E4:1/4 F4:1/4 G4:1/4 F4:1/4 E4:1/4 D4:1/4 C4:2")) == 2);
  CHECK(bars_a_system(solo_from("C4:7", {7, 4})) == 2);
}
