#include "reports/json_measures.hpp"

#include <span>
#include <utility>

#include "reports/json_values.hpp"

namespace insideline::reports {
namespace {

Json density_json(const Density& density) {
  Json json;
  json["notes"] = density.notes;
  json["chord_tones"] = density.chord_tones;
  json["tensions"] = density.tensions;
  json["non_chord_tones"] = density.non_chord_tones;
  json["outside"] = density.outside;
  json["strict"] = counts_json(density.strict);
  json["quarters"] = number_or_null(density.duration);
  json["chord_tone_quarters"] = number_or_null(density.chord_tone_duration);
  return json;
}

Json densities_json(const Densities& densities) {
  Json json;
  json["all"] = density_json(densities.all);
  json["on_beat"] = density_json(densities.on_beat);
  json["off_beat"] = density_json(densities.off_beat);
  json["on_strong_beats"] = density_json(densities.on_strong_beats);
  json["on_chord_changes"] = density_json(densities.on_chord_changes);
  json["by_degree"] = Json::array();
  for (const DegreeCount& degree : densities.by_degree)
    json["by_degree"].push_back({{"degree", to_string(degree.degree)},
                                 {"notes", degree.count},
                                 {"on_beat", degree.on_beat},
                                 {"quarters", number_or_null(degree.duration)}});
  json["by_quality"] = Json::object();
  for (const QualityDensity& group : densities.by_quality)
    json["by_quality"][to_string(group.quality)] = density_json(group.density);
  json["by_chorus"] = Json::array();
  for (const Density& chorus : densities.by_chorus) json["by_chorus"].push_back(density_json(chorus));
  return json;
}

std::string contour_name(Contour contour) {
  switch (contour) {
    case Contour::rising: return "rising";
    case Contour::falling: return "falling";
    case Contour::arch: return "arch";
    case Contour::bowl: return "bowl";
    case Contour::level: return "level";
  }
  return {};
}

Json phrases_json(const Analysis& analysis) {
  Json json = Json::array();
  for (std::size_t i = 0; i < analysis.phrase_figures.size(); ++i) {
    const PhraseFigures& figures = analysis.phrase_figures[i];
    json.push_back({{"first_note", analysis.phrases[i].first},
                    {"last_note", analysis.phrases[i].last},
                    {"first_bar", figures.first_bar},
                    {"last_bar", figures.last_bar},
                    {"lowest", to_string(figures.lowest)},
                    {"highest", to_string(figures.highest)},
                    {"contour", contour_name(figures.contour)},
                    {"first_degree", text_or_null(figures.first_degree)},
                    {"last_degree", text_or_null(figures.last_degree)},
                    {"arpeggio_notes", counts_json(figures.arpeggio_share)},
                    {"density", density_json(figures.density)}});
  }
  return json;
}

Json cells_json(std::span<const Cell> cells) {
  Json json = Json::array();
  for (const Cell& cell : cells) {
    Json degrees = Json::array();
    for (const Degree& degree : cell.degrees) degrees.push_back(to_string(degree));
    json.push_back({{"degrees", degrees},
                    {"direction", to_string(cell.direction)},
                    {"quality", to_string(cell.quality)},
                    {"count", cell.count}});
  }
  return json;
}

Json threads_json(std::span<const Thread> threads) {
  Json json = Json::array();
  for (const Thread& thread : threads)
    json.push_back({{"chorus", thread.chorus},
                    {"notes", thread.notes},
                    {"chords", thread.chords},
                    {"semitones", thread.semitones},
                    {"least_possible", thread.least_possible},
                    {"by_chance", number_or_null(thread.by_chance)}});
  return json;
}

Json outline_json(const Outline& outline) {
  Json json;
  json["thirds"] = counts_json(outline.thirds);
  json["sevenths"] = counts_json(outline.sevenths);
  json["both"] = counts_json(outline.both);
  json["usual_first_guide_tone"] = text_or_null(outline.usual_first_guide_tone);
  json["chords"] = Json::array();
  for (const ChordOutline& chord : outline.chords)
    json["chords"].push_back({{"chord", chord.chord},
                              {"notes", chord.notes},
                              {"third", value_or_null(chord.third)},
                              {"seventh", value_or_null(chord.seventh)},
                              {"has_third", chord.has_third},
                              {"has_seventh", chord.has_seventh},
                              {"first_guide_tone", text_or_null(chord.first_guide_tone)}});
  return json;
}

Json heard_json(const HeardHarmony& heard) {
  Json json;
  json["candidates"] = heard.candidates;
  json["bits_per_chord"] = number_or_null(heard.bits_per_chord);
  json["first_rank"] = counts_json(heard.first_rank);
  json["bits_per_chord_by_chorus"] = Json::array();
  for (const double bits : heard.bits_per_chord_by_chorus)
    json["bits_per_chord_by_chorus"].push_back(number_or_null(bits));
  json["chords"] = Json::array();
  for (const HeardChord& chord : heard.chords)
    json["chords"].push_back(
        {{"chord", chord.chord}, {"notes", chord.notes}, {"rank", chord.rank}, {"bits", number_or_null(chord.bits)}});
  return json;
}

Json telling_bars_json(std::span<const TellingBar> bars) {
  Json json = Json::array();
  for (const TellingBar& bar : bars)
    json.push_back({{"bar", bar.bar}, {"first_note", bar.first_note}, {"last_note", bar.last_note}, {"why", bar.why}});
  return json;
}

Json lateness_json(const Lateness& lateness) {
  return {{"notes", lateness.notes},
          {"mean_ms", number_or_null(lateness.mean_ms)},
          {"spread_ms", number_or_null(lateness.spread_ms)},
          {"mean_percent", number_or_null(lateness.mean_percent)},
          {"spread_percent", number_or_null(lateness.spread_percent)}};
}

Json swing_json(const Swing& swing) {
  return {{"pairs", swing.pairs},
          {"ratio", number_or_null(swing.ratio)},
          {"lower_quartile", number_or_null(swing.lower)},
          {"upper_quartile", number_or_null(swing.upper)}};
}

Json time_feel_json(const std::optional<TimeFeel>& feel) {
  if (!feel) return nullptr;
  Json json;
  json["swing"] = feel->swing ? swing_json(*feel->swing) : Json(nullptr);
  json["on_beat"] = lateness_json(feel->on_beat);
  json["by_beat"] = Json::array();
  for (const BeatLateness& beat : feel->by_beat) {
    Json row = {{"beat", beat.beat}};
    row.update(lateness_json(beat.lateness));
    json["by_beat"].push_back(std::move(row));
  }
  json["off_beat"] = feel->off_beat ? lateness_json(*feel->off_beat) : Json(nullptr);
  return json;
}

}  // namespace

void add_measures(Json& document, const Report& report) {
  const Analysis& analysis = report.analysis;
  document["telling_bars"] = telling_bars_json(analysis.telling_bars);
  document["phrases"] = phrases_json(analysis);
  document["cells"] = cells_json(analysis.cells);
  document["threads"] = threads_json(analysis.threads);
  document["outline"] = outline_json(analysis.outline);
  document["heard_alone"] = heard_json(analysis.heard);
  document["densities"] = densities_json(analysis.densities);
  document["time_feel"] = time_feel_json(analysis.time_feel);
}

}  // namespace insideline::reports
