#include "analyzer/harmony/symbol_grammar.hpp"

#include "analyzer/harmony/symbol_numbers.hpp"

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include <fmt/core.h>

namespace insideline {
namespace {

/// Thrown inside this file only, to leave the grammar from any depth.
struct Stop {
  UnreadableSymbol where;
};

class SymbolReader {
 public:
  SymbolReader(std::span<const SymbolToken> words, std::size_t end_bytes) : words_(words), end_bytes_(end_bytes) {}

  ChordRecipe read() {
    read_quality();
    if (next_is(Word::number)) read_first_numbers();
    while (position_ < words_.size()) read_change();
    if (brackets_ > 0) stop("found the end where a closing bracket was expected");
    if (recipe_.altered_dominant) check_altered_dominant();
    return recipe_;
  }

 private:
  enum class Opening : std::uint8_t { stack, addition };

  [[nodiscard]] std::size_t offset() const {
    return position_ < words_.size() ? words_[position_].offset_bytes : end_bytes_;
  }
  [[noreturn]] void stop(std::string message) const { stop_at(offset(), std::move(message)); }
  [[noreturn]] static void stop_at(std::size_t offset_bytes, std::string message) {
    throw Stop{{offset_bytes, std::move(message), {}}};
  }
  [[nodiscard]] bool next_is(Word word, std::size_t ahead = 0) const {
    return position_ + ahead < words_.size() && words_[position_ + ahead].word == word;
  }
  [[nodiscard]] bool next_is_number(int value, std::size_t ahead = 0) const {
    return next_is(Word::number, ahead) && words_[position_ + ahead].value == value;
  }
  bool take(Word word) {
    if (!next_is(word)) return false;
    ++position_;
    return true;
  }

  /// Minus and plus right after the root are qualities, except before a 5, which they alter.
  void read_quality() {
    const bool sign_of_fifth = next_is_number(5, 1);
    if (take(Word::minor) || (!sign_of_fifth && take(Word::minus))) {
      make_minor();
    } else if (!sign_of_fifth && (take(Word::plus) || take(Word::augmented))) {
      recipe_.fifth_alter = 1;
      quality_named_ = true;
    } else if (!sign_of_fifth && take(Word::diminished)) {
      make_minor();
      recipe_.fifth_alter = -1;
      recipe_.seventh_alter = -2;
    } else if (take(Word::half_diminished)) {
      make_minor();
      recipe_.fifth_alter = -1;
      seventh_implied_ = true;
    } else if (take(Word::dominant)) {
      quality_named_ = true;
      seventh_implied_ = true;
    }
    if (next_is(Word::major) || next_is(Word::triangle)) read_major();
    if (seventh_implied_ && recipe_.stack == 0 && !next_is(Word::number)) recipe_.stack = 7;
  }

  void make_minor() {
    recipe_.third_alter = -1;
    quality_named_ = true;
  }

  /// "maj" speaks of the seventh. Without a number it is a plain triad after the root, and a seventh where
  /// the triad is already named or the sign is a triangle.
  void read_major() {
    const bool triangle = next_is(Word::triangle);
    const bool letter_j = !triangle && words_[position_].value == 1;
    ++position_;
    major_named_ = true;
    recipe_.seventh_alter = 0;
    if (triangle || quality_named_) seventh_implied_ = true;
    quality_named_ = true;
    if (letter_j && !next_is(Word::number)) stop("\"j\" stands for maj only before a number");
  }

  /// The numbers right after root and quality: the first is the chord's own.
  void read_first_numbers() {
    const SymbolToken first = words_[position_];
    const bool bare = !quality_named_;
    switch (first.value) {
      case 6:
      case 7:
      case 9:
      case 11:
      case 13: recipe_.stack = first.value; break;
      case 5:
        if (!bare) stop("found \"5\" after a quality: a power chord is a root and a 5");
        recipe_.stack = 5;
        break;
      case 4:
        if (bare)
          recipe_.suspensions.push_back({4, 0});
        else
          recipe_.additions.push_back({11, 0});
        break;
      case 2: recipe_.additions.push_back({9, 0}); break;
      default: stop(fmt::format("found {} where 2, 4, 5, 6, 7, 9, 11 or 13 can stand", first.value));
    }
    read_run(Opening::stack);
  }

