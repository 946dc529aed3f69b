#include "reports/comparison/beside.hpp"
#include "reports/comparison/comparison_report.hpp"
#include "reports/comparison/sentences.hpp"
#include "reports/json_writer.hpp"

#include <array>
#include <utility>

namespace insideline::reports {
namespace {

const char* word(Occasion occasion) {
  switch (occasion) {
    case Occasion::solos: return "solos";
    case Occasion::before_after: return "before and after";
    case Occasion::choruses: return "choruses";
    case Occasion::sections: return "sections";
  }
  return "";
}

const char* word(Verdict verdict) {
  switch (verdict) {
    case Verdict::more: return "clearly more";
    case Verdict::less: return "clearly less";
    case Verdict::no_clear_difference: return "no clear difference";
    case Verdict::in_neither: return "in neither";
    case Verdict::too_few: return "too few";
  }
  return "";
}

const char* word(FigureUnit unit) {
  switch (unit) {
    case FigureUnit::notes: return "share of notes";
    case FigureUnit::time: return "share of quarter notes";
    case FigureUnit::arpeggios: return "share of arpeggios";
    case FigureUnit::connections: return "share of connections";
    case FigureUnit::chords: return "share of chords";
    case FigureUnit::phrases: return "share of phrases";
    case FigureUnit::points: return "share above another";
    case FigureUnit::per_bar: return "a bar";
    case FigureUnit::in_notes: return "notes";
    case FigureUnit::in_beats: return "quarter notes";
    case FigureUnit::in_semitones: return "semitones";
    case FigureUnit::in_bits: return "bits";
  }
  return "";
}

void write_solo(JsonWriter& json, const ComparisonReport& report, std::size_t index) {
  const ComparedSolo& solo = report.solos[index];
  const Report& read = report.read[report.read.size() == 1 ? 0 : index];
  json.member("name", solo.name);
  json.member("solo", read.source.solo_file);
  json.member("changes", read.source.changes_file);
  json.member("part", read.solo.part);
  json.member("title", read.solo.title);
  json.member("bars", solo.bars);
  json.member("notes", solo.notes);
  json.member("connections", solo.changes);
  json.member("judged", report.comparison.solos[index].judged);
}

void write_value(JsonWriter& json, const FigureValue& value) {
  json.member("value", value.value);
  json.member("part", value.sum.part);
  json.member("of", value.sum.whole);
  json.member("block_bars", value.block);
}

void write_difference(JsonWriter& json, const ComparisonReport& report, std::size_t solo, std::size_t row) {
  const FigureDifference& difference = report.comparison.solos[solo].differences[row];
  json.member("solo", solo);
  json.member("difference", difference.difference);
  if (difference.interval)
    json.member("interval", std::array{difference.interval->low, difference.interval->high});
  else
    json.member("interval", nullptr);
  json.member("verdict", word(difference.verdict));
  json.member("sentence", sentence_about(report, solo, row));
}

void write_figure(JsonWriter& json, const ComparisonReport& report, std::size_t row) {
  const FigureRow& figure = figure_rows()[row];
  json.member("key", figure.key);
  json.member("name", figure.name);
  json.member("meaning", figure.meaning);
  json.member("group", heading(figure.group));
  json.member("main", figure.rank == FigureRank::main);
  json.member("unit", word(figure.unit));
  json.list("values", report.comparison.solos,
            [&](const SoloComparison& side) { json.object([&] { write_value(json, side.values[row]); }); });
  json.list("against_first", [&] {
    for (std::size_t i = 1; i < report.solos.size(); ++i) json.object([&] { write_difference(json, report, i, row); });
  });
}

int number_of_bar(const ComparisonReport& report, std::size_t solo, std::size_t bar) {
  return report_of_solo(report, solo).solo.bars[bar].number;
}

void write_same_bar(JsonWriter& json, const ComparisonReport& report, const BesideFirst& pair, const SameBar& bar) {
  const BesideCounts counts = counts_of(bar);
  json.member("bar_of_first", number_of_bar(report, 0, bar.first_bar));
  json.member("bar", number_of_bar(report, pair.other, bar.other_bar));
  json.member("difference", bar.difference);
  json.member("same", counts.same);
  json.member("other_pitch", counts.other_pitch);
  json.member("other_role", counts.other_role);
  json.member("other_pitch_and_role", counts.other_pitch_and_role);
  json.member("only_first", counts.only_first);
  json.member("only_here", counts.only_other);
}

void write_same_bars(JsonWriter& json, const ComparisonReport& report, const BesideFirst& pair) {
  json.member("solo", pair.other);
  json.list("talk_about", [&] {
    for (const std::size_t index : pair.bars.to_talk_about)
      json.add(number_of_bar(report, pair.other, pair.bars.bars[index].other_bar));
  });
  json.list("bars", pair.bars.bars,
            [&](const SameBar& bar) { json.object([&] { write_same_bar(json, report, pair, bar); }); });
}

}  // namespace

std::string comparison_json(const ComparisonReport& report) {
  JsonWriter json;
  json.member("format", "insideline-comparison");
  json.member("version", 3);
  json.member("occasion", word(report.occasion));
  json.object("method", [&] {
    json.member("resamples", report.settings.resamples);
    json.member("seed", report.settings.seed);
    json.member("confidence", 0.95);
    json.member("many_looks", many_looks(report));
  });
  json.list("solos", [&] {
    for (std::size_t i = 0; i < report.solos.size(); ++i) json.object([&] { write_solo(json, report, i); });
  });
  json.member("cautions", report.comparison.cautions);
  json.member("warnings", report.warnings);
  json.list("figures", [&] {
    for (std::size_t row = 0; row < figure_rows().size(); ++row) json.object([&] { write_figure(json, report, row); });
  });
  json.list("same_bars", solos_beside_first(report),
            [&](const BesideFirst& pair) { json.object([&] { write_same_bars(json, report, pair); }); });
  return std::move(json).finished();
}

}  // namespace insideline::reports
