#include "reports/html/map_data.hpp"

#include "analyzer/metre.hpp"
#include "reports/html/map_layout.hpp"
#include "reports/html/markup.hpp"
#include "reports/html/player_names.hpp"
#include "reports/json_writer.hpp"
#include "reports/reading_words.hpp"
#include "reports/text/display_width.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <unordered_map>
#include <utility>
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

double quarters(const Beats& time) {
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

/// The tones as pitch classes that sound: this is what the page plays.
void write_chord(JsonWriter& json, const Reading& reading, const SoundingChord& sounding) {
  const auto sounding_class = [&](const NoteName& name) {
    return pitch_class(transposed(name, {0, -reading.above_sounding.semitones}));
  };
  json.add(printable(sounding.chord.symbol));
  json.add(quarters(sounding.onset));
  json.add(quarters(sounding.duration));
  json.list([&] {
    for (const Degree& degree : sounding.chord.tones) json.add(sounding_class(note_at(sounding.chord.root, degree)));
  });
  json.add(sounding_class(sounding.chord.bass.value_or(sounding.chord.root)));
}

void write_note(JsonWriter& json, const Report& report, std::size_t index, const std::string& connection,
                Words& words) {
  const Note& note = report.solo.notes[index];
  const NoteLabel& label = report.analysis.labels[index];
  const std::size_t bar = bar_index_at(report.solo, note.onset);
  constexpr double hundred = 100.0;
  const auto add_word = [&](const std::string& word) { json.add(words.number_of(word)); };
  json.add(quarters(note.onset));
  json.add(quarters(note.duration));
  json.add(sounding_midi(report.reading, note.pitch));
  add_word(to_string(note.pitch));
  json.add(bar);
  add_word(note.grace ? "grace note" : place_in_words(report.solo.bars[bar], note.onset));
  add_word(label.degree ? with_accidentals(to_string(*label.degree)) : "");
  if (label.governor)
    json.add(*label.governor);
  else
    json.add(-1);
  add_word(to_string(label.role));
  add_word(to_string(label.figure));
  add_word(label.placement == Placement::in_place ? "" : to_string(label.placement));
  json.add(std::lround(label.confidence * hundred));
  add_word(printable(label.reason));
  add_word(connection);
}

/// Who may read the page, and the names for whoever reads it in another pitch.
void write_names(JsonWriter& json, const Report& report, Words& words) {
  const PlayerNames names = player_names(report);
  json.list("readers", names.readers, [&](const PageReader& reader) {
    json.list([&] {
      json.add(reader.name);
      if (reader.moved)
        json.add(*reader.moved);
      else
        json.add(-1);
      json.add(reader.octaves);
    });
  });
  json.list("names", names.moved, [&](const MovedNames& moved) {
    json.list([&] {
      json.add(to_string(transposed(NoteName{}, moved.by)));
      json.list([&] {
        for (const std::string& chord : moved.chords) json.add(chord);
      });
      json.list([&] {
        for (const std::string& note : moved.notes) json.add(words.number_of(note));
      });
    });
  });
}

void write_parts(JsonWriter& json, const Report& report) {
  json.list("phrases", report.analysis.phrases, [&](const Phrase& phrase) {
    json.list([&] {
      json.add(quarters(report.solo.notes[phrase.first].onset));
      json.add(quarters(end_of(report.solo.notes[phrase.last])));
    });
  });
  json.list("sections", report.analysis.harmony.sections, [&](const SoundingSection& section) {
    json.list([&] {
      json.add(printable(section.name));
      json.add(quarters(section.onset));
      json.add(quarters(section.onset + section.duration));
    });
  });
}

}  // namespace

std::string map_data(const Report& report) {
  const Harmony& harmony = report.analysis.harmony;
  Words words;
  words.number_of("");  // number 0
  JsonWriter json(JsonLayout::compact);
  constexpr double usual_tempo = 120.0;
  json.member("tempo", std::round(report.solo.tempo_bpm.value_or(usual_tempo)));
  json.member("swing", report.settings.feel == Feel::swing);
  json.member("chorus", quarters(harmony.chorus_length));
  json.member("first_chorus", quarters(harmony.first_chorus));
  json.list("bars", report.solo.bars, [&](const Bar& bar) {
    json.list([&] {
      json.add(bar.number);
      json.add(quarters(bar.onset));
      json.add(quarters(bar.length));
      json.add(quarters(beat_length(bar.meter)));
    });
  });
  write_parts(json, report);
  json.list("chords", harmony.chords,
            [&](const SoundingChord& sounding) { json.list([&] { write_chord(json, report.reading, sounding); }); });
  const std::vector<std::string> connection = connections(report);
  json.list("notes", [&] {
    for (std::size_t i = 0; i < report.solo.notes.size(); ++i)
      json.list([&] { write_note(json, report, i, connection[i], words); });
  });
  write_names(json, report, words);
  json.member("words", words.all());
  return std::move(json).finished();
}

}  // namespace insideline::reports