  /// One alteration, word or separator after the first numbers.
  void read_change() {
    const Word word = words_[position_].word;
    if (word == Word::dominant || word == Word::half_diminished || word == Word::minor || word == Word::triangle)
      return read_late_quality();
    if (word == Word::major) return read_late_major();
    if (word == Word::sus) return read_sus();
    if (word == Word::add) return read_add();
    if (word == Word::omit) return read_omit();
    if (word == Word::alt) return read_alt();
    if (is_number_part(word)) return read_numbers();
    read_separator();
  }

  void read_separator() {
    const Word word = words_[position_].word;
    const bool last = position_ + 1 == words_.size();
    if (word == Word::open) {
      if (next_is(Word::close, 1)) stop("found empty brackets");
      ++brackets_;
    }
    if (word == Word::close && --brackets_ < 0) stop("found a closing bracket that none opens");
    if ((word == Word::slash || word == Word::separator) && last)
      stop(word == Word::slash ? "found a slash without the bass note that follows it"
                               : "found a comma or space with nothing after it");
    ++position_;
  }

  void read_late_quality() {
    if (next_is(Word::triangle)) return read_late_major();
    stop("found a quality where only numbers, alterations, sus, add, omit or alt can stand");
  }

  /// "maj" after the first numbers or in brackets: C7M, Cm(maj7), Cm/maj9, C6(maj7), C dim7(maj7).
  void read_late_major() {
    if (major_named_) stop("found a second word for the major seventh");
    major_named_ = true;
    ++position_;
    const bool diminished_seventh = recipe_.stack >= 7 && recipe_.seventh_alter == -2;
    if (diminished_seventh || recipe_.stack == 6)
      recipe_.additions.push_back({7, 0});
    else
      recipe_.seventh_alter = 0;
    const bool reaches_up = next_is_number(9) || next_is_number(11) || next_is_number(13);
    if (recipe_.stack == 0 && reaches_up)
      recipe_.stack = words_[position_].value;
    else if (recipe_.stack == 0)
      recipe_.stack = 7;
    if (next_is_number(7) || (reaches_up && recipe_.stack == words_[position_].value)) ++position_;
    take(Word::ordinal);
  }

  void read_sus() {
    if (recipe_.altered_dominant) stop("\"sus\" takes the third, which an altered dominant has");
    ++position_;
    bool any = false;
    while (const auto suspended = take_suspended()) {
      recipe_.suspensions.push_back(*suspended);
      any = true;
    }
    if (!any && recipe_.suspensions.empty()) recipe_.suspensions.push_back({4, 0});
    if (!next_is(Word::number)) return;
    const bool stacks = recipe_.stack == 0 && words_[position_].value >= 7;
    if (stacks) recipe_.stack = words_[position_].value;
    read_run(stacks ? Opening::stack : Opening::addition);
  }

  /// A 2 or 4 after sus, with or without accidental.
  std::optional<Degree> take_suspended() {
    std::size_t ahead = 0;
    int alter = 0;
    for (; next_is(Word::sharp, ahead) || next_is(Word::flat, ahead); ++ahead)
      alter += next_is(Word::sharp, ahead) ? words_[position_ + ahead].value : -words_[position_ + ahead].value;
    if (alter < -most_accidentals || alter > most_accidentals ||
        (!next_is_number(2, ahead) && !next_is_number(4, ahead)))
      return std::nullopt;
    const int number = words_[position_ + ahead].value;
    position_ += ahead + 1;
    return Degree{number, alter};
  }

