#include "reports/html/map_data.hpp"

#include "analyzer/metre.hpp"
#include "reports/html/map_layout.hpp"
#include "reports/html/markup.hpp"
#include "reports/json_values.hpp"
#include "reports/text/display_width.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <unordered_map>
#include <vector>

namespace insideline::reports {
namespace {

/// Texts that come again and again, each of them once, by its number.
class Words {
 public:
  std::size_t number_of(const std::string& word) {
    const auto [place, is_new] = numbers_.emplace(word, words_.size());
    if (is_new) words_.push_back(word);
    return place->second;
  }
  [[nodiscard]] const std::vector<std::string>& all() const { return words_; }

 private:
  std::unordered_map<std::string, std::size_t> numbers_;
  std::vector<std::string> words_;
};

Json quarters(const Beats& time) {
  constexpr double places = 1e4;
  return std::round(to_double(time) * places) / places;
}

/// The connection into each note, in words: "♭7 to 3, half step, guide tone".
std::vector<std::string> connections(const Report& report) {
  std::vector<std::string> words(report.solo.notes.size());
  for (const Connection& connection : report.analysis.connections) {
    if (!connection.to_note || !connection.from_degree || !connection.to_degree) continue;
    std::string& said = words[*connection.to_note];
    said = with_accidentals(to_string(*connection.from_degree)) + " to " +
           with_accidentals(to_string(*connection.to_degree)) + ", " + to_string(connection.kind);
    if (connection.guide_tone) said += ", guide tone";
  }
  return words;
}

Json chords_json(const Harmony& harmony) {
  Json chords = Json::array();
  for (const SoundingChord& sounding : harmony.chords) {
    Json tones = Json::array();
    for (const Degree& degree : sounding.chord.tones)
      tones.push_back(pitch_class(note_at(sounding.chord.root, degree)));
    const NoteName bass = sounding.chord.bass.value_or(sounding.chord.root);
    chords.push_back({printable(sounding.chord.symbol), quarters(sounding.onset), quarters(sounding.duration), tones,
                      pitch_class(bass)});
  }
  return chords;
}

Json note_json(const Report& report, std::size_t index, const std::string& connection, Words& words) {
  const Note& note = report.solo.notes[index];
  const NoteLabel& label = report.analysis.labels[index];
  const std::size_t bar = bar_index_at(report.solo, note.onset);
  constexpr double hundred = 100.0;
  const std::string degree = label.degree ? with_accidentals(to_string(*label.degree)) : "";
  return {quarters(note.onset),
          quarters(note.duration),
          midi_number(note.pitch),
          words.number_of(to_string(note.pitch)),
          bar,
          words.number_of(note.grace ? "grace note" : place_in_words(report.solo.bars[bar], note.onset)),
          words.number_of(degree),
          label.governor ? Json(*label.governor) : Json(-1),
          words.number_of(to_string(label.role)),
          words.number_of(to_string(label.figure)),
          words.number_of(label.placement == Placement::in_place ? "" : to_string(label.placement)),
          static_cast<int>(std::lround(label.confidence * hundred)),
          words.number_of(printable(label.reason)),
          words.number_of(connection)};
}

}  // namespace

std::string map_data(const Report& report) {
  const Harmony& harmony = report.analysis.harmony;
  Words words;
  words.number_of("");  // number 0
  Json json;
  constexpr double usual_tempo = 120.0;
  json["tempo"] = std::round(report.solo.tempo_bpm.value_or(usual_tempo));
  json["swing"] = report.settings.feel == Feel::swing;
  json["chorus"] = quarters(harmony.chorus_length);
  json["bars"] = Json::array();
  for (const Bar& bar : report.solo.bars)
    json["bars"].push_back({bar.number, quarters(bar.onset), quarters(bar.length)});
  json["chords"] = chords_json(harmony);
  json["notes"] = Json::array();
  const std::vector<std::string> connection = connections(report);
  for (std::size_t i = 0; i < report.solo.notes.size(); ++i)
    json["notes"].push_back(note_json(report, i, connection[i], words));
  json["words"] = words.all();
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace insideline::reports
