// K: and the words of a staff, which V: has as well.
#include "analyzer/small_letters.hpp"
#include "io/abc/abc_fields.hpp"

#include "analyzer/shortened.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <charconv>
#include <utility>

namespace insideline::io {
namespace {

struct AbcMode {
  std::string_view name;
  int fifths;  ///< from the major key on the same tonic
};

// ABC 2.1, 3.1.14: only the first three letters of a mode count, in any case.
constexpr std::array abc_modes = {AbcMode{"major", 0},     AbcMode{"ionian", 0},   AbcMode{"mixolydian", -1},
                                  AbcMode{"dorian", -2},   AbcMode{"minor", -3},   AbcMode{"aeolian", -3},
                                  AbcMode{"phrygian", -4}, AbcMode{"locrian", -5}, AbcMode{"lydian", 1}};
constexpr std::size_t letters_that_count = 3;

bool is_alphabetic(char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; }

std::optional<AbcMode> mode_named(std::string_view word) {
  const std::string lower = in_small_letters(word);
  if (lower == "m") return AbcMode{"minor", -3};
  const std::string_view letters = std::string_view(lower).substr(0, letters_that_count);
  const auto* const found = std::ranges::find(
      abc_modes, letters, [](const AbcMode& mode) { return mode.name.substr(0, letters_that_count); });
  return found == abc_modes.end() ? std::nullopt : std::optional(*found);
}

void set_signature(AbcKey& key, int fifths) {
  constexpr std::array<int, 7> sharps = {3, 0, 4, 1, 5, 2, 6};  // F C G D A E B as Steps
  for (int i = 0; i < std::min(std::abs(fifths), 7); ++i) {
    const auto place = static_cast<std::size_t>(fifths > 0 ? i : 6 - i);
    key.alterations.at(static_cast<std::size_t>(sharps.at(place))) = fifths > 0 ? 1 : -1;
  }
}

/// A word of the field: "clef=treble-8", "bass", "^f".
struct StaffWord {
  std::string name;   ///< empty for a bare word
  std::string value;  ///< without quotes
  std::size_t offset_bytes = 0;
};

std::vector<StaffWord> staff_words(const AbcLine& value, std::size_t from) {
  std::vector<StaffWord> words;
  const std::string_view text = value.text;
  for (std::size_t at = text.find_first_not_of(" \t", from); at < text.size();) {
    std::size_t end = at;
    bool quoted = false;
    for (; end < text.size() && (quoted || (text[end] != ' ' && text[end] != '\t')); ++end)
      if (text[end] == '"') quoted = !quoted;
    std::string word(text.substr(at, end - at));
    std::erase(word, '"');
    const bool accidental = word.front() == '=';
    const auto equals = accidental ? std::string::npos : word.find('=');
    const bool named = equals != std::string::npos && std::ranges::all_of(word.substr(0, equals), is_alphabetic);
    StaffWord found{{}, word, value.offset_bytes + at};
    if (named) found = {in_small_letters(word.substr(0, equals)), word.substr(equals + 1), value.offset_bytes + at};
    words.push_back(std::move(found));
    at = text.find_first_not_of(" \t", end);
  }
  return words;
}

int small_number(const AbcText& source, const StaffWord& word, int most) {
  int number = 0;
  const std::string_view text = std::string_view(word.value).substr(word.value.starts_with('+') ? 1 : 0);
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc{} || end != text.data() + text.size() || std::abs(number) > most)
    refuse(source, word.offset_bytes,
           fmt::format("\"{}={}\": a number from -{} to {} is expected", word.name, shortened(word.value), most, most));
  return number;
}

/// True for the name of a clef, which is taken, alone or after "clef=".
bool take_clef(const std::string& clef, AbcStaff& staff) {
  constexpr std::array clefs = {"treble", "bass", "alto", "tenor", "perc", "none", "soprano", "mezzo", "baritone"};
  const bool known = std::ranges::any_of(clefs, [&](std::string_view name) { return clef.starts_with(name); });
  if (known && clef.ends_with("-8")) staff.clef_octave = -1;
  if (known && clef.ends_with("+8")) staff.clef_octave = 1;
  return known;
}

void take_staff_word(const AbcText& source, const StaffWord& word, AbcStaff& staff) {
  constexpr std::array drawn = {"middle", "m", "stafflines", "snm", "sname", "subname", "stem", "gstem", "merge"};
  constexpr int most_octaves = 4;
  if (word.name == "transpose" || word.name == "t") {
    staff.transpose = small_number(source, word, 48);
  } else if (word.name == "octave") {
    staff.octave = small_number(source, word, most_octaves);
  } else if (word.name == "name" || word.name == "nm") {
    staff.name = word.value;
  } else if (word.name == "clef" || word.name.empty()) {
    if (!take_clef(in_small_letters(word.value), staff) && !word.name.empty()) staff.unknown.push_back(word.value);
  } else if (std::ranges::find(drawn, std::string_view(word.name)) == drawn.end()) {
    staff.unknown.push_back(word.name + "=" + word.value);
  }
}

/// Takes "^f", "_B^c", "=g" off `text`; false where it is something else.
bool take_accidentals(std::string_view text, AbcKey& key) {
  while (!text.empty()) {
    const std::size_t count = text.find_first_not_of("^_=");
    if (count == 0 || count > 2 || count == std::string_view::npos) return false;
    const char letter = small_letter(text[count]);
    if (letter < 'a' || letter > 'g') return false;
    const int direction = text[0] == '^' ? 1 : text[0] == '_' ? -1 : 0;
    const auto step = static_cast<std::size_t>((letter - 'a' + 5) % 7);
    key.alterations.at(step) = direction * static_cast<int>(count);
    text.remove_prefix(count + 1);
  }
  return true;
}

/// The tonic with its mode at the front of the field, and where they end.
std::pair<AbcKey, std::size_t> take_tonic_and_mode(const AbcText& source, const AbcLine& value) {
  const std::string_view text = value.text;
  std::size_t at = 1;
  if (text.size() > 1 && (text[1] == '#' || text[1] == 'b')) ++at;
  const NoteName tonic = *parse_note_name(text.substr(0, at));
  const std::size_t word_start = std::min(text.find_first_not_of(" \t", at), text.size());
  std::size_t word_end = word_start;
  while (word_end < text.size() && is_alphabetic(text[word_end])) ++word_end;
  const std::string_view word = text.substr(word_start, word_end - word_start);
  const bool modifier = word_end < text.size() && text[word_end] == '=';
  const auto mode = modifier ? std::nullopt : mode_named(word);
  AbcStaff ignored;
  if (in_small_letters(word) == "exp") return {AbcKey{}, word_end};
  if (!mode && !word.empty() && !modifier && !take_clef(in_small_letters(word), ignored))
    refuse(source, value.offset_bytes + word_start,
           fmt::format("\"{}\" is not a mode; write K:D, K:Dm, K:Ddor, K:Dmix, K:Dphr or the like", shortened(word)));
  const int fifths = fifths_of(tonic) + (mode ? mode->fifths : 0);
  if (fifths < -7 || fifths > 7) refuse(source, value.offset_bytes, "this key has more than seven signs");
  AbcKey key;
  key.key = key_with_mode(fifths, mode ? mode->name : "major").value_or(Key{fifths});
  set_signature(key, fifths);
  return {key, mode ? word_end : at};
}

}  // namespace