  void read_add() {
    ++position_;
    while (take(Word::separator)) {
    }
    do {
      if (take(Word::major)) {
        if (!next_is_number(7)) stop("after \"add maj\" only 7 can stand");
        ++position_;
        recipe_.additions.push_back({7, 0});
        continue;
      }
      for (const NamedNumber& named : take_numbers_after("add")) recipe_.additions.push_back(degree_or_stop(named));
    } while (take_list_separator());
  }

  void read_omit() {
    ++position_;
    while (take(Word::separator)) {
    }
    do {
      const std::size_t first = position_;
      while (next_is(Word::number) || next_is(Word::ordinal)) ++position_;
      if (first == position_) stop("after \"omit\" or \"no\" stands the number that is left out");
      for (const SymbolToken& token : words_.subspan(first, position_ - first))
        if (token.word == Word::number) recipe_.omissions.push_back(token.value);
    } while (take_list_separator());
  }

  /// A comma and one more number continue the list of add and omit.
  bool take_list_separator() {
    const bool continues =
        next_is(Word::separator) && position_ + 1 < words_.size() && is_number_part(words_[position_ + 1].word);
    if (continues) ++position_;
    return continues;
  }

  void read_alt() {
    if (recipe_.third_alter != 0 || recipe_.fifth_alter != 0 || recipe_.seventh_alter != -1 ||
        (recipe_.stack != 0 && recipe_.stack != 7) || !recipe_.suspensions.empty())
      stop("\"alt\" goes with a dominant seventh chord only");
    alt_bytes_ = offset();
    ++position_;
    recipe_.altered_dominant = true;
    recipe_.stack = 7;
    if (next_is_number(7)) ++position_;
  }

  /// Its altered fifths and ninths may be named again; anything else contradicts it.
  void check_altered_dominant() const {
    const auto restates = [](const Degree& degree) {
      return degree.alter != 0 &&
             (degree.number == 5 || degree.number == 9 || degree == Degree{11, 1} || degree == Degree{13, -1});
    };
    const bool only_restated = std::ranges::all_of(recipe_.alterations, restates);
    const bool only_fifth_out = std::ranges::all_of(recipe_.omissions, [](int number) { return number == 5; });
    if (!only_restated || !only_fifth_out || !recipe_.stacked.empty() || !recipe_.additions.empty())
      stop_at(alt_bytes_, "\"alt\" names every altered fifth and ninth and goes with no other note");
  }

  void read_numbers() {
    const bool after_bracket = position_ > 0 && words_[position_ - 1].word == Word::open;
    const bool stacks = recipe_.stack == 0 && !after_bracket && recipe_.additions.empty() && recipe_.stacked.empty() &&
                        recipe_.suspensions.empty() && next_is(Word::number) && words_[position_].value == 7;
    if (stacks) recipe_.stack = 7;
    read_run(stacks ? Opening::stack : Opening::addition);
  }

  /// "7+b9": a plus behind the chord's own number and before another accidental has no number but the fifth.
  [[nodiscard]] static bool raises_fifth_first(std::span<const SymbolToken> run, Opening opening) {
    constexpr std::size_t shortest = 4;
    if (opening == Opening::addition || run.size() < shortest) return false;
    const bool raises = run[1].word == Word::plus || run[1].word == Word::augmented;
    return raises && run[2].word != Word::number && run[2].word != Word::ordinal;
  }

  /// A run of numbers and accidentals. Plus or aug alone after the chord's own number is the raised fifth.
  void read_run(Opening opening) {
    const std::size_t begin = position_;
    std::size_t end = begin;
    while (end < words_.size() && is_number_part(words_[end].word)) ++end;
    if (raises_fifth(begin, end, opening)) {
      recipe_.alterations.push_back({5, 1});
      position_ = end;
      return;
    }
    const std::span<const SymbolToken> written = words_.subspan(begin, end - begin);
    std::vector<SymbolToken> run(written.begin(), written.end());
    if (raises_fifth_first(run, opening)) {
      recipe_.alterations.push_back({5, 1});
      run.erase(run.begin() + 1);
    }
    if (opening == Opening::stack && is_six_nine(run)) run.erase(run.begin() + 1);
    const auto numbers = named_numbers(run, opening == Opening::stack);
    if (!numbers) stop_in_run(run, opening);
    for (std::size_t i = opening == Opening::stack ? 1 : 0; i < numbers->size(); ++i) apply((*numbers)[i]);
    position_ = end;
  }

