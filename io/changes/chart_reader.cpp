#include "io/changes/chart_reader.hpp"

#include <algorithm>
#include <cctype>
#include <iterator>
#include <optional>
#include <utility>
#include "analyzer/shortened.hpp"
#include "io/changes/chart_headers.hpp"
#include "io/changes/typed_habits.hpp"
#include "io/changes/typed_signs.hpp"

#include <fmt/format.h>

namespace insideline::io {
namespace {

constexpr std::size_t longest_ending = 40;  // bytes

bool ends_repeat(const Sign& sign) { return sign.kind == SignKind::bar_line && sign.text.starts_with(':'); }
bool is_plain(const Sign& sign) { return sign.kind == SignKind::bar_line && sign.text == "|"; }

/// Whether blanks and then whole bars follow a letter: " | C | F |".
bool stands_before_bars(std::string_view rest) {
  return trimmed(rest).starts_with('|') && !rest.starts_with('|') && rest.ends_with('|');
}

/// Gathers the signs of a bar until its bar line. Promise: what `written_` has of each bar stays parallel.
class ChartReader {
 public:
  ChartReader(const ChartText& chart, Meter meter) : chart_(chart), meter_(meter) {}

  void read_line(const ChartLine& line);
  void change_meter(const ChartLine& line);
  WrittenBars finish() &&;

 private:
  void read_sign(const Sign& sign, const std::optional<Sign>& before);
  void read_bar_line(const Sign& sign, const std::optional<Sign>& before);
  void read_section(const Sign& sign);
  void read_ending(const Sign& sign);
  void end_repeat(const Sign& sign);
  void close_bar();
  void play_again();
  int take_times();
  void tell_lone_bracket();
  void tell_lone_letter(const ChartLine& line);
  void tell_no_bar_line(const ChartLine& line, const std::vector<Sign>& words);
  ChartLine after_label(const ChartLine& line);
  bool reads_as_ending(const Sign& sign, const std::optional<Sign>& before);
  std::vector<Sign> join_symbols();
  bool repeats_line(const Sign& sign, const std::optional<Sign>& before);
  void hold_bar(const Sign& bar_line);
  void note_small_letters(const std::vector<Sign>& words);
  void warn(std::size_t offset_bytes, std::string_view message);
  [[nodiscard]] int next_number() const { return static_cast<int>(written_.marks.size()) + 1; }

