#include "io/midi/beats_file.hpp"

#include "io/file_bytes.hpp"
#include "io/read_result.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

namespace insideline::io {
namespace {

constexpr std::size_t largest_beats_file_bytes = std::size_t{4} << 20U;
constexpr int most_beats_in_bar = 32;
constexpr double closest_seconds = 0.05;  // 1200 beats a minute

bool is_blank(char letter) {
  return letter == ' ' || letter == '\t' || letter == ',' || letter == ';' || letter == '\r';
}

struct Word {
  std::string_view text;
  std::size_t offset = 0;
};

std::vector<Word> words_of(std::string_view line, std::size_t offset) {
  std::vector<Word> words;
  for (std::size_t i = 0; i < line.size();) {
    if (is_blank(line[i])) {
      ++i;
      continue;
    }
    std::size_t end = i;
    while (end < line.size() && !is_blank(line[end])) ++end;
    words.push_back({line.substr(i, end - i), offset + i});
    i = end;
  }
  return words;
}

/// Reads line after line. Invariant: `beats_` is in order of time.
class BeatsReader {
 public:
  BeatsReader(std::string_view text, std::string_view file_name) : text_(text), file_(file_name) {}

  std::vector<TappedBeat> read() {
    for (std::size_t begin = 0; begin < text_.size();) {
      const std::size_t end = std::min(text_.find('\n', begin), text_.size());
      const std::string_view line = text_.substr(begin, end - begin);
      const auto words = words_of(line.substr(0, line.find('#')), begin);
      if (!words.empty()) read_line(words);
      begin = end + 1;
    }
    if (beats_.size() < 2)
      throw ReadError(place_of(file_), "fewer than two beats; one time in seconds a line is expected");
    const bool numbered = beats_.front().number.has_value();
    if (std::ranges::any_of(beats_, [&](const TappedBeat& beat) { return beat.number.has_value() != numbered; }))
      throw ReadError(place_of(file_), "some beats have a number and some have none; number all of them or none");
    return std::move(beats_);
  }

 private:
  [[noreturn]] void refuse(const Word& word, std::string_view why) const {
    throw ReadError(place_in(file_, text_, word.offset), why);
  }

  void read_line(const std::vector<Word>& words) {
    if (words.size() > 2)
      refuse(words[2], "a line has a time in seconds and perhaps the number of the beat in its bar");
    TappedBeat beat;
    const std::string_view time = words[0].text;
    const auto [end, error] = std::from_chars(time.data(), time.data() + time.size(), beat.seconds);
    if (error != std::errc{} || end != time.data() + time.size() || !std::isfinite(beat.seconds) || beat.seconds < 0.0)
      refuse(words[0], fmt::format("'{}' is not a time in seconds, such as 12.345", time));
    if (!beats_.empty() && beat.seconds < beats_.back().seconds + closest_seconds)
      refuse(words[0],
             fmt::format("the beat at {} s does not come after the one at {} s", beat.seconds, beats_.back().seconds));
    if (words.size() == 2) beat.number = number_of(words[1]);
    beats_.push_back(beat);
  }

  int number_of(const Word& word) const {
    int number = 0;
    const auto [end, error] = std::from_chars(word.text.data(), word.text.data() + word.text.size(), number);
    if (error != std::errc{} || end != word.text.data() + word.text.size() || number < 1 || number > most_beats_in_bar)
      refuse(word, fmt::format("'{}' is not the number of a beat in its bar, 1 to {}", word.text, most_beats_in_bar));
    return number;
  }

  std::string_view text_;
  std::string_view file_;
  std::vector<TappedBeat> beats_;
};

}  // namespace

std::vector<TappedBeat> parse_beats_file(std::string_view text, std::string_view file_name) {
  return BeatsReader(text, file_name).read();
}

std::vector<TappedBeat> read_beats_file(const std::filesystem::path& file) {
  return parse_beats_file(read_bytes(file, largest_beats_file_bytes), file.filename().string());
}

}  // namespace insideline::io