  /// "6-9" is 6/9: the dash holds the two numbers apart.
  [[nodiscard]] static bool is_six_nine(std::span<const SymbolToken> run) {
    constexpr std::size_t parts = 3;
    return run.size() == parts && run[0].word == Word::number && run[0].value == 6 && run[1].word == Word::minus &&
           run[2].word == Word::number && run[2].value == 9;
  }

  [[nodiscard]] bool raises_fifth(std::size_t begin, std::size_t end, Opening opening) const {
    const std::size_t own = opening == Opening::stack ? 1 : 0;
    if (end - begin != own + 1) return false;
    const Word last = words_[end - 1].word;
    return last == Word::plus || last == Word::augmented;
  }

  [[noreturn]] static void stop_in_run(std::span<const SymbolToken> run, Opening opening) {
    const auto is_loose = [&](std::size_t i) { return run[i].word != Word::number && run[i].word != Word::ordinal; };
    for (std::size_t i = 0; i < run.size(); ++i)
      if (is_loose(i) && (i + 1 == run.size() || is_loose(i + 1)))
        stop_at(run[i].offset_bytes, "found an accidental or sign without the number it belongs to");
    const std::size_t first = opening == Opening::stack && run.size() > 1 ? 1 : 0;
    stop_at(run[first].offset_bytes, "found a number that says nothing here; a third or fifth needs its accidental");
  }

  void apply(const NamedNumber& named) {
    const Degree degree = degree_or_stop(named);
    if (!named.alter && named.number == 7 && recipe_.stack >= 7) stop_at(named.offset_bytes, "found a second seventh");
    if (!named.alter && named.number == recipe_.stack)
      stop_at(named.offset_bytes, fmt::format("found a second {}", named.number));
    if (named.alter)
      recipe_.alterations.push_back(degree);
    else
      recipe_.stacked.push_back(degree);
  }

  static Degree degree_or_stop(const NamedNumber& named) {
    const auto degree = degree_named(named);
    if (!degree)
      stop_at(named.offset_bytes, fmt::format("found {} where 5, 6, 7, 9, 11 or 13 can stand", named.number));
    return *degree;
  }

  std::vector<NamedNumber> take_numbers_after(std::string_view word) {
    const std::size_t first = position_;
    while (position_ < words_.size() && is_number_part(words_[position_].word)) ++position_;
    // "add" may name a plain third or fifth, so the run is read as if its first number opened it.
    auto numbers = named_numbers(words_.subspan(first, position_ - first), false);
    if (!numbers && position_ == first + 1 && words_[first].word == Word::number)
      numbers = {{words_[first].value, std::nullopt, words_[first].offset_bytes}};
    if (!numbers) {
      position_ = first;
      stop(fmt::format("after \"{}\" stands the number that is added", word));
    }
    return *numbers;
  }

  std::span<const SymbolToken> words_;
  std::size_t end_bytes_;
  std::size_t position_ = 0;
  std::size_t alt_bytes_ = 0;
  int brackets_ = 0;
  bool quality_named_ = false;
  bool major_named_ = false;
  bool seventh_implied_ = false;
  ChordRecipe recipe_;
};

}  // namespace

tl::expected<ChordRecipe, UnreadableSymbol> recipe_from(std::span<const SymbolToken> words, std::size_t end_bytes) {
  try {
    return SymbolReader(words, end_bytes).read();
  } catch (const Stop& stop) {
    return tl::unexpected(stop.where);
  }
}

}  // namespace insideline
