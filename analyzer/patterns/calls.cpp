#include "analyzer/patterns/calls.hpp"

#include "analyzer/metre.hpp"
#include "analyzer/patterns/riffs.hpp"

#include <algorithm>

namespace insideline {
namespace {

constexpr std::size_t fewest_notes_of_a_call = 3;
constexpr std::size_t most_notes_of_a_call = 12;
constexpr std::size_t bars_to_the_answer = 4;

/// The notes of a phrase, into HeardLine::notes.
struct PhraseNotes {
  std::size_t first = 0;
  std::size_t count = 0;
};

std::vector<PhraseNotes> phrases_of(const HeardLine& line) {
  std::vector<PhraseNotes> phrases;
  for (std::size_t i = 0; i < line.notes.size(); ++i) {
    if (i == 0 || line.notes[i].phrase != line.notes[i - 1].phrase) phrases.push_back({i, 0});
    ++phrases.back().count;
  }
  return phrases;
}

class Pairs {
 public:
  Pairs(const HeardLine& line, const Solo& solo) : line_(line), solo_(solo) {}

  [[nodiscard]] bool answers(const PhraseNotes& call, const PhraseNotes& answer) const {
    const auto may_be_one = [](const PhraseNotes& phrase) {
      return phrase.count >= fewest_notes_of_a_call && phrase.count <= most_notes_of_a_call;
    };
    if (!may_be_one(call) || !may_be_one(answer) || place(call.first) != place(answer.first)) return false;
    const std::size_t bars = line_.notes[answer.first].bar - line_.notes[call.first].bar;
    if (bars == 0 || bars > bars_to_the_answer) return false;
    const std::size_t shorter = std::min(call.count, answer.count);
    const std::size_t shared = notes_in_rhythm(call, answer);
    constexpr std::size_t usual = 4;
    if (shared < std::min(usual, shorter) || shared * 4 < shorter * 3) return false;
    return !is_even(call, shared) && !is_same_again(call, answer);
  }

 private:
  [[nodiscard]] Beats onset(std::size_t index) const { return solo_.notes[line_.notes[index].note].onset; }
  [[nodiscard]] Beats place(std::size_t index) const {
    return beat_in_bar(solo_.bars[line_.notes[index].bar], onset(index));
  }

  /// How many notes from the first on stand at the same distances.
  [[nodiscard]] std::size_t notes_in_rhythm(const PhraseNotes& call, const PhraseNotes& answer) const {
    std::size_t shared = 1;
    while (shared < std::min(call.count, answer.count) &&
           onset(call.first + shared) - onset(call.first) == onset(answer.first + shared) - onset(answer.first))
      ++shared;
    return shared;
  }

  [[nodiscard]] bool is_even(const PhraseNotes& call, std::size_t count) const {
    const Beats step = onset(call.first + 1) - onset(call.first);
    for (std::size_t i = 2; i < count; ++i)
      if (onset(call.first + i) - onset(call.first + i - 1) != step) return false;
    return true;
  }

  [[nodiscard]] bool is_same_again(const PhraseNotes& call, const PhraseNotes& answer) const {
    if (call.count != answer.count) return false;
    for (std::size_t i = 0; i < call.count; ++i)
      if (line_.notes[call.first + i].midi != line_.notes[answer.first + i].midi) return false;
    return true;
  }

  const HeardLine& line_;
  const Solo& solo_;
};

}  // namespace

std::vector<CallAndAnswer> find_calls_and_answers(const HeardLine& line, const Solo& solo,
                                                  std::span<const Riff> riffs) {
  const std::vector<bool> in_riff = riff_notes(riffs, solo.notes.size());
  const std::vector<PhraseNotes> phrases = phrases_of(line);
  const Pairs pairs(line, solo);
  std::vector<CallAndAnswer> found;
  for (std::size_t i = 0; i + 1 < phrases.size(); ++i) {
    const PhraseNotes& call = phrases[i];
    const PhraseNotes& answer = phrases[i + 1];
    const std::size_t first = line.notes[call.first].note;
    const std::size_t answer_first = line.notes[answer.first].note;
    if (in_riff[first] || in_riff[answer_first] || !pairs.answers(call, answer)) continue;
    found.push_back({first, line.notes[call.first + call.count - 1].note, answer_first, call.count});
    ++i;
  }
  return found;
}

}  // namespace insideline