AbcKeyField read_abc_key(const AbcText& source, const AbcLine& value) {
  AbcKeyField field;
  std::size_t at = 0;
  const std::string first(value.text.substr(0, value.text.find(' ')));
  if (value.text.empty() || first == "none") {
    field.key = AbcKey{};
    at = first.size();
  } else if (first == "HP" || first == "Hp") {  // the Highland pipes: two sharps sound, whether they are written or not
    field.key = AbcKey{};
    field.key->key = Key{2, false};
    set_signature(*field.key, 2);
    at = first.size();
  } else if (value.text[0] >= 'A' && value.text[0] <= 'G') {
    std::tie(field.key, at) = take_tonic_and_mode(source, value);
  }
  for (const StaffWord& word : staff_words(value, at)) {
    AbcKey with_accidentals = field.key.value_or(AbcKey{});
    AbcStaff ignored;
    if (word.name.empty() && in_small_letters(word.value) == "exp") {
      field.key = AbcKey{};
    } else if (word.name.empty() && take_accidentals(word.value, with_accidentals)) {
      field.key = with_accidentals;
    } else if (word.name.empty() && !take_clef(in_small_letters(word.value), ignored)) {
      refuse(source, word.offset_bytes,
             fmt::format("\"{}\" is not part of a key; write K:Eb, K:Am, K:Ddor or K:D ^c", shortened(word.value)));
    } else {
      take_staff_word(source, word, field.staff);
    }
  }
  return field;
}

AbcVoiceField read_abc_voice(const AbcText& source, const AbcLine& value) {
  const std::size_t end = std::min(value.text.find_first_of(" \t"), value.text.size());
  if (end == 0) refuse(source, value.offset_bytes, "this voice has no name; write V:1");
  AbcVoiceField field;
  field.id = std::string(value.text.substr(0, end));
  for (const StaffWord& word : staff_words(value, end)) take_staff_word(source, word, field.staff);
  return field;
}

}  // namespace insideline::io
