#include "analyzer/takes/take_verdict.hpp"
#include "reports/assessment/assessment_report.hpp"
#include "reports/json_measures.hpp"
#include "reports/json_writer.hpp"

#include <utility>

namespace insideline::reports {
namespace {

const char* word(Readiness readiness) {
  switch (readiness) {
    case Readiness::ready: return "ready";
    case Readiness::unsettled: return "not settled";
    case Readiness::not_ready: return "not ready";
  }
  return "";
}

const char* word(Broken how) {
  switch (how) {
    case Broken::began_again: return "began again";
    case Broken::left_out: return "left out";
    case Broken::stopped: return "stopped";
    case Broken::came_early: return "came early";
  }
  return "";
}

void write_bounds(JsonWriter& json, const AssessmentReport& report) {
  json.member("one_mistake_in", report.bound);
  json.member("confidence", 0.95);
  json.member("tempo_band_percent", report.bounds.tempo_band_percent);
  json.member("jump_percent", report.bounds.jump_percent);
  json.member("uneven_percent", report.bounds.uneven_percent);
  json.member("notes_an_added_one", report.bounds.notes_an_added_one);
  json.member("fewest_in_pattern", report.bounds.fewest_in_pattern);
}

void write_verdict(JsonWriter& json, const TakeVerdict& verdict) {
  json.member("readiness", word(verdict.readiness));
  json.member("notes_alone", word(verdict.notes));
  json.member("right", verdict.right);
  json.member("whole", verdict.whole);
  json.member("unbroken", verdict.unbroken);
  json.member("as_written", verdict.as_written);
  json.member("steady", verdict.steady);
  json.member("even", verdict.even);
}

void write_group(JsonWriter& json, const TakeGroup& group) {
  json.member("name", group.name);
  json.member("right", group.right);
  json.member("octave_slips", group.octave_slips);
  json.member("wrong", group.wrong);
  json.member("missing", group.missing);
}

void write_groups(JsonWriter& json, std::string_view name, const std::vector<TakeGroup>& groups) {
  json.list(name, groups, [&](const TakeGroup& group) { json.object([&] { write_group(json, group); }); });
}

void write_coverage(JsonWriter& json, const Coverage& coverage) {
  json.member("bars", coverage.bars);
  json.list("silent", coverage.silent, [&](const BarRun& run) {
    json.object([&] {
      json.member("first", run.first);
      json.member("last", run.last);
    });
  });
}

void write_interruption(JsonWriter& json, const Interruption& interruption) {
  json.member("how", word(interruption.how));
  json.member("bar", interruption.bar);
  json.member("on_in", interruption.on_in);
  json.member("quarters", interruption.quarters);
}

void write_mistake(JsonWriter& json, const Mistake& mistake) {
  json.member("bar", mistake.bar);
  json.member("beat", mistake.beat);
  json.member("wanted", mistake.wanted);
  json.member("played", mistake.played);
  json.member("octave_off", mistake.octave_off);
}

void write_tempo(JsonWriter& json, const std::optional<TempoCourse>& tempo) {
  if (!tempo) return json.member("tempo", nullptr);
  json.object("tempo", [&] {
    json.member("mean_bpm", tempo->mean_bpm);
    json.member("start_bpm", tempo->start_bpm);
    json.member("end_bpm", tempo->end_bpm);
    json.member("drift_percent", tempo->drift_percent);
    json.member("drift_a_chorus", tempo->drift_a_chorus);
    json.member("furthest_percent", tempo->furthest_percent);
    json.list("jumps", tempo->jumps, [&](const TempoJump& jump) {
      json.object([&] {
        json.member("bar", jump.bar);
        json.member("from_bpm", jump.from_bpm);
        json.member("to_bpm", jump.to_bpm);
      });
    });
    json.list("course", tempo->tempi, [&](const TempoAt& at) {
      json.object([&] {
        json.member("bar", at.bar);
        json.member("bpm", at.bpm);
      });
    });
  });
}

void write_evenness(JsonWriter& json, const std::optional<Evenness>& evenness) {
  if (!evenness) return json.member("evenness", nullptr);
  json.object("evenness", [&] {
    json.member("notes", evenness->notes);
    json.member("tempo_bpm", evenness->tempo_bpm);
    json.member("spread_ms", evenness->spread_ms);
    json.member("spread_percent", evenness->spread_percent);
    json.member("swing_ratio", evenness->swing_ratio);
  });
}

void write_beat(JsonWriter& json, const std::optional<TimeFeel>& feel) {
  if (!feel || feel->on_beat.notes == 0) return json.member("on_beat", nullptr);
  json.object("on_beat", [&] {
    json.member("notes", feel->on_beat.notes);
    json.member("mean_ms", feel->on_beat.mean_ms);
    json.member("spread_ms", feel->on_beat.spread_ms);
  });
}

}  // namespace

std::string assessment_json(const AssessmentReport& report) {
  const Assessment& found = report.assessment;
  JsonWriter json;
  json.member("format", "insideline-assessment");
  json.member("version", 1);
  json.member("take", report.take_file);
  json.member("sheet", report.sheet_title);
  write_from_sound(json, report.from_sound);
  json.object("method", [&] { write_bounds(json, report); });
  json.object("verdict", [&] { write_verdict(json, verdict_of(found, report.bound, report.bounds)); });
  json.object("notes", [&] { write_group(json, found.all); });
  json.member("added", found.added);
  json.member("times_through", found.passes);
  json.object("coverage", [&] { write_coverage(json, found.coverage); });
  json.list("interruptions", found.interruptions,
            [&](const Interruption& interruption) { json.object([&] { write_interruption(json, interruption); }); });
  json.member("hesitations", found.hesitations);
  write_tempo(json, found.tempo);
  write_evenness(json, found.evenness);
  write_beat(json, report.time_feel);
  json.list("mistakes", found.mistakes,
            [&](const Mistake& mistake) { json.object([&] { write_mistake(json, mistake); }); });
  write_groups(json, "patterns", found.trouble_spots);
  write_groups(json, "by_time_through", found.by_pass);
  write_groups(json, "by_chord", found.by_chord);
  write_groups(json, "by_kind_of_chord", found.by_quality);
  write_groups(json, "by_direction", found.by_direction);
  write_groups(json, "by_inversion", found.by_inversion);
  write_groups(json, "by_cell", found.by_cell);
  write_groups(json, "by_place", found.by_place);
  write_groups(json, "by_bar_of_section", found.by_form_bar);
  write_groups(json, "by_bar", found.by_bar);
  return std::move(json).finished();
}

}  // namespace insideline::reports
