#include "analyzer/harmony/musicxml_kind.hpp"

#include "analyzer/harmony/nearest_symbols.hpp"
#include "analyzer/harmony/symbol_reading.hpp"
#include "analyzer/harmony/symbol_words.hpp"
#include "analyzer/harmony/tensions.hpp"
#include "analyzer/shortened.hpp"

#include <algorithm>
#include <tuple>

#include <fmt/core.h>
#include <tl/expected.hpp>

namespace insideline {
namespace {

struct Kind {
  std::string_view name;
  std::vector<Degree> degrees;  ///< besides the root
};

constexpr Degree third{3, 0};
constexpr Degree minor_third{3, -1};
constexpr Degree fifth{5, 0};
constexpr Degree seventh{7, 0};
constexpr Degree minor_seventh{7, -1};

// Source: MusicXML 4.0, W3C, kind-value. The standard names Neapolitan, Italian, French, German and Tristan without
// spelling them; their degrees are those of the open library music21 (module harmony). `other` has only the degrees
// that are added to it; `none` is no chord and stands in no table.
const std::vector<Kind>& kinds() {
  static const std::vector<Kind> table = {
      {"major", {third, fifth}},
      {"minor", {minor_third, fifth}},
      {"augmented", {third, {5, 1}}},
      {"diminished", {minor_third, {5, -1}}},
      {"dominant", {third, fifth, minor_seventh}},
      {"major-seventh", {third, fifth, seventh}},
      {"minor-seventh", {minor_third, fifth, minor_seventh}},
      {"diminished-seventh", {minor_third, {5, -1}, {7, -2}}},
      {"augmented-seventh", {third, {5, 1}, minor_seventh}},
      {"half-diminished", {minor_third, {5, -1}, minor_seventh}},
      {"major-minor", {minor_third, fifth, seventh}},
      {"major-sixth", {third, fifth, {6, 0}}},
      {"minor-sixth", {minor_third, fifth, {6, 0}}},
      {"dominant-ninth", {third, fifth, minor_seventh, {9, 0}}},
      {"major-ninth", {third, fifth, seventh, {9, 0}}},
      {"minor-ninth", {minor_third, fifth, minor_seventh, {9, 0}}},
      {"dominant-11th", {third, fifth, minor_seventh, {9, 0}, {11, 0}}},
      {"major-11th", {third, fifth, seventh, {9, 0}, {11, 0}}},
      {"minor-11th", {minor_third, fifth, minor_seventh, {9, 0}, {11, 0}}},
      {"dominant-13th", {third, fifth, minor_seventh, {9, 0}, {11, 0}, {13, 0}}},
      {"major-13th", {third, fifth, seventh, {9, 0}, {11, 0}, {13, 0}}},
      {"minor-13th", {minor_third, fifth, minor_seventh, {9, 0}, {11, 0}, {13, 0}}},
      {"suspended-second", {{2, 0}, fifth}},
      {"suspended-fourth", {{4, 0}, fifth}},
      {"power", {fifth}},
      {"pedal", {}},
      {"Neapolitan", {{2, -1}, third, {5, -1}}},
      {"Italian", {{4, 1}, {6, -1}}},
      {"French", {{2, 0}, {4, 1}, {6, -1}}},
      {"German", {minor_third, {4, 1}, {6, -1}}},
      {"Tristan", {{4, 1}, {6, 1}, {9, 1}}},
      {"other", {}},
  };
  return table;
}

struct Alias {
  std::string_view name;
  std::string_view kind;
};

// Names that older files and other libraries write. Source: music21 (module harmony) for the long names; the short
// ones are common practice, no source.
constexpr Alias aliases[] = {
    {"major-triad", "major"},
    {"minor-triad", "minor"},
    {"augmented-triad", "augmented"},
    {"diminished-triad", "diminished"},
    {"dominant-seventh", "dominant"},
    {"half-diminished-seventh", "half-diminished"},
    {"minor-major-seventh", "major-minor"},
    {"minor-major", "major-minor"},
    {"dominant-11", "dominant-11th"},
    {"dominant-eleventh", "dominant-11th"},
    {"major-eleventh", "major-11th"},
    {"minor-eleventh", "minor-11th"},
    {"dominant-13", "dominant-13th"},
    {"dominant-thirteenth", "dominant-13th"},
    {"major-thirteenth", "major-13th"},
    {"minor-thirteenth", "minor-13th"},
    {"suspended-2nd", "suspended-second"},
    {"suspended-4th", "suspended-fourth"},
    {"suspended", "suspended-fourth"},
    {"maj", "major"},
    {"min", "minor"},
    {"aug", "augmented"},
    {"dim", "diminished"},
};

const Kind* kind_named(std::string_view name) {
  const auto& table = kinds();
  const auto found = std::ranges::find(table, name, &Kind::name);
  return found == table.end() ? nullptr : &*found;
}

/// An added degree counts from a dominant chord: major and perfect intervals, but a minor seventh.
Degree added_degree(const KindDegree& change) { return {change.value, change.alter + (change.value == 7 ? -1 : 0)}; }

bool can_be_a_degree(const Degree& degree) {
  return degree.number >= 2 && degree.number <= 13 && degree.alter >= -most_accidentals &&
         degree.alter <= most_accidentals;
}

/// Octaves above the seventh that players do not count: 8, 10 and 12 are 1, 3 and 5.
KindDegree inside_the_stack(KindDegree change) {
  if (change.value == 8 || change.value == 10 || change.value == 12) change.value -= 7;
  return change;
}

std::optional<std::string> apply_change(const KindDegree& change, std::vector<Degree>& tones) {
  const auto has_value = [&](const Degree& degree) { return degree.number == change.value; };
  if (change.value == 1 && change.alter == 0) return std::nullopt;  // the root is there, played or not
  if (change.change == DegreeChange::subtract) {
    std::erase_if(tones, has_value);
    return std::nullopt;
  }
  const auto present = std::ranges::find_if(tones, has_value);
  const bool altered = change.change == DegreeChange::alter && present != tones.end();
  const Degree degree = altered ? Degree{change.value, present->alter + change.alter} : added_degree(change);
  if (!can_be_a_degree(degree))
    return fmt::format("degree {} altered by {} is no degree of a chord", change.value, change.alter);
  if (altered)
    *present = degree;
  else
    tones.push_back(degree);
  return std::nullopt;
}

std::optional<NoteName> bass_of(const MusicxmlChord& source, const std::vector<Degree>& tones) {
  if (source.bass || !source.inversion || *source.inversion == 0) return source.bass;
  const int number = 2 * *source.inversion + 1;
  const auto found = std::ranges::find(tones, number, &Degree::number);
  if (found == tones.end()) return std::nullopt;
  return note_at(source.root, *found);
}

/// The symbol to show: the file's own text where it says the chord, else the plainest spelling.
std::string shown_symbol(const Chord& chord, std::string_view text) {
  std::string symbol = to_string(chord.root) + std::string(text) + (chord.bass ? "/" + to_string(*chord.bass) : "");
  const auto reading = read_chord_symbol(symbol);
  if (!text.empty() && reading && *reading && same_chord(**reading, chord)) return symbol;
  return canonical_symbol(chord);
}

std::vector<std::string> nearest_kinds(std::string_view name) {
  constexpr std::size_t most_offered = 3;
  constexpr std::size_t longest_compared = 40;
  if (name.empty() || name.size() > longest_compared) return {};
  std::vector<std::pair<int, std::string>> all;
  for (const Kind& kind : kinds()) all.emplace_back(edit_distance(name, kind.name), kind.name);
  for (const Alias& alias : aliases) all.emplace_back(edit_distance(name, alias.name) + 1, alias.kind);
  std::ranges::stable_sort(all, {}, &std::pair<int, std::string>::first);
  std::vector<std::string> nearest;
  for (const auto& [distance, kind] : all) {
    if (nearest.size() == most_offered || distance > static_cast<int>(2 * name.size())) break;
    if (std::ranges::find(nearest, kind) == nearest.end()) nearest.push_back(kind);
  }
  return nearest;
}

UnreadableSymbol unreadable_kind(std::string_view kind, std::string message) {
  return {0, std::move(message), nearest_kinds(kind)};
}

/// Text that begins with an accidental goes into brackets, or the root would take it: C and "b5" are C(b5).
SymbolReading chord_with_root(const MusicxmlChord& source, std::string_view text) {
  const std::string root = to_string(source.root);
  const std::string bass = source.bass ? "/" + to_string(*source.bass) : "";
  auto reading = read_chord_symbol(root + std::string(text) + bass);
  const bool root_kept = reading && (!*reading || (*reading)->root == source.root);
  if (root_kept) return reading;
  return read_chord_symbol(root + "(" + std::string(text) + ")" + bass);
}

/// A kind without meaning of its own is read from its printed text, then from the value itself ("m7b5").
SymbolReading chord_from_text(const MusicxmlChord& source) {
  for (const std::string_view text : {std::string_view(source.text), std::string_view(source.kind)}) {
    if (text.empty() || text == "other") continue;
    auto reading = chord_with_root(source, text);
    if (reading) return reading;
  }
  if (source.kind == "other")
    return unreadable_kind(
        "", source.text.empty()
                ? "chord kind \"other\" has neither degrees nor a text to read"
                : fmt::format("the text \"{}\" of chord kind \"other\" is no chord symbol", shortened(source.text)));
  const std::string text =
      source.text.empty() ? "" : fmt::format(", and its text \"{}\" is no chord symbol", shortened(source.text));
  return unreadable_kind(source.kind, fmt::format("chord kind \"{}\" is not known{}", shortened(source.kind), text));
}

std::vector<KindDegree> changes_between(const Kind& kind, const std::vector<Degree>& tones) {
  std::vector<KindDegree> changes;
  std::vector<Degree> missing;
  for (const Degree& degree : kind.degrees)
    if (std::ranges::find(tones, degree) == tones.end()) missing.push_back(degree);
  for (const Degree& degree : tones) {
    if (degree.number == 1 || std::ranges::find(kind.degrees, degree) != kind.degrees.end()) continue;
    const auto altered = std::ranges::find(missing, degree.number, &Degree::number);
    if (altered != missing.end() && degree.number == 5) {
      changes.push_back({degree.number, degree.alter - altered->alter, DegreeChange::alter});
      missing.erase(altered);
    } else {
      changes.push_back({degree.number, degree.alter + (degree.number == 7 ? 1 : 0), DegreeChange::add});
    }
  }
  // What is subtracted goes first: it takes every degree with that number.
  std::vector<KindDegree> all;
  for (const Degree& degree : missing) all.push_back({degree.number, 0, DegreeChange::subtract});
  all.insert(all.end(), changes.begin(), changes.end());
  return all;
}

/// The chord of a kind and its degrees, its symbol still empty.
tl::expected<Chord, std::string> chord_of(const Kind& kind, const MusicxmlChord& source) {
  std::vector<Degree> tones = kind.degrees;
  for (const KindDegree& change : source.degrees)
    if (const auto problem = apply_change(inside_the_stack(change), tones)) return tl::unexpected(*problem);
  return make_chord("", source.root, tones, bass_of(source, tones));
}

/// The kind as its print means it: a full stack of a 13th that is printed "13" leaves its 11th out, as in a chart.
Kind as_printed(const Kind& kind, const MusicxmlChord& source) {
  constexpr Degree eleventh{11, 0};
  constexpr Degree thirteenth{13, 0};
  const auto has = [&](const Degree& degree) { return std::ranges::find(kind.degrees, degree) != kind.degrees.end(); };
  if (source.text.empty() || !has(thirteenth) || !has(eleventh)) return kind;
  Kind without = kind;
  std::erase(without.degrees, eleventh);
  const auto printed = read_chord_symbol(to_string(source.root) + source.text);
  const bool same =
      printed && *printed && same_chord(**printed, make_chord("", source.root, without.degrees, std::nullopt));
  return same ? without : kind;
}

bool reads_back(const Kind& kind, const MusicxmlChord& element, const Chord& chord) {
  if (kind.name == "other" && element.degrees.empty()) return false;
  const auto again = chord_of(kind, element);
  return again && same_chord(*again, chord);
}

}  // namespace

std::optional<std::string_view> standard_kind(std::string_view name) {
  if (name == "none") return "none";
  if (const Kind* kind = kind_named(name)) return kind->name;
  const auto alias = std::ranges::find(aliases, name, &Alias::name);
  if (alias == std::end(aliases)) return std::nullopt;
  return alias->kind;
}

SymbolReading chord_from_musicxml(const MusicxmlChord& source) {
  const auto name = standard_kind(source.kind);
  if (!name || (*name == "other" && source.degrees.empty())) return chord_from_text(source);
  if (*name == "none") return std::optional<Chord>{};
  auto chord = chord_of(as_printed(*kind_named(*name), source), source);
  if (!chord) return unreadable_kind("", chord.error());
  chord->symbol = shown_symbol(*chord, source.text);
  return *std::move(chord);
}

MusicxmlChord musicxml_from_chord(const Chord& chord) {
  MusicxmlChord best{chord.root, "other", "", {}, chord.bass, std::nullopt};
  std::size_t best_said = 0;  // among equals the kind that says more by itself wins
  const auto tones = spelled_out_tones(chord);
  bool found = false;
  for (const Kind& kind : kinds()) {
    MusicxmlChord element{chord.root,  std::string(kind.name), "", changes_between(kind, tones), chord.bass,
                          std::nullopt};
    const bool better =
        !found || std::tuple(element.degrees.size(), best_said) < std::tuple(best.degrees.size(), kind.degrees.size());
    if (!better || !reads_back(kind, element, chord)) continue;
    found = true;
    best = std::move(element);
    best_said = kind.degrees.size();
  }
  const std::string canonical = canonical_symbol(chord);
  const auto root_length = to_string(chord.root).size();
  const auto bass_length = chord.bass ? to_string(*chord.bass).size() + 1 : 0;
  best.text = canonical.substr(root_length, canonical.size() - root_length - bass_length);
  return best;
}

}  // namespace insideline
