#include "reports/comparison/comparison_report.hpp"
#include "reports/comparison/sentences.hpp"
#include "reports/json_layout.hpp"
#include "reports/json_values.hpp"

namespace insideline::reports {
namespace {

const char* word(Occasion occasion) {
  switch (occasion) {
    case Occasion::solos: return "solos";
    case Occasion::before_after: return "before and after";
    case Occasion::choruses: return "choruses";
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

Json solos_json(const ComparisonReport& report) {
  Json json = Json::array();
  for (std::size_t i = 0; i < report.solos.size(); ++i) {
    const ComparedSolo& solo = report.solos[i];
    const Report& read = report.read[report.read.size() == 1 ? 0 : i];
    json.push_back({{"name", solo.name},
                    {"solo", read.source.solo_file},
                    {"changes", read.source.changes_file},
                    {"part", read.solo.part},
                    {"title", read.solo.title},
                    {"bars", solo.bars},
                    {"notes", solo.notes},
                    {"connections", solo.changes},
                    {"judged", report.comparison.solos[i].judged}});
  }
  return json;
}

Json interval_json(const std::optional<Interval95>& interval) {
  if (!interval) return nullptr;
  return Json::array({number_or_null(interval->low), number_or_null(interval->high)});
}

Json figure_json(const ComparisonReport& report, std::size_t row) {
  const FigureRow& figure = figure_rows()[row];
  Json json;
  json["key"] = figure.key;
  json["name"] = figure.name;
  json["meaning"] = figure.meaning;
  json["group"] = heading(figure.group);
  json["main"] = figure.rank == FigureRank::main;
  json["unit"] = word(figure.unit);
  json["values"] = Json::array();
  json["against_first"] = Json::array();
  for (std::size_t i = 0; i < report.solos.size(); ++i) {
    const SoloComparison& side = report.comparison.solos[i];
    const FigureValue& value = side.values[row];
    json["values"].push_back({{"value", number_or_null(value.value)},
                              {"part", number_or_null(value.sum.part)},
                              {"of", number_or_null(value.sum.whole)},
                              {"block_bars", value.block}});
    if (i == 0) continue;
    const FigureDifference& difference = side.differences[row];
    json["against_first"].push_back({{"solo", i},
                                     {"difference", number_or_null(difference.difference)},
                                     {"interval", interval_json(difference.interval)},
                                     {"verdict", word(difference.verdict)},
                                     {"sentence", sentence_about(report, i, row)}});
  }
  return json;
}

}  // namespace

std::string comparison_json(const ComparisonReport& report) {
  Json document;
  document["format"] = "insideline-comparison";
  document["version"] = 2;
  document["occasion"] = word(report.occasion);
  document["method"] = {{"resamples", report.settings.resamples},
                        {"seed", report.settings.seed},
                        {"confidence", 0.95},
                        {"many_looks", many_looks(report)}};
  document["solos"] = solos_json(report);
  document["cautions"] = report.comparison.cautions;
  document["warnings"] = report.warnings;
  document["figures"] = Json::array();
  for (std::size_t row = 0; row < figure_rows().size(); ++row) document["figures"].push_back(figure_json(report, row));
  return laid_out(document);
}

}  // namespace insideline::reports
