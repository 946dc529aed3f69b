#include "io/changes/chart_headers.hpp"

#include "analyzer/model/pitch.hpp"
#include "analyzer/shortened.hpp"
#include "analyzer/small_letters.hpp"
#include "io/changes/typed_habits.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>

#include <fmt/format.h>

namespace insideline::io {
namespace {

/// The value of a header with its place.
struct Value {
  const ChartText& chart;
  std::string_view text;
  std::size_t offset_bytes;
};

using ReadValue = void (*)(ChartHeaders&, const Value&);
struct HeaderKind {
  std::string_view word;
  ReadValue read;
};

/// "3/4" on a line of its own.
bool is_meter_alone(const ChartLine& line) {
  return line.text.find('/') != std::string_view::npos && parse_meter(line.text).has_value();
}

bool is_letter(char character) { return std::isalpha(static_cast<unsigned char>(character)) != 0; }

std::optional<int> parse_number(std::string_view text) {
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

/// Takes a note name off the front of `text`, in any case and with either kind of accidental sign.
std::optional<NoteName> take_tonic(std::string_view& text) {
  if (text.empty()) return std::nullopt;
  std::string name(1, static_cast<char>(std::toupper(static_cast<unsigned char>(text.front()))));
  text.remove_prefix(1);
  for (const auto& [sign, ascii] : {std::pair<std::string_view, char>{"#", '#'}, {"♯", '#'}, {"b", 'b'}, {"♭", 'b'}})
    if (text.starts_with(sign)) {
      name += ascii;
      text.remove_prefix(sign.size());
      break;
    }
  return parse_note_name(name);
}

template <typename T>
void set_once(std::optional<T>& field, T value, const Value& source, std::string_view word) {
  if (field) refuse(source.chart, source.offset_bytes, fmt::format("the {} is given twice; keep one of them", word));
  field = std::move(value);
}

void read_title(ChartHeaders& headers, const Value& value) {
  set_once(headers.title, std::string(value.text), value, "title");
}

void read_key(ChartHeaders& headers, const Value& value) {
  const auto key = parse_key(value.text);
  if (!key)
    refuse(value.chart, value.offset_bytes,
           fmt::format("\"{}\" is not a key; write one like Eb, F# minor, Cm or D dorian, of at most seven signs",
                       shortened(value.text)));
  set_once(headers.key, *key, value, "key");
}

void read_meter(ChartHeaders& headers, const Value& value) {
  const auto meter = parse_meter(value.text);
  if (!meter)
    refuse(value.chart, value.offset_bytes,
           fmt::format("\"{}\" is not a meter; write one like 4/4, 3/4 or 6/8", shortened(value.text)));
  set_once(headers.meter, *meter, value, "meter");
}

void read_pickup(ChartHeaders& headers, const Value& value) {
  const auto beats = parse_beats(value.text);
  constexpr int most = 32;
  if (!beats || *beats < Beats{} || *beats > Beats(most) || beats->denominator() > 64)
    refuse(value.chart, value.offset_bytes,
           fmt::format("\"{}\" is not a pickup; write the beats before bar 1, like 1 or 1/2", shortened(value.text)));
  set_once(headers.pickup, *beats, value, "pickup");
}

void read_form(ChartHeaders& headers, const Value& value) {
  if (!headers.form.empty()) refuse(value.chart, value.offset_bytes, "the form is given twice; keep one of them");
  constexpr std::size_t longest = 20'000;  // bytes: more sections than bars are ever played out
  if (value.text.size() > longest)
    refuse(value.chart, value.offset_bytes, "the form is too long; write one pass of it");
  constexpr std::string_view between = " ,";
  for (std::size_t at = value.text.find_first_not_of(between); at != std::string_view::npos;) {
    const std::size_t end = std::min(value.text.find_first_of(between, at), value.text.size());
    headers.form.push_back({std::string(value.text.substr(at, end - at)), value.offset_bytes + at});
    at = value.text.find_first_not_of(between, end);
  }
  if (headers.form.empty())
    refuse(value.chart, value.offset_bytes, "the form names no section; write one like A A B A");
}

/// "160", "160 bpm", "ca. 160", "♩ = 160": quarter notes a minute.
void read_tempo(ChartHeaders& headers, const Value& value) {
  std::string_view number = value.text;
  for (const std::string_view before : {"♩", "q", "ca.", "="})
    if (number.starts_with(before)) number = trimmed(number.substr(before.size()));
  if (in_small_letters(number).ends_with("bpm")) number = trimmed(number.substr(0, number.size() - 3));
  const auto bpm = parse_number(number);
  constexpr int slowest = 20;
  constexpr int fastest = 400;
  if (!bpm || *bpm < slowest || *bpm > fastest)
    refuse(value.chart, value.offset_bytes,
           fmt::format("\"{}\" is not a tempo; write quarter notes a minute, from {} to {}", shortened(value.text),
                       slowest, fastest));
  set_once(headers.tempo_bpm, static_cast<double>(*bpm), value, "tempo");
}

void read_composer(ChartHeaders& headers, const Value& value) {
  set_once(headers.composer, std::string(value.text), value, "composer");
}

constexpr std::array header_kinds = {
    HeaderKind{"title", read_title},       HeaderKind{"key", read_key},   HeaderKind{"meter", read_meter},
    HeaderKind{"pickup", read_pickup},     HeaderKind{"form", read_form}, HeaderKind{"tempo", read_tempo},
    HeaderKind{"composer", read_composer},
};

/// Words at the head of charts that say nothing about the notes.
constexpr std::array idle_words = {"style",   "feel",   "groove",   "rhythm",     "mood",        "genre",
                                   "artist",  "author", "arranger", "by",         "music by",    "written by",
                                   "words",   "lyrics", "source",   "copyright",  "date",        "year",
                                   "note",    "notes",  "comment",  "remark",     "album",       "page",
                                   "version", "level",  "player",   "instrument", "arranged by", "transcribed by"};

std::string known_words() {
  std::string words;
  for (const HeaderKind& kind : header_kinds) words += (words.empty() ? "" : ", ") + std::string(kind.word);
  return words;
}

/// "AABA" or "A A B A".
bool is_order_of_letters(std::string_view text) {
  return std::ranges::all_of(text, [](char c) { return c == ' ' || (c >= 'A' && c <= 'H'); });
}

/// How much of "tempo 120", a header without its colon, is the word: only where nothing else can be meant by the rest.
std::optional<std::size_t> word_without_colon(const ChartLine& line) {
  const std::size_t blank = line.text.find(' ');
  if (blank == std::string_view::npos || line.text.find_first_of(":|") != std::string_view::npos) return std::nullopt;
  const std::string word = in_small_letters(line.text.substr(0, blank));
  const std::string_view value = trimmed(line.text.substr(blank));
  const bool is_said = ((word == "meter" || word == "time") && value.find('/') != std::string_view::npos &&
                        parse_meter(value).has_value()) ||
                       ((word == "tempo" || word == "bpm" || word == "pickup") && parse_number(value).has_value()) ||
                       (word == "key" && parse_key(value).has_value()) ||
                       (word == "form" && is_order_of_letters(value));
  return is_said ? std::optional(blank) : std::nullopt;
}

}  // namespace

std::optional<std::string_view> section_name(const ChartLine& line) {
  if (line.text.find(':') == std::string_view::npos) return std::nullopt;
  std::vector<std::string_view> words;
  for (const HeaderKind& kind : header_kinds) words.push_back(kind.word);
  words.insert(words.end(), idle_words.begin(), idle_words.end());
  return section_label(line, words);
}

bool is_header(const ChartLine& line) {
  if (is_meter_alone(line) || word_without_colon(line)) return true;
  if (section_name(line)) return false;
  const auto colon = line.text.find(':');
  if (colon == std::string_view::npos || colon == 0 || !is_letter(line.text.front())) return false;
  const std::string_view word = trimmed(line.text.substr(0, colon));
  const std::string_view value = line.text.substr(colon + 1);
  if (value.starts_with('|') || value.starts_with(':')) return false;
  const bool chord_label = !value.empty() && value.front() != ' ' && parse_note_name(word);
  return !chord_label &&
         std::ranges::all_of(word, [](char c) { return is_letter(c) || c == ' ' || c == '-' || c == '_'; });
}

std::string header_word(const ChartLine& line) {
  std::string word =
      in_small_letters(trimmed(line.text.substr(0, word_without_colon(line).value_or(line.text.find(':')))));
  if (word == "bpm") return "tempo";
  return word == "time" || word == "time signature" || is_meter_alone(line) ? "meter" : word;
}

std::size_t header_value(const ChartLine& line) {
  if (is_meter_alone(line)) return 0;
  return word_without_colon(line).value_or(line.text.find(':')) + 1;
}

void read_header(ChartHeaders& headers, const ChartText& chart, const ChartLine& line) {
  const std::string word = header_word(line);
  const auto kind = std::ranges::find(header_kinds, std::string_view(word), &HeaderKind::word);
  if (kind == header_kinds.end() && std::ranges::find(idle_words, word) != idle_words.end()) {
    headers.warnings.push_back({place_in(chart.file, chart.text, line.offset_bytes),
                                fmt::format("\"{}:\" says nothing about the notes and is left out", word)});
    return;
  }
  if (kind == header_kinds.end()) {
    const bool names_bars = line.text.find('|') != std::string_view::npos;
    refuse(chart, line.offset_bytes,
           fmt::format("the header \"{}\" is not known; known are {}{}", shortened(word), known_words(),
                       names_bars ? "; a section is written [A]" : ""));
  }
  const std::string_view text = trimmed(line.text.substr(header_value(line)));
  if (text.empty()) refuse(chart, line.offset_bytes, fmt::format("the {} is missing after \"{}:\"", kind->word, word));
  kind->read(headers, {chart, text, static_cast<std::size_t>(text.data() - chart.text.data())});
}

std::optional<Key> parse_key(std::string_view text) {
  const auto tonic = take_tonic(text);
  if (!tonic) return std::nullopt;
  // A capital M is major and a small m minor, so the case is kept for these two.
  const std::string_view mode = trimmed(text);
  const std::string spoken = in_small_letters(mode);
  const bool minor = mode == "m" || mode == "-" || spoken == "min";
  const bool major = mode.empty() || mode == "M" || spoken == "maj";
  auto key = key_with_mode(0, minor ? "minor" : major ? "major" : std::string_view(spoken));
  if (!key) return std::nullopt;
  key->fifths = fifths_of(*tonic) - tonic_above_major(*key);
  if (key->fifths < -7 || key->fifths > 7) return std::nullopt;
  return key;
}

std::optional<Meter> parse_meter(std::string_view text) {
  if (text == "C" || text == "c") return Meter{4, 4};
  if (text == "C|" || text == "c|") return Meter{2, 2};
  const auto slash = text.find('/');
  if (slash == std::string_view::npos) return std::nullopt;
  const auto beats = parse_number(trimmed(text.substr(0, slash)));
  const auto unit = parse_number(trimmed(text.substr(slash + 1)));
  constexpr std::array units = {1, 2, 4, 8, 16, 32};
  if (!beats || *beats < 1 || *beats > 32 || !unit || std::ranges::find(units, *unit) == units.end())
    return std::nullopt;
  return Meter{*beats, *unit};
}

}  // namespace insideline::io
