#include "analyzer/harmony/tensions.hpp"

#include <algorithm>
#include <array>
#include <span>
#include <string_view>

namespace insideline {
namespace {

using Tones = std::vector<Degree>;

bool has_number(const Tones& tones, int number) {
  return std::ranges::any_of(tones, [&](const Degree& degree) { return degree.number == number; });
}

bool has_major_third(const Tones& t) { return has_tone(t, {3, 0}); }
bool has_minor_third(const Tones& t) { return !has_major_third(t) && has_tone(t, {3, -1}); }
bool dominant(const Tones& t) { return has_major_third(t) && has_tone(t, {7, -1}); }
bool ninth_altered(const Tones& t) { return dominant(t) && (has_tone(t, {9, -1}) || has_tone(t, {9, 1})); }
bool fifth_altered(const Tones& t) { return has_tone(t, {5, -1}) || has_tone(t, {5, 1}) || has_tone(t, {13, -1}); }
bool ninth_and_fifth_altered(const Tones& t) { return ninth_altered(t) && fifth_altered(t); }
bool augmented(const Tones& t) { return has_major_third(t) && has_tone(t, {5, 1}); }
bool major_sixth(const Tones& t) { return has_major_third(t) && has_tone(t, {6, 0}); }
bool major_seventh(const Tones& t) { return has_major_third(t) && has_tone(t, {7, 0}); }
bool diminished(const Tones& t) { return has_minor_third(t) && has_tone(t, {5, -1}); }
bool half_diminished(const Tones& t) { return diminished(t) && has_tone(t, {7, -1}); }
bool minor_with_raised_fifth(const Tones& t) { return has_minor_third(t) && has_tone(t, {5, 1}); }
bool is_minor_seventh(const Tones& t) { return has_minor_third(t) && has_tone(t, {7, -1}); }
bool minor_major(const Tones& t) { return has_minor_third(t) && has_tone(t, {7, 0}); }
bool minor_sixth(const Tones& t) { return has_minor_third(t) && has_tone(t, {6, 0}); }
bool suspended_major_seventh(const Tones& t) { return has_number(t, 4) && has_tone(t, {7, 0}); }
bool suspended(const Tones& t) { return has_tone(t, {4, 0}) || (has_tone(t, {11, 0}) && has_tone(t, {7, -1})); }
bool second_for_third(const Tones& t) { return has_number(t, 2); }
bool fifth_alone(const Tones& t) { return has_tone(t, {5, 0}); }

struct TensionRow {
  bool (*applies)(const Tones&);
  std::vector<Degree> tensions;
  std::vector<Degree> avoid;
};

// Sources: R. Hutchinson, Music Theory for the 21st-Century Classroom, table 31.10.3 (chord-scale pairs: 7b9 and 7#9
// half-whole octatonic, altered, lydian dominant, lydian augmented, locrian); encyclopedia article "Avoid note" (a
// scale note a half step above a chord tone; b9 on dominants is accepted everywhere). 13 over minor sevenths is
// disputed between schools and counted as welcome here. Rows marked (*) are common practice, no source. "Avoid"
// names scale notes and the natural forms that contradict an altered one. The first row that applies wins.
const std::vector<TensionRow>& tension_rows() {
  static const std::vector<TensionRow> rows = {
      {ninth_and_fifth_altered, {{9, -1}, {9, 1}, {11, 1}, {13, -1}}, {{11, 0}}},
      {ninth_altered, {{9, -1}, {9, 1}, {11, 1}, {13, -1}, {13, 0}}, {{11, 0}}},  // b13 as the V of a minor key (*)
      {augmented, {{9, 0}, {11, 1}}, {{5, 0}, {13, 0}}},                          // with any seventh or none
      {dominant, {{9, 0}, {11, 1}, {13, 0}}, {{11, 0}}},
      {major_sixth, {{7, 0}, {9, 0}, {11, 1}}, {{11, 0}}},
      {major_seventh, {{9, 0}, {11, 1}, {13, 0}}, {{11, 0}}},
      {has_major_third, {{7, 0}, {9, 0}, {11, 1}, {13, 0}}, {{11, 0}}},  // triad (*)
      {half_diminished, {{9, 0}, {11, 0}, {13, -1}}, {{9, -1}}},
      {diminished, {{7, -2}, {7, 0}, {9, 0}, {11, 0}, {13, -1}}, {}},  // the triad as dim7 (*)
      {minor_with_raised_fifth, {{9, 0}, {11, 0}}, {{9, -1}}},         // (*)
      {is_minor_seventh, {{9, 0}, {11, 0}, {13, 0}}, {{9, -1}, {13, -1}}},
      {minor_major, {{9, 0}, {11, 0}, {13, 0}}, {{13, -1}}},
      {minor_sixth, {{7, 0}, {9, 0}, {11, 0}}, {{13, -1}}},
      {has_minor_third, {{7, -1}, {9, 0}, {11, 0}, {13, 0}}, {{13, -1}}},  // triad (*)
      {suspended_major_seventh, {{9, 0}, {13, 0}}, {{3, 0}}},              // (*)
      {suspended, {{7, -1}, {9, 0}, {13, 0}}, {{3, 0}}},
      {second_for_third, {{13, 0}}, {}},  // (*)
      {fifth_alone, {{9, 0}}, {}},        // power chords and chords without third (*)
  };
  return rows;
}

/// A colour is welcome unless its key is taken, or the chord has another form of it: b9 in the chord keeps 9 out,
/// and 9 keeps b9 and #9 out; b9 and #9 go together.
bool is_welcome(const Tones& tones, const Degree& tension) {
  if (sounds_among(tones, tension)) return false;
  const bool natural_there = has_tone(tones, {tension.number, 0});
  if (tension.alter != 0) return !natural_there;
  if (tension.number == 7) return !has_number(tones, 7) || has_tone(tones, {7, -2});
  if (tension.number == 13 && has_number(tones, 6)) return false;
  return !has_number(tones, tension.number);
}

/// A raised eleventh, fifth or ninth in the chord settles the question of the natural one.
bool is_avoided(const Tones& tones, const Degree& degree) {
  if (sounds_among(tones, degree)) return false;
  const bool eleventh_raised = has_tone(tones, {11, 1}) || has_tone(tones, {5, -1});
  return !(degree == Degree{11, 0} && eleventh_raised);
}

/// Players' names: 2 and 4 beside a third are 9 and 11, a sixth beside a seventh is 13 and without one 6.
/// Source: Hutchinson, Music Theory for the 21st-Century Classroom, 31.2-31.3.
void use_players_names(Tones& tones) {
  const bool third = has_number(tones, 3);
  const bool seventh = has_number(tones, 7);
  for (Degree& degree : tones) {
    if (degree.number == 2 && third) degree.number = 9;
    if (degree.number == 4 && third) degree.number = 11;
    if (degree.number == 6 && seventh) degree.number = 13;
    if (degree.number == 13 && !seventh) degree.number = 6;
  }
  const bool fourth = has_tone(tones, {4, 0});
  const bool second = has_tone(tones, {2, 0});
  std::erase_if(tones, [&](const Degree& degree) {
    return (fourth && degree == Degree{11, 0}) || (second && degree == Degree{9, 0});
  });
}

void put_in_order(Tones& tones) {
  std::ranges::sort(tones);
  tones.erase(std::unique(tones.begin(), tones.end()), tones.end());
}

constexpr Degree altered_tensions[] = {{9, -1}, {9, 1}, {11, 1}, {13, -1}};
constexpr Degree altered_avoid[] = {{5, 0}, {9, 0}, {13, 0}};

/// Every altered fifth and ninth over 1 3 b7, spelled out: what `alt` means.
bool spells_out_altered(std::span<const Degree> tones) {
  constexpr std::size_t below = 3;
  return tones.size() == below + std::size(altered_tensions) &&
         std::ranges::equal(tones.first(below), std::array<Degree, below>{{{1, 0}, {3, 0}, {7, -1}}}) &&
         std::ranges::equal(tones.subspan(below), altered_tensions);
}

void colour_altered(Chord& chord) {
  for (const Degree& tension : altered_tensions)
    if (!sounds_among(chord.tones, tension)) chord.tensions.push_back(tension);
  for (const Degree& degree : altered_avoid)
    if (!sounds_among(chord.tones, degree)) chord.avoid.push_back(degree);
}

void colour_naturally(Chord& chord) {
  const auto& rows = tension_rows();
  const auto row =
      std::ranges::find_if(rows, [&](const TensionRow& candidate) { return candidate.applies(chord.tones); });
  if (row == rows.end()) return;
  for (const Degree& tension : row->tensions)
    if (is_welcome(chord.tones, tension)) chord.tensions.push_back(tension);
  for (const Degree& degree : row->avoid)
    if (is_avoided(chord.tones, degree)) chord.avoid.push_back(degree);
}

}  // namespace

Chord make_chord(std::string symbol, const NoteName& root, std::vector<Degree> tones,
                 const std::optional<NoteName>& bass, Colouring colouring) {
  Chord chord;
  chord.symbol = std::move(symbol);
  chord.root = root;
  tones.push_back({1, 0});
  use_players_names(tones);
  put_in_order(tones);
  if (spells_out_altered(tones)) {
    tones = {{1, 0}, {3, 0}, {7, -1}};
    colouring = Colouring::altered;
  }
  chord.tones = std::move(tones);
  if (bass && *bass != root) chord.bass = bass;
  if (colouring == Colouring::altered)
    colour_altered(chord);
  else
    colour_naturally(chord);
  return chord;
}

bool has_tone(const std::vector<Degree>& tones, const Degree& degree) {
  return std::ranges::find(tones, degree) != tones.end();
}

bool sounds_among(const std::vector<Degree>& tones, const Degree& degree) {
  const int above_root = pitch_class_above_root(degree);
  return std::ranges::find(tones, above_root, pitch_class_above_root) != tones.end();
}

std::vector<Degree> spelled_out_tones(const Chord& chord) {
  Tones tones = chord.tones;
  if (is_altered(chord)) tones.insert(tones.end(), chord.tensions.begin(), chord.tensions.end());
  put_in_order(tones);
  return tones;
}

bool is_altered(const Chord& chord) {
  return dominant(chord.tones) && has_tone(chord.avoid, {9, 0});  // no other chord keeps the natural ninth out
}

}  // namespace insideline
