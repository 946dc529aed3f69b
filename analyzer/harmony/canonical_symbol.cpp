#include "analyzer/harmony/chord_kinds.hpp"
#include "analyzer/harmony/chord_symbol.hpp"
#include "analyzer/harmony/symbol_reading.hpp"
#include "analyzer/harmony/tensions.hpp"

#include <algorithm>
#include <optional>
#include <tuple>

namespace insideline {
namespace {

using Tones = std::vector<Degree>;

/// A kind of chord and what has to be said to get from it to the chord.
struct Phrasing {
  std::string suffix;
  int effort = 0;  ///< how much is said; the least wins
};

// How much a reader has to take in for each thing said beyond the kind's own name: an alteration is read
// at a glance, an added note is a word, and what is left out has to be taken back.
constexpr int alteration_effort = 2;
constexpr int addition_effort = 3;
constexpr int added_seventh_effort = 5;  // "7omit3" says more plainly what "5add7" says
constexpr int omission_effort = 4;
constexpr int spelled_out_effort = 40;

std::string accidental_text(int alter) {
  return std::string(static_cast<std::size_t>(alter < 0 ? -alter : alter), alter < 0 ? 'b' : '#');
}

/// "9", "#11", "maj7"; a plain 7 in a symbol is the minor seventh.
std::string number_text(const Degree& degree) {
  if (degree == Degree{7, 0}) return "maj7";
  if (degree == Degree{7, -1}) return "7";
  if (degree.number == 7 && degree.alter > 0) return accidental_text(degree.alter + 1) + "7";
  return to_string(degree);
}

/// Whether "b9" alone says it: an altered fifth, sixth, ninth, eleventh or thirteenth whose natural form the chord
/// lacks.
bool reads_as_alteration(const Tones& tones, const Degree& degree) {
  const bool alterable = degree.number == 5 || degree.number == 6 || degree.number >= 9;
  return alterable && degree.alter != 0 && !has_tone(tones, {degree.number, 0});
}

Phrasing wording_from(const std::string& kind, const Tones& kind_tones, const Tones& tones, int effort) {
  std::string alterations;
  std::string additions;
  std::string omissions;
  Tones replaced;
  for (const Degree& degree : tones) {
    if (has_tone(kind_tones, degree)) continue;
    if (reads_as_alteration(tones, degree)) {
      alterations += to_string(degree);
      effort += alteration_effort;
      replaced.push_back({degree.number, 0});
    } else {
      additions += "add" + number_text(degree);
      effort += degree.number == 7 ? added_seventh_effort : addition_effort;
    }
  }
  for (const Degree& degree : kind_tones) {
    if (has_tone(tones, degree) || has_tone(replaced, degree)) continue;
    omissions += "omit" + std::to_string(degree.number);
    effort += omission_effort;
  }
  if (kind.empty() && !alterations.empty()) alterations = "(" + alterations + ")";  // C(b9) is not Cb9
  return {kind + alterations + additions + omissions, effort};
}

/// "sus" with every second and fourth of a chord without third.
std::string suspended_kind(const Tones& tones, Tones& kind_tones) {
  std::string kind = "sus";
  kind_tones = {{1, 0}, {5, 0}};
  for (const Degree& degree : tones) {
    if (degree.number != 2 && degree.number != 4) continue;
    kind += to_string(degree);
    kind_tones.push_back(degree);
  }
  return kind;
}

/// Says every tone one by one; the last resort, which always reads.
Phrasing spelled_out(const Tones& tones) {
  Tones said;
  std::string suffix = suspended_kind(tones, said);
  const bool suspended = said.size() > 2;
  if (!suspended) suffix.clear();
  for (const Degree& degree : tones)
    if (degree.number != 1 && !(suspended && (degree.number == 2 || degree.number == 4)))
      suffix += "add" + number_text(degree);
  return {suffix + (suspended ? "omit5" : "omit3omit5"), spelled_out_effort};
}

std::vector<Phrasing> wordings(const Tones& tones) {
  std::vector<Phrasing> all;
  for (const ChordKind& kind : chord_kinds())
    all.push_back(wording_from(std::string(kind.suffix), kind.tones, tones, 0));
  all.push_back(wording_from("7alt", {{1, 0}, {3, 0}, {7, -1}}, tones, 1));
  Tones suspended_tones;
  const std::string suspended = suspended_kind(tones, suspended_tones);
  if (suspended_tones.size() > 2) all.push_back(wording_from(suspended, suspended_tones, tones, 1));
  all.push_back(spelled_out(tones));
  std::ranges::stable_sort(all, [](const Phrasing& a, const Phrasing& b) {
    return std::tuple(a.effort, a.suffix.size()) < std::tuple(b.effort, b.suffix.size());
  });
  return all;
}

bool reads_as(const std::string& symbol, const Chord& chord) {
  const auto reading = read_chord_symbol(symbol);
  return reading && *reading && same_chord(**reading, chord);
}

/// The kind with just these tones and the shortest suffix, which no wording could better; nearly every chord has one.
const ChordKind* plain_kind(const Tones& tones) {
  const ChordKind* best = nullptr;
  for (const ChordKind& kind : chord_kinds()) {
    if (kind.tones.size() != tones.size() || (best && best->suffix.size() <= kind.suffix.size())) continue;
    const auto has = [&](const Degree& tone) { return has_tone(kind.tones, tone); };
    if (std::ranges::all_of(tones, has)) best = &kind;
  }
  return best;
}

/// On an ordinary root and without a bass the symbol of a kind reads as that kind: the tests read all of them.
bool reads_as_kind(const std::string& symbol, const ChordKind& kind, const Chord& chord) {
  if (chord.bass || chord.root.alter < -1 || chord.root.alter > 1) return reads_as(symbol, chord);
  return same_chord(make_chord(symbol, chord.root, kind.tones), chord);
}

}  // namespace

std::string canonical_symbol(const Chord& chord) {
  const std::string root = to_string(chord.root);
  const std::string bass = chord.bass ? "/" + to_string(*chord.bass) : "";
  if (const ChordKind* const kind = plain_kind(chord.tones)) {
    std::string symbol = root + std::string(kind->suffix) + bass;
    if (reads_as_kind(symbol, *kind, chord)) return symbol;
  }
  for (const Phrasing& wording : wordings(chord.tones)) {
    std::string symbol = root + wording.suffix + bass;
    if (reads_as(symbol, chord)) return symbol;
  }
  return root + spelled_out(chord.tones).suffix + bass;  // reached only with tones or accidentals that no symbol makes
}

}  // namespace insideline
