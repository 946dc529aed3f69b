// What is printed for a teacher to edit is what is heard: on all demo pieces.
#include "analyzer/alignment.hpp"
#include "analyzer/spelling.hpp"
#include "io/changes/changes_file.hpp"
#include "io/hearing/hearing_file.hpp"
#include "io/read_solo.hpp"
#include "io/solo_files.hpp"
#include "reports/hearing_text.hpp"
#include "reports/json_report.hpp"
#include "tests/support/folders.hpp"

#include <algorithm>
#include <filesystem>
#include <regex>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::NoteLabel;
using insideline::io::parse_hearing;
using insideline::reports::hearing_text;
using insideline::reports::Report;

namespace {

std::vector<std::string> demo_pieces() {
  std::vector<std::string> pieces;
  for (const auto& entry : std::filesystem::directory_iterator(INSIDELINE_CORPUS))
    if (entry.path().extension() == ".musicxml") pieces.push_back(entry.path().string());
  std::ranges::sort(pieces);
  return pieces;
}

Report read(const std::string& file) {
  insideline::io::ReadResult result = insideline::io::read_solo(file);
  const auto beside = insideline::io::changes_beside(file);
  const auto changes = beside ? insideline::io::read_chart(*beside).changes : result.changes.value();
  Report report;
  report.analysis.harmony = lay_out(changes, result.solo);
  report.solo = spelled_by_harmony(std::move(result.solo), report.analysis.harmony);
  report.source.solo_file = std::filesystem::path(file).filename().string();
  return report;
}

Report heard(Report report, const std::string& hearing) {
  report.settings.pins = parse_hearing(hearing, "x.hearing", report.solo).pins;
  report.analysis = analyze(report.solo, report.analysis.harmony, report.settings);
  return report;
}

std::string without_signs(const std::string& text) { return std::regex_replace(text, std::regex("\n# (\\d)"), "\n$1"); }

bool same_label(const NoteLabel& a, const NoteLabel& b) {
  return a.role == b.role && a.figure == b.figure && a.governor == b.governor && a.degree == b.degree &&
         a.placement == b.placement && a.resolves_to == b.resolves_to;
}

}  // namespace

TEST_CASE("law: a printed hearing file read again gives the same analysis") {
  for (const std::string& piece : demo_pieces()) {
    INFO(piece);
    const Report plain = heard(read(piece), "");
    const Report again = heard(read(piece), hearing_text(plain));
    CHECK(again.settings.pins.empty());
    CHECK(json_report(again) == json_report(plain));
  }
}

TEST_CASE("law: every line of it taken as said gives every note the label it had") {
  for (const std::string& piece : demo_pieces()) {
    INFO(piece);
    const Report plain = heard(read(piece), "");
    const Report said = heard(read(piece), without_signs(hearing_text(plain)));
    CHECK(std::ranges::equal(said.analysis.labels, plain.analysis.labels, same_label));
    CHECK(insideline::reports::set_by_hand(said.analysis) + said.analysis.summary.no_chord ==
          static_cast<int>(said.solo.notes.size()));
    CHECK(said.analysis.arpeggios.size() == plain.analysis.arpeggios.size());
  }
}

TEST_CASE("law: what was said is printed as it was said") {
  for (const std::string& piece : demo_pieces()) {
    INFO(piece);
    const Report plain = heard(read(piece), "");
    const Report said = heard(read(piece), without_signs(hearing_text(plain)));
    const Report again = heard(read(piece), hearing_text(said));
    CHECK(again.settings.pins == said.settings.pins);
    CHECK(json_report(again) == json_report(said));
  }
}

TEST_CASE("only the unsure readings are printed where that is asked for") {
  const Report plain = heard(read(INSIDELINE_CORPUS "/lantern-street.musicxml"), "");
  const std::string unsure = hearing_text(plain, insideline::reports::HearingLines::unsure);
  const auto lines = [](const std::string& text) {
    const std::regex line("\n# \\d");
    return std::distance(std::sregex_iterator(text.begin(), text.end(), line), std::sregex_iterator());
  };
  CHECK(lines(hearing_text(plain)) == static_cast<std::ptrdiff_t>(plain.solo.notes.size()));
  CHECK(lines(unsure) == std::ranges::count_if(plain.analysis.labels, [](const NoteLabel& label) {
          return label.confidence < insideline::reports::sure_enough;
        }));
  CHECK(lines(unsure) > 0);
}
