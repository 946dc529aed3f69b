#include "io/hearing/hearing_file.hpp"

#include "io/file_bytes.hpp"
#include "io/hearing/hearing_words.hpp"
#include "io/read_result.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <map>
#include <optional>

namespace insideline::io {
namespace {

constexpr std::size_t largest_hearing_bytes = std::size_t{4} << 20U;
constexpr std::array<std::string_view, 8> ordinals = {"first", "second", "third",   "fourth",
                                                      "fifth", "sixth",  "seventh", "eighth"};

bool is_space(char letter) { return letter == ' ' || letter == '\t' || letter == '\r'; }

/// Without its comment: from "#" at the beginning or between blanks, so that "#11" stays a degree.
std::string_view without_comment(std::string_view line) {
  bool begins = true;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const bool after_blank = i == 0 || is_space(line[i - 1]);
    const bool before_blank = i + 1 == line.size() || is_space(line[i + 1]);
    if (line[i] == '#' && (begins || (after_blank && before_blank))) return line.substr(0, i);
    begins = begins && is_space(line[i]);
  }
  return line;
}

std::vector<HearingWord> split_words(std::string_view line, std::size_t offset) {
  std::vector<HearingWord> words;
  for (std::size_t i = 0; i < line.size();) {
    std::size_t end = i;
    while (end < line.size() && !is_space(line[end])) ++end;
    if (end > i) words.push_back({line.substr(i, end - i), offset + i});
    i = std::max(end, i + 1);
  }
  return words;
}

/// The notes that begin in one bar.
struct NotesOfBar {
  const Bar* bar = nullptr;
  std::vector<const Note*> notes;
};

/// Reads line after line.
class HearingFile {
 public:
  HearingFile(std::string_view text, std::string_view file_name, const Solo& solo) : text_(text), file_(file_name) {
    for (const Bar& bar : solo.bars) bars_[bar.number].bar = &bar;
    for (const Note& note : solo.notes) bars_[solo.bars[bar_index_at(solo, note.onset)].number].notes.push_back(&note);
  }

  HearingReading read() {
    constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
    for (std::size_t begin = text_.starts_with(byte_order_mark) ? byte_order_mark.size() : 0; begin < text_.size();) {
      const std::size_t end = std::min(text_.find('\n', begin), text_.size());
      const auto words = split_words(without_comment(text_.substr(begin, end - begin)), begin);
      if (!words.empty()) read_line(words);
      begin = end + 1;
    }
    return std::move(result_);
  }

 private:
  [[noreturn]] void refuse(std::size_t offset, std::string_view why) const {
    throw ReadError(place_in(file_, text_, offset), why);
  }

  void read_line(const std::vector<HearingWord>& words) {
    constexpr std::size_t fewest_words = 3;
    if (words.size() < fewest_words)
      refuse(words.front().offset, "a line has a bar, a beat and what the note is, as in '12 2.5 neighbour tone'");
    const NotesOfBar& bar = bar_of(words[0]);
    Pin pin;
    std::size_t what = 2;
    const std::optional<std::size_t> grace = grace_number(words, what);
    pin.onset = onset_of(bar, words[1], grace.has_value());
    if (grace) pin.grace = chosen_grace(bar, pin.onset, *grace, words[2]);
    const std::vector<HearingWord> rest(words.begin() + static_cast<std::ptrdiff_t>(what), words.end());
    if (rest.empty())
      refuse(words.back().offset, "it does not say what the grace note is, as in 'grace approach tone'");
    if (const auto fault = add_words(pin, rest)) refuse(fault->offset, fault->message);
    keep(pin, words[0].offset);
  }

  void keep(const Pin& pin, std::size_t offset) {
    const auto same_note = [&](const Pin& other) { return other.onset == pin.onset && other.grace == pin.grace; };
    const auto known = std::ranges::find_if(result_.pins, same_note);
    const Place place = place_in(file_, text_, offset);
    if (known == result_.pins.end()) {
      result_.pins.push_back(pin);
      result_.places.push_back(place);
    } else if (!take_other_line(*known, pin)) {
      const auto index = static_cast<std::size_t>(known - result_.pins.begin());
      throw ReadError(place, fmt::format("this contradicts line {}, which is about the same note; keep one of them",
                                         result_.places[index].line));
    }
  }

