#include "reports/json_summary.hpp"

#include "reports/tallies.hpp"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace insideline::reports {
namespace {

void write_share(JsonWriter& json, const std::string& name, const Share& share) {
  json.member(name, ratio(share));
  json.member(name + "_counts", share);
}

template <typename Key>
void write_by_name(JsonWriter& json, std::string_view name, const std::map<Key, int>& figures) {
  json.object(name, [&] {
    for (const auto& [key, count] : figures) json.member(to_string(key), count);
  });
}

void write_as_heard(JsonWriter& json, const Summary& summary) {
  json.member("chord_tones", summary.chord_tones);
  json.member("tensions", summary.tensions);
  json.member("non_chord_tones", summary.non_chord_tones);
  json.member("outside", summary.outside);
  json.member("chord_tone_share", ratio(summary.chord_tone_share));
  json.member("chord_tone_share_by_duration", summary.chord_tone_share_by_duration);
}

void write_strict(JsonWriter& json, const Summary& summary) {
  json.member("chord_tones", summary.chord_tone_share_strict.count);
  json.member("other_notes", summary.chord_tone_share_strict.of - summary.chord_tone_share_strict.count);
  json.member("chord_tone_share", ratio(summary.chord_tone_share_strict));
  json.member("chord_tone_share_by_duration", summary.chord_tone_share_by_duration_strict);
}

void write_tallies(JsonWriter& json, std::string_view name, const std::vector<Tally>& tallies) {
  json.object(name, [&] {
    for (const Tally& tally : tallies) json.member(tally.name, tally.where.size());
  });
}

void write_chance(JsonWriter& json, std::string_view name, const Chance& chance) {
  json.object(name, [&] {
    json.member("shifts", chance.shifts);
    json.member("actual", chance.actual);
    json.member("mean", chance.mean);
    json.member("p_value", chance.p_value);
  });
}

}  // namespace

void write_summary(JsonWriter& json, const Report& report) {
  const Summary& summary = report.analysis.summary;
  json.object("summary", [&] {
    json.member("notes", summary.notes);
    json.member("chord_tones", summary.chord_tones);
    json.member("tensions", summary.tensions);
    json.member("non_chord_tones", summary.non_chord_tones);
    json.member("outside", summary.outside);
    json.member("no_chord", summary.no_chord);
    json.member("grace_notes", summary.grace_notes);
    write_share(json, "chord_tone_share", summary.chord_tone_share);
    write_share(json, "chord_tone_share_strict", summary.chord_tone_share_strict);
    json.member("chord_tone_share_by_duration", summary.chord_tone_share_by_duration);
    write_share(json, "chord_tone_share_on_beat", summary.chord_tone_share_on_beat);
    write_share(json, "chord_tone_share_off_beat", summary.chord_tone_share_off_beat);
    write_share(json, "chord_tone_share_on_strong_beats", summary.chord_tone_share_on_strong_beats);
    write_share(json, "chord_tone_share_on_changes", summary.chord_tone_share_on_changes);
    json.member("thirds_given", summary.thirds_given);
    json.member("sevenths_given", summary.sevenths_given);
    json.object("as_heard", [&] { write_as_heard(json, summary); });
    json.object("strict", [&] { write_strict(json, summary); });
    write_share(json, "arpeggio_share", summary.arpeggio_share);
    json.member("arpeggio_share_by_duration", summary.arpeggio_share_by_duration);
    json.member("arpeggios", summary.arpeggios);
    json.member("arpeggios_ascending", summary.arpeggios_ascending);
    json.member("arpeggios_descending", summary.arpeggios_descending);
    json.member("arpeggios_mixed", summary.arpeggios_mixed);
    json.member("arpeggios_two_way", summary.arpeggios_two_way);
    json.member("straight_descents", summary.straight_descents);
    write_tallies(json, "arpeggio_shapes", arpeggio_shapes(report.analysis.arpeggios));
    write_tallies(json, "arpeggio_inversions", arpeggio_inversions(report.analysis.arpeggios));
    write_tallies(json, "borrowed_chords", borrowed_chords(report.analysis));
    json.member("connections", summary.connections);
    write_by_name(json, "connections_by_kind", summary.connections_by_kind);
    write_share(json, "nearest_taken_share", summary.nearest_taken_share);
    // As many as connections with `guide_tone`; those that arrive late stand beside them.
    const Share& guide_tones = summary.guide_tone_resolutions;
    const Share at_once{guide_tones.count - summary.guide_tones_late, guide_tones.of};
    json.member("guide_tone_resolutions", at_once.count);
    json.member("guide_tone_resolutions_counts", at_once);
    json.member("guide_tones_kept", summary.guide_tones_kept);
    json.member("guide_tones_late", summary.guide_tones_late);
    json.member("chords_guessed_from_notes_alone", report.analysis.heard.first_rank);
    write_tallies(json, "tensions_by_degree", tensions_by_degree(report.solo, report.analysis.labels));
    write_by_name(json, "figures", summary.figures);
    write_by_name(json, "placements", summary.placements);
    write_chance(json, "chance", summary.chance);
    write_chance(json, "chance_by_transposing", summary.chance_by_transposing);
  });
}

}  // namespace insideline::reports