  const ChartText& chart_;
  Meter meter_;
  WrittenBars written_;
  std::vector<Sign> words_;             // of the bar being read
  std::string section_;                 // the one the bar lies in
  std::optional<Sign> opened_section_;  // these wait for the first chord after them
  std::optional<Sign> opened_repeat_;
  std::optional<Sign> opened_ending_;
  std::optional<ChartLine> opened_meter_;
  std::size_t first_of_line_ = 0;    // the bar that the line being read begins with
  std::vector<Sign> small_letters_;  // chords typed with one
  bool told_no_bar_lines_ = false;
  int open_brackets_ = 0;  // parentheses over several bars
};

void ChartReader::read_line(const ChartLine& line) {
  std::optional<Sign> before;
  first_of_line_ = written_.marks.size();
  tell_lone_letter(line);
  const std::vector<Sign> signs = with_times_joined(chart_, signs_of(chart_, after_label(line)));
  for (const Sign& sign : signs) {
    const bool last = &sign == &signs.back();
    if (last && before && before->kind == SignKind::bar_line && is_remark(sign))
      warn(sign.offset_bytes, fmt::format("{} is left out", shortened(sign.text)));
    else if (!repeats_line(sign, before) && !reads_as_ending(sign, before))
      read_sign(sign, before);
    before = sign;
  }
  const std::vector<Sign> last_words = words_;
  close_bar();
  tell_no_bar_line(line, last_words);
}

/// A line of several chords without a bar line is one bar, while its writer may have meant a bar each, or sections.
void ChartReader::tell_no_bar_line(const ChartLine& line, const std::vector<Sign>& words) {
  if (line.text.find('|') != std::string_view::npos || words.empty() || written_.chords.back().size() < 2) return;
  if (std::ranges::any_of(words, [](const Sign& word) { return is_beats(word.text); })) return;
  if (chart_.text.find('|') != std::string::npos) {
    const bool letters = std::ranges::all_of(words, [](const Sign& word) { return word.text.size() == 1; });
    warn(line.offset_bytes,
         fmt::format("bar {} is this line, as no bar line stands in it: its {} chords share one bar{}",
                     written_.marks.size(), written_.chords.back().size(),
                     letters ? fmt::format("; a section is written [{}] before a bar line", words.front().text) : ""));
  } else if (!told_no_bar_lines_) {
    told_no_bar_lines_ = true;
    const auto chord = [&](std::size_t at) {
      const std::optional<Chord>& written = written_.chords.back()[at].chord;
      return written ? written->symbol : std::string("N.C.");
    };
    warn(
        line.offset_bytes,
        fmt::format("there are no bar lines, so each line is one bar that its chords share; where each chord has a bar "
                    "write | {} | {} |",
                    chord(0), chord(1)));
  }
}

void ChartReader::change_meter(const ChartLine& line) {
  ChartHeaders said;
  read_header(said, chart_, line);
  meter_ = said.meter.value_or(meter_);
  opened_meter_ = line;
}

void ChartReader::read_sign(const Sign& sign, const std::optional<Sign>& before) {
  switch (sign.kind) {
    case SignKind::bar_line: return read_bar_line(sign, before);
    case SignKind::section: return read_section(sign);
    case SignKind::ending: return read_ending(sign);
    case SignKind::word: break;
  }
  const auto times = before && ends_repeat(*before) ? times_of(sign.text) : std::nullopt;
  if (times) {
    written_.marks.back().times = *times;
  } else {
    words_.push_back(sign);
  }
}

/// A number right behind a bar line, or alone in brackets there, is an ending where the chart has a repeat to which it
/// can belong and it is not the number of the bar.
bool ChartReader::reads_as_ending(const Sign& sign, const std::optional<Sign>& before) {
  const bool behind_bar_line = before && before->kind == SignKind::bar_line && words_.empty();
  if (!behind_bar_line || sign.kind == SignKind::bar_line || sign.kind == SignKind::ending) return false;
  const auto number = ending_number(sign.text);
  if (!number || written_.marks.empty() || chart_.text.find(":|") == std::string::npos) return false;
  const bool next_ending = ends_repeat(*before) && std::ranges::any_of(written_.marks, [](const BarMarks& marks) {
                             return !marks.ending.empty();
                           });
  if (*number == std::to_string(next_number()) && !next_ending) return false;
  warn(sign.offset_bytes, fmt::format("{} is read as an ending; one is written |{}.", *number, *number));
  read_ending({SignKind::ending, *number, sign.offset_bytes});
  return true;
}

/// What follows the section name or the bar number that a line may begin with.
ChartLine ChartReader::after_label(const ChartLine& line) {
  std::size_t at = 0;
  if (const auto name = section_name(line)) {
    read_section({SignKind::section, *name, line.offset_bytes});
    at = line.text.find(':') + 1;
  } else if (const auto front = front_name(line); front && chart_.text.find('|') != std::string::npos) {
    read_section({SignKind::section, front->name, line.offset_bytes});
    at = front->length;
    if (!is_section_word(front->name))
      warn(line.offset_bytes,
           fmt::format("{} is read as a section; one is written [{}]", line.text.substr(0, at), front->name));
  } else {
    while (at < line.text.size() && std::isdigit(static_cast<unsigned char>(line.text[at])) != 0) ++at;
    const std::string_view rest = line.text.substr(at);
    const bool own_number = line.text.substr(0, at) == std::to_string(next_number());  // "2." may be an ending
    const bool number = at > 0 && !trimmed(rest).empty() &&
                        (rest.starts_with(": ") || rest.starts_with(") ") || trimmed(rest).starts_with('|') ||
                         (own_number && rest.starts_with('.') && trimmed(rest.substr(1)).starts_with('|')));
    if (!number) return line;
    if (!trimmed(rest).starts_with('|')) ++at;
  }
  return {line.text.substr(at), line.offset_bytes + at};
}

/// "x3" behind the last bar of a line without repeat signs: the line is played three times.
bool ChartReader::repeats_line(const Sign& sign, const std::optional<Sign>& before) {
  const auto times = times_of(sign.text);
  if (sign.kind != SignKind::word || !times || !before || before->kind != SignKind::bar_line || ends_repeat(*before) ||
      before->text.ends_with(':') || !words_.empty() || first_of_line_ == written_.marks.size() || opened_repeat_)
    return false;
  const auto first = written_.marks.begin() + static_cast<std::ptrdiff_t>(first_of_line_);
  if (std::any_of(first, written_.marks.end(), [](const BarMarks& m) { return m.times > 0 || !m.ending.empty(); }))
    return false;
  first->starts_repeat = true;
  written_.marks.back().times = *times;
  return true;
}

/// "x3" behind the chords of a bar: the bar is played three times, which is told.
int ChartReader::take_times() {
  const auto times = words_.size() > 1 ? times_of(words_.back().text) : std::nullopt;
  if (!times) return 1;
  const std::string_view before = words_[words_.size() - 2].text;
  if (before.ends_with(')') && before.find('(') == std::string_view::npos)
    refuse(chart_, words_.back().offset_bytes,
           fmt::format("bar {}: \"{}\" stands behind a parenthesis over several bars; write |: and :| around them",
                       next_number(), words_.back().text));
  warn(words_.back().offset_bytes,
       fmt::format("bar {} is played {} times, as \"{}\" says", next_number(), *times, words_.back().text));
  words_.pop_back();
  return *times;
}

/// "C7b9)": read without the bracket, which may have stood around more.
void ChartReader::tell_lone_bracket() {
  for (const Sign& word : words_) {
    open_brackets_ += brackets_left_open(word.text);
    if (open_brackets_ < 0)
      warn(word.offset_bytes,
           fmt::format("bar {}: the ) of \"{}\" closes nothing and is left out", next_number(), shortened(word.text)));
    open_brackets_ = std::max(open_brackets_, 0);
  }
}

/// "A" alone, or before the bars of a line, names a section for most, but is a chord; so is that of "(A) F7 | C7 |".
void ChartReader::tell_lone_letter(const ChartLine& line) {
  constexpr std::string_view roots = "ABCDEFG";
  const std::string_view text = line.text;
  const bool bracketed = text.size() > 3 && text[0] == '(' && text[2] == ')' && text[3] == ' ';
  const char letter = text[bracketed ? 1 : 0];
  if (roots.find(letter) == std::string_view::npos || chart_.text.find('|') == std::string::npos) return;
  if (bracketed ? front_name(line).has_value() : text.size() > 1 && !stands_before_bars(text.substr(1))) return;
  warn(line.offset_bytes, fmt::format("bar {} {} the chord {}; a section is written [{}] or {}:", next_number(),
                                      bracketed ? "begins with" : "is", letter, letter, letter));
}

/// A bar with nothing in it: the chord before goes on.
void ChartReader::hold_bar(const Sign& bar_line) {
  if (written_.chords.empty())
    refuse(chart_, bar_line.offset_bytes,
           fmt::format("bar {} is empty, and no chord stands before it; write a chord or N.C.", next_number()));
  warn(bar_line.offset_bytes, fmt::format("bar {} is empty: the chord before goes on", next_number()));
  words_.push_back({SignKind::word, "-", bar_line.offset_bytes});
}

/// "C min7" is a Cmin7, which is told.
std::vector<Sign> ChartReader::join_symbols() {
  std::vector<Sign> words = with_symbols_joined(chart_, words_);
  if (words.size() == words_.size()) return words;
  for (const Sign& word : words) {
    const bool whole = std::ranges::any_of(words_, [&](const Sign& typed) { return typed.text == word.text; });
    if (!whole) warn(word.offset_bytes, fmt::format("\"{}\" is read as {}", word.text, in_one_word(word.text)));
  }
  return words;
}

void ChartReader::note_small_letters(const std::vector<Sign>& words) {
  for (const Sign& word : words)
    if (with_capital_root(word.text)) small_letters_.push_back(word);
}

void ChartReader::warn(std::size_t offset_bytes, std::string_view message) {
  constexpr std::size_t most_warnings = 20;
  if (written_.warnings.size() < most_warnings)
    written_.warnings.push_back({place_in(chart_.file, chart_.text, offset_bytes), std::string(message)});
}

void ChartReader::read_bar_line(const Sign& sign, const std::optional<Sign>& before) {
  if (words_.empty() && before && is_plain(*before) && is_plain(sign)) hold_bar(sign);
  close_bar();
  if (ends_repeat(sign)) end_repeat(sign);
  if (!sign.text.ends_with(':')) return;
  if (opened_repeat_) refuse(chart_, sign.offset_bytes, "the repeat before this one has no bars");
  opened_repeat_ = sign;
}

void ChartReader::read_section(const Sign& sign) {
  if (!words_.empty())
    refuse(chart_, sign.offset_bytes,
           fmt::format("section [{}] begins inside bar {}; put it before a bar line", sign.text, next_number()));
  if (opened_section_)
    refuse(chart_, opened_section_->offset_bytes, fmt::format("section [{}] has no bars", opened_section_->text));
  if (names_a_chord(sign.text))
    warn(sign.offset_bytes,
         fmt::format("[{}] is read as the name of a section; a chord is written without brackets, | {} |", sign.text,
                     sign.text));
  opened_section_ = sign;
}

void ChartReader::read_ending(const Sign& sign) {
  if (opened_ending_) refuse(chart_, opened_ending_->offset_bytes, "this ending has no bars");
  if (sign.text.size() > longest_ending || passes_of(sign.text).empty())
    refuse(chart_, sign.offset_bytes, fmt::format("\"{}\" is not an ending; write |1. or |1,2.", shortened(sign.text)));
  opened_ending_ = sign;
}

void ChartReader::end_repeat(const Sign& sign) {
  if (written_.marks.empty() || opened_repeat_ || opened_ending_)
    refuse(chart_, sign.offset_bytes, "no bar stands before this :| to be repeated");
  if (written_.marks.back().times > 0) refuse(chart_, sign.offset_bytes, "a :| stands here already");
  written_.marks.back().times = 2;
}

void ChartReader::close_bar() {
  if (words_.empty()) return;
  if (written_.marks.size() == most_played_bars)
    refuse(chart_, words_.front().offset_bytes, fmt::format("this chart has more than {} bars", most_played_bars));
  tell_lone_bracket();
  const int times = take_times();
  const std::vector<BarChord> none;
  const std::vector<BarChord>& before = written_.chords.empty() ? none : written_.chords.back();
  const std::vector<Sign> words = plain_words(chart_, join_symbols(), next_number());
  if (words.empty()) refuse(chart_, words_.front().offset_bytes, fmt::format("bar {} has no chord", next_number()));
  std::vector<BarChord> bar = read_bar(chart_, words, next_number(), meter_, before);
  note_small_letters(words);
  std::ranges::copy(words, std::back_inserter(written_.words));
  if (opened_section_) section_ = opened_section_->text;
  written_.marks.push_back({.offset_bytes = words_.front().offset_bytes,
                            .section = section_,
                            .starts_section = opened_section_.has_value(),
                            .starts_repeat = opened_repeat_.has_value(),
                            .times = 0,
                            .ending = opened_ending_ ? passes_of(opened_ending_->text) : std::vector<int>{}});
  written_.meters.push_back(meter_);
  written_.chords.push_back(std::move(bar));
  for (int again = 1; again < times; ++again) play_again();
  words_.clear();
  opened_section_.reset();
  opened_repeat_.reset();
  opened_ending_.reset();
  opened_meter_.reset();
}

void ChartReader::play_again() {
  if (written_.marks.size() == most_played_bars)
    refuse(chart_, written_.marks.back().offset_bytes,
           fmt::format("this chart has more than {} bars", most_played_bars));
  written_.marks.push_back({.offset_bytes = written_.marks.back().offset_bytes, .section = section_, .ending = {}});
  written_.meters.push_back(meter_);
  written_.chords.push_back(written_.chords.back());
}

WrittenBars ChartReader::finish() && {
  if (opened_section_)
    refuse(chart_, opened_section_->offset_bytes, fmt::format("section [{}] has no bars", opened_section_->text));
  if (opened_ending_) refuse(chart_, opened_ending_->offset_bytes, "this ending has no bars");
  if (opened_repeat_) refuse(chart_, opened_repeat_->offset_bytes, "the repeat that begins here has no bars");
  if (opened_meter_)
    refuse(chart_, opened_meter_->offset_bytes,
           fmt::format("no bar follows this meter, after bar {}; a meter stands before the bars that are in it",
                       written_.marks.size()));
  if (!small_letters_.empty()) {
    std::string read;
    constexpr std::size_t most_named = 4;
    for (std::size_t i = 0; i < std::min(most_named, small_letters_.size()); ++i)
      read += fmt::format("{}{} as {}", i == 0 ? "" : ", ", shortened(small_letters_[i].text),
                          shortened(*with_capital_root(small_letters_[i].text)));
    warn(small_letters_.front().offset_bytes,
         fmt::format("roots in small letters were read as capitals: {}{}; a small letter does not mean minor here",
                     read, small_letters_.size() > most_named ? " ..." : ""));
  }
  return std::move(written_);
}

}  // namespace

WrittenBars read_bars(const ChartText& chart, const std::vector<ChartLine>& lines, Meter meter) {
  ChartReader reader(chart, meter);
  for (const ChartLine& line : lines) is_header(line) ? reader.change_meter(line) : reader.read_line(line);
  return std::move(reader).finish();
}

}  // namespace insideline::io