  const NotesOfBar& bar_of(const HearingWord& word) const {
    int number = 0;
    const auto [end, error] = std::from_chars(word.text.data(), word.text.data() + word.text.size(), number);
    if (error != std::errc{} || end != word.text.data() + word.text.size())
      refuse(word.offset, fmt::format("'{}' is not the number of a bar; a line begins with a bar and a beat, as in "
                                      "'12 2.5 neighbour tone'",
                                      word.text));
    const auto found = bars_.find(number);
    if (found == bars_.end())
      refuse(word.offset, fmt::format("there is no bar {}; the solo has bars {} to {}", number, bars_.begin()->first,
                                      bars_.rbegin()->first));
    return found->second;
  }

  /// Which grace note the words from the third on speak of, 0 where they do not say; `what` moves behind them.
  static std::optional<std::size_t> grace_number(const std::vector<HearingWord>& words, std::size_t& what) {
    const auto is = [&](std::size_t i, std::string_view text) { return i < words.size() && words[i].text == text; };
    const auto ordinal = std::ranges::find(ordinals, words[what].text);
    const bool counted = ordinal != ordinals.end() && is(what + 1, "grace");
    if (!counted && !is(what, "grace")) return std::nullopt;
    what += counted ? 2 : 1;
    if (is(what, "note")) ++what;
    return counted ? static_cast<std::size_t>(ordinal - ordinals.begin()) + 1 : 0;
  }

  Beats onset_of(const NotesOfBar& bar, const HearingWord& word, bool grace) const {
    constexpr int farthest = 1'000;
    const auto beat = parse_beats(word.text);
    if (!beat || *beat > Beats(farthest) || *beat < Beats(-farthest))
      refuse(word.offset, fmt::format("'{}' is not a beat, such as 1, 2.5 or 7/3", word.text));
    const bool rounded = word.text.find('.') != std::string_view::npos;  // 2.33 is the second triplet of beat 2
    const Beats room = rounded ? Beats(1, 100) : Beats(0);
    const Note* nearest = nullptr;
    std::string beats;
    std::optional<Beats> last;  // told
    for (const Note* const note : bar.notes) {
      if (note->grace != grace) continue;
      const Beats there = beat_in_bar(*bar.bar, note->onset);
      if (there == *beat) return note->onset;
      if (there - *beat <= room && *beat - there <= room) nearest = note;
      if (there != last) beats += (beats.empty() ? "" : ", ") + beat_text(there);
      last = there;
    }
    if (nearest != nullptr) return nearest->onset;
    const std::string_view kind = grace ? "grace note" : "note";
    if (beats.empty()) refuse(word.offset, fmt::format("no {} begins in bar {}", kind, bar.bar->number));
    refuse(word.offset,
           fmt::format("no {} begins on beat {} of bar {}; they begin on {}", kind, word.text, bar.bar->number, beats));
  }

  std::size_t chosen_grace(const NotesOfBar& bar, const Beats& onset, std::size_t said, const HearingWord& word) const {
    const auto count = static_cast<std::size_t>(
        std::ranges::count_if(bar.notes, [&](const Note* note) { return note->grace && note->onset == onset; }));
    if (said > count)
      refuse(word.offset, fmt::format("no {} grace note stands there; {}", ordinals.at(said - 1),
                                      count == 1 ? "it has one" : fmt::format("it has {}", count)));
    if (said == 0 && count > 1)
      refuse(word.offset, fmt::format("{} grace notes stand there; write which, as in 'first grace'", count));
    return std::max<std::size_t>(said, 1);
  }

  std::string_view text_;
  std::string_view file_;
  std::map<int, NotesOfBar> bars_;
  HearingReading result_;
};

}  // namespace

HearingReading parse_hearing(std::string_view text, std::string_view file_name, const Solo& solo) {
  return HearingFile(text, file_name, solo).read();
}

HearingReading read_hearing(const std::filesystem::path& file, const Solo& solo) {
  const std::string text = read_bytes(file, largest_hearing_bytes);
  return parse_hearing(text, file.filename().string(), solo);
}

}  // namespace insideline::io
