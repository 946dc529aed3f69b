#include "reports/json_summary.hpp"

#include "reports/json_values.hpp"
#include "reports/tallies.hpp"

#include <string>

namespace insideline::reports {
namespace {

void add_share(Json& json, const std::string& name, const Share& share) {
  json[name] = number_or_null(ratio(share));
  json[name + "_counts"] = counts_json(share);
}

template <typename Key>
Json by_name(const std::map<Key, int>& figures) {
  Json json = Json::object();
  for (const auto& [key, count] : figures) json[to_string(key)] = count;
  return json;
}

Json as_heard(const Summary& summary) {
  Json json;
  json["chord_tones"] = summary.chord_tones;
  json["tensions"] = summary.tensions;
  json["non_chord_tones"] = summary.non_chord_tones;
  json["outside"] = summary.outside;
  json["chord_tone_share"] = number_or_null(ratio(summary.chord_tone_share));
  json["chord_tone_share_by_duration"] = number_or_null(summary.chord_tone_share_by_duration);
  return json;
}

Json strict(const Summary& summary) {
  Json json;
  json["chord_tones"] = summary.chord_tone_share_strict.count;
  json["other_notes"] = summary.chord_tone_share_strict.of - summary.chord_tone_share_strict.count;
  json["chord_tone_share"] = number_or_null(ratio(summary.chord_tone_share_strict));
  json["chord_tone_share_by_duration"] = number_or_null(summary.chord_tone_share_by_duration_strict);
  return json;
}

Json tallied(const std::vector<Tally>& tallies) {
  Json json = Json::object();
  for (const Tally& tally : tallies) json[tally.name] = tally.where.size();
  return json;
}

Json chance_json(const Chance& chance) {
  Json json;
  json["shifts"] = chance.shifts;
  json["actual"] = number_or_null(chance.actual);
  json["mean"] = number_or_null(chance.mean);
  json["p_value"] = number_or_null(chance.p_value);
  return json;
}

}  // namespace

Json summary_json(const Report& report) {
  const Summary& summary = report.analysis.summary;
  Json json;
  json["notes"] = summary.notes;
  json["chord_tones"] = summary.chord_tones;
  json["tensions"] = summary.tensions;
  json["non_chord_tones"] = summary.non_chord_tones;
  json["outside"] = summary.outside;
  json["no_chord"] = summary.no_chord;
  json["grace_notes"] = summary.grace_notes;
  add_share(json, "chord_tone_share", summary.chord_tone_share);
  add_share(json, "chord_tone_share_strict", summary.chord_tone_share_strict);
  json["chord_tone_share_by_duration"] = number_or_null(summary.chord_tone_share_by_duration);
  add_share(json, "chord_tone_share_on_beat", summary.chord_tone_share_on_beat);
  add_share(json, "chord_tone_share_off_beat", summary.chord_tone_share_off_beat);
  add_share(json, "chord_tone_share_on_strong_beats", summary.chord_tone_share_on_strong_beats);
  add_share(json, "chord_tone_share_on_changes", summary.chord_tone_share_on_changes);
  json["thirds_given"] = counts_json(summary.thirds_given);
  json["sevenths_given"] = counts_json(summary.sevenths_given);
  json["as_heard"] = as_heard(summary);
  json["strict"] = strict(summary);
  add_share(json, "arpeggio_share", summary.arpeggio_share);
  json["arpeggio_share_by_duration"] = number_or_null(summary.arpeggio_share_by_duration);
  json["arpeggios"] = summary.arpeggios;
  json["arpeggios_ascending"] = summary.arpeggios_ascending;
  json["arpeggios_descending"] = summary.arpeggios_descending;
  json["arpeggios_mixed"] = summary.arpeggios_mixed;
  json["straight_descents"] = summary.straight_descents;
  json["arpeggio_shapes"] = tallied(arpeggio_shapes(report.analysis.arpeggios));
  json["arpeggio_inversions"] = tallied(arpeggio_inversions(report.analysis.arpeggios));
  json["borrowed_chords"] = tallied(borrowed_chords(report.analysis));
  json["connections"] = summary.connections;
  json["connections_by_kind"] = by_name(summary.connections_by_kind);
  add_share(json, "nearest_taken_share", summary.nearest_taken_share);
  json["guide_tone_resolutions"] = summary.guide_tone_resolutions.count;
  json["guide_tone_resolutions_counts"] = counts_json(summary.guide_tone_resolutions);
  json["chords_guessed_from_notes_alone"] = counts_json(report.analysis.heard.first_rank);
  json["tensions_by_degree"] = tallied(tensions_by_degree(report.solo, report.analysis.labels));
  json["figures"] = by_name(summary.figures);
  json["placements"] = by_name(summary.placements);
  json["chance"] = chance_json(summary.chance);
  json["chance_by_transposing"] = chance_json(summary.chance_by_transposing);
  return json;
}

}  // namespace insideline::reports
