#include "io/hearing/hearing_words.hpp"

#include "analyzer/analysis.hpp"
#include "analyzer/small_letters.hpp"

#include <algorithm>
#include <array>

#include <fmt/format.h>

namespace insideline::io {
namespace {

constexpr std::array said_roles = {Role::chord_tone, Role::tension, Role::non_chord_tone, Role::outside};
constexpr std::array said_places = {Placement::anticipation, Placement::suspension, Placement::retardation};
constexpr Figure last_place_in_chord = Figure::thirteenth;

struct Phrase {
  std::string words;
  Pin says{};
};

Phrase role_phrase(std::string words, Role role) {
  Phrase phrase{.words = std::move(words)};
  phrase.says.role = role;
  return phrase;
}

Phrase figure_phrase(std::string words, Figure figure) {
  Phrase phrase{.words = std::move(words)};
  phrase.says.figure = figure;
  return phrase;
}

Phrase chord_phrase(std::string words, Against against) {
  Phrase phrase{.words = std::move(words)};
  phrase.says.against = against;
  return phrase;
}

/// Without "tone" at the end, where that says enough: "neighbour".
void add_figure_phrases(std::vector<Phrase>& phrases, Figure figure) {
  constexpr std::string_view tone = " tone";
  std::string words = to_string(figure);
  if (words.ends_with(tone)) phrases.push_back(figure_phrase(words.substr(0, words.size() - tone.size()), figure));
  phrases.push_back(figure_phrase(std::move(words), figure));
}

/// Those of more words first.
std::vector<Phrase> all_phrases() {
  std::vector<Phrase> phrases = {
      role_phrase("tone", Role::chord_tone), chord_phrase("of this chord", Against::sounding),
      chord_phrase("of next chord", Against::next), chord_phrase("of chord before", Against::previous)};
  for (const Role role : said_roles) phrases.push_back(role_phrase(to_string(role), role));
  for (auto figure = Figure::root; figure < Figure::unexplained;
       figure = static_cast<Figure>(static_cast<std::uint8_t>(figure) + 1))
    add_figure_phrases(phrases, figure);
  for (const Placement placement : said_places) {
    phrases.push_back({.words = to_string(placement)});
    phrases.back().says.placement = placement;
  }
  const auto spaces = [](const Phrase& phrase) { return std::ranges::count(phrase.words, ' '); };
  std::ranges::stable_sort(phrases, std::ranges::greater{}, spaces);
  return phrases;
}

bool says_nothing(std::string_view word) { return word == "a" || word == "an" || word == "the"; }

std::string list_of_words() {
  std::string roles;
  for (const Role role : said_roles) roles += (roles.empty() ? "" : ", ") + to_string(role);
  std::string places;
  std::string figures;
  for (auto figure = Figure::root; figure < Figure::unexplained;
       figure = static_cast<Figure>(static_cast<std::uint8_t>(figure) + 1)) {
    std::string& list = figure <= last_place_in_chord ? places : figures;
    list += (list.empty() ? "" : ", ") + to_string(figure);
  }
  return fmt::format(
      "the words are: {}; {}; {}; a degree such as b9; anticipation, suspension, retardation; and behind them 'of the "
      "next chord', 'of the chord before' or 'of this chord'",
      roles, places, figures);
}

/// The role that goes with a figure; none for places in the chord, which may be tones or tensions.
std::optional<Role> role_of(Figure figure) {
  if (figure <= last_place_in_chord) return std::nullopt;
  return figure == Figure::unexplained ? Role::outside : Role::non_chord_tone;
}

bool moves(const Pin& pin) {
  const auto role = pin.role ? pin.role : pin.figure ? role_of(*pin.figure) : std::nullopt;
  return role == Role::non_chord_tone || role == Role::outside;
}

template <typename Value>
bool differ(const std::optional<Value>& one, const std::optional<Value>& other) {
  return one && other && *one != *other;
}

template <typename Value>
void take(std::optional<Value>& into, const std::optional<Value>& other) {
  if (other) into = other;
}

/// The pin with what `other` says as well; none where both cannot be.
std::optional<Pin> together(Pin pin, const Pin& other) {
  if (differ(pin.role, other.role) || differ(pin.figure, other.figure) || differ(pin.degree, other.degree) ||
      differ(pin.against, other.against) || differ(pin.placement, other.placement))
    return std::nullopt;
  take(pin.role, other.role);
  take(pin.figure, other.figure);
  take(pin.degree, other.degree);
  take(pin.against, other.against);
  take(pin.placement, other.placement);
  const auto figure_role = pin.figure ? role_of(*pin.figure) : std::nullopt;
  const bool place_in_chord = pin.figure && !figure_role;
  const bool elsewhere = pin.placement || pin.against.value_or(Against::sounding) != Against::sounding;
  if (figure_role && pin.role && *pin.role != *figure_role) return std::nullopt;
  if (moves(pin) && (place_in_chord || elsewhere)) return std::nullopt;
  if (pin.role == Role::outside && pin.degree) return std::nullopt;
  const bool early = pin.placement == Placement::anticipation;
  const bool late = pin.placement && !early;
  if ((early && pin.against && *pin.against != Against::next) || (late && pin.against == Against::next))
    return std::nullopt;
  return pin;
}

/// What stands at `first`: the phrase with the most words, or a degree.
std::optional<Phrase> phrase_at(const std::vector<HearingWord>& words, std::size_t first) {
  static const std::vector<Phrase> phrases = all_phrases();
  for (const Phrase& phrase : phrases) {
    std::string here;
    const auto count = static_cast<std::size_t>(std::ranges::count(phrase.words, ' ')) + 1;
    for (std::size_t i = first; i < std::min(first + count, words.size()); ++i)
      here += (i == first ? "" : " ") + in_small_letters(words[i].text);
    if (here == phrase.words) return phrase;
  }
  const auto degree = parse_degree(words[first].text);
  if (!degree) return std::nullopt;
  Phrase phrase{.words = std::string(words[first].text)};
  phrase.says.degree = degree;
  return phrase;
}

}  // namespace

std::optional<HearingFault> add_words(Pin& pin, const std::vector<HearingWord>& all_words) {
  std::vector<HearingWord> words;
  std::ranges::copy_if(all_words, std::back_inserter(words),
                       [](const HearingWord& word) { return !says_nothing(in_small_letters(word.text)); });
  bool says_what = false;
  for (std::size_t i = 0; i < words.size();) {
    const auto phrase = phrase_at(words, i);
    if (!phrase)
      return HearingFault{words[i].offset, fmt::format("'{}' says nothing here; {}", words[i].text, list_of_words())};
    const auto both = together(pin, phrase->says);
    if (!both)
      return HearingFault{words[i].offset,
                          fmt::format("'{}' does not go with what this line says before it", phrase->words)};
    pin = *both;
    says_what = says_what || !phrase->says.against;
    i += static_cast<std::size_t>(std::ranges::count(phrase->words, ' ')) + 1;
  }
  if (says_what) return std::nullopt;
  const std::size_t end = all_words.empty() ? 0 : all_words.front().offset;
  return HearingFault{end, "it does not say what the note is; " + list_of_words()};
}

bool take_other_line(Pin& pin, const Pin& other) {
  const auto both = together(pin, other);
  if (both) pin = *both;
  return both.has_value();
}

}  // namespace insideline::io
