#include "analyzer/model/sections.hpp"

#include "analyzer/small_letters.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <optional>
#include <utility>

namespace insideline {
namespace {

std::optional<std::size_t> ordinal_number(std::string_view word) {
  static constexpr std::array words{"first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth"};
  const auto found = std::ranges::find(words, word);
  if (found == words.end()) return std::nullopt;
  return static_cast<std::size_t>(std::distance(words.begin(), found)) + 1;
}

std::optional<std::size_t> counting_number(std::string_view digits) {
  std::size_t number = 0;
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), number);
  if (digits.empty() || error != std::errc{} || end != digits.data() + digits.size() || number == 0)
    return std::nullopt;
  return number;
}

/// "second A of chorus 3" taken apart.
struct SectionWish {
  std::string_view name;
  std::optional<std::size_t> number{};  ///< the n-th of this name, from 1
  bool last = false;
  std::optional<std::size_t> chorus{};
};

void take_chorus(SectionWish& wish) {
  constexpr std::string_view words = " of chorus ";
  const std::size_t at = wish.name.rfind(words);
  if (at == std::string_view::npos) return;
  wish.chorus = counting_number(wish.name.substr(at + words.size()));
  if (wish.chorus) wish.name = wish.name.substr(0, at);
}

/// "last A", "second A", or "A 2".
void take_number(SectionWish& wish) {
  const std::size_t first_blank = wish.name.find(' ');
  if (first_blank == std::string_view::npos) return;
  const std::string first_word = in_small_letters(wish.name.substr(0, first_blank));
  wish.last = first_word == "last";
  wish.number = ordinal_number(first_word);
  if (wish.last || wish.number) return static_cast<void>(wish.name.remove_prefix(first_blank + 1));
  const std::size_t last_blank = wish.name.rfind(' ');
  wish.number = counting_number(wish.name.substr(last_blank + 1));
  if (wish.number) wish.name = wish.name.substr(0, last_blank);
}

struct NamedSection {
  std::string_view name;
  std::size_t chorus = 1;
};

std::vector<std::size_t> of_name(std::span<const NamedSection> sections, const SectionWish& wish) {
  const auto those = [&](auto is_called) {
    std::vector<std::size_t> found;
    for (std::size_t i = 0; i < sections.size(); ++i)
      if ((!wish.chorus || sections[i].chorus == *wish.chorus) && is_called(sections[i].name)) found.push_back(i);
    return found;
  };
  std::vector<std::size_t> found = those([&](std::string_view name) { return name == wish.name; });
  if (!found.empty()) return found;
  const std::string small = in_small_letters(wish.name);
  return those([&](std::string_view name) { return in_small_letters(name) == small; });
}

std::vector<std::size_t> found_for(std::span<const NamedSection> sections, const SectionWish& wish) {
  std::vector<std::size_t> found = of_name(sections, wish);
  if (found.empty()) return found;
  if (wish.last) return {found.back()};
  if (!wish.number) return found;
  if (*wish.number > found.size()) return {};
  return {found[*wish.number - 1]};
}

std::vector<std::size_t> meant_by(std::span<const NamedSection> sections, std::string_view wanted) {
  if (auto exact = of_name(sections, {.name = wanted}); !exact.empty()) return exact;
  constexpr std::string_view word = "section ";
  if (in_small_letters(wanted.substr(0, word.size())) == word) wanted.remove_prefix(word.size());
  SectionWish wish{.name = wanted};
  take_chorus(wish);
  if (auto found = found_for(sections, wish); !found.empty()) return found;
  take_number(wish);
  return found_for(sections, wish);
}

void add_section(std::vector<SoundingSection>& sections, const Solo& solo, const std::string& name, const Beats& begin,
                 const Beats& end, int chorus) {
  const auto first_full = std::ranges::find_if(solo.bars, [](const Bar& bar) { return bar.number > 0; });
  if (first_full == solo.bars.end()) return;
  const Beats from = std::max(begin, first_full->onset);
  const Beats to = std::min(end, end_of(solo));
  if (from >= to) return;
  const Bar& first = solo.bars[bar_index_at(solo, from)];
  const auto after_last = std::ranges::lower_bound(solo.bars, to, {}, &Bar::onset);
  sections.push_back({.name = name,
                      .onset = from,
                      .duration = to - from,
                      .chorus = chorus,
                      .first_bar = first.number,
                      .last_bar = std::prev(after_last)->number});
}

void add_marked_sections(std::vector<SoundingSection>& sections, const Solo& solo, const Harmony& harmony) {
  for (std::size_t i = 0; i < solo.marks.size(); ++i) {
    const Beats end = i + 1 < solo.marks.size() ? solo.marks[i + 1].onset : end_of(solo);
    const auto chord = std::ranges::upper_bound(harmony.chords, solo.marks[i].onset, {}, &SoundingChord::onset);
    const int chorus = chord == harmony.chords.begin() ? 1 : std::prev(chord)->chorus;
    add_section(sections, solo, solo.marks[i].name, solo.marks[i].onset, end, chorus);
  }
}

}  // namespace

std::vector<FormSection> sections_of(const Changes& changes) {
  std::vector<FormSection> sections;
  for (std::size_t bar = 0; bar < changes.bars.size(); ++bar) {
    const std::string& name = changes.bars[bar].section;
    const bool begins = bar == 0 || changes.bars[bar].starts_section || changes.bars[bar - 1].section != name;
    if (name.empty()) continue;
    if (begins) sections.push_back({name, bar, 0});
    ++sections.back().bars;
  }
  return sections;
}

std::vector<SoundingSection> sounding_sections(const Changes& changes, const Solo& solo, const Harmony& harmony) {
  std::vector<SoundingSection> sections;
  if (solo.bars.empty()) return sections;
  const std::vector<FormSection> form = sections_of(changes);
  const auto add_pass = [&](const Beats& first, int chorus) {
    for (const FormSection& section : form) {
      const FormBar& last = changes.bars[section.first_bar + section.bars - 1];
      add_section(sections, solo, section.name, first + changes.bars[section.first_bar].onset,
                  first + last.onset + last.length, chorus);
    }
  };
  if (form.empty()) {
    add_marked_sections(sections, solo, harmony);
  } else if (harmony.chorus_length <= Beats{}) {
    add_pass(harmony.first_chorus, 1);
  } else {
    Beats first = harmony.first_chorus;
    if (first > Beats{}) first -= harmony.chorus_length;
    for (int chorus = 1; first < end_of(solo); first += harmony.chorus_length) add_pass(first, chorus++);
  }
  return sections;
}

std::vector<std::size_t> sections_named(std::span<const SoundingSection> sections, std::string_view wanted) {
  std::vector<NamedSection> named;
  for (const SoundingSection& section : sections)
    named.push_back({section.name, static_cast<std::size_t>(section.chorus)});
  return meant_by(named, wanted);
}

std::vector<std::size_t> sections_named(std::span<const FormSection> sections, std::string_view wanted) {
  std::vector<NamedSection> named;
  for (const FormSection& section : sections) named.push_back({section.name});
  return meant_by(named, wanted);
}

SectionPlace place_among_its_name(std::span<const SoundingSection> sections, std::size_t index) {
  const auto same = [&](const SoundingSection& section) { return section.name == sections[index].name; };
  return {.number = static_cast<std::size_t>(std::ranges::count_if(sections.first(index + 1), same)),
          .of = static_cast<std::size_t>(std::ranges::count_if(sections, same))};
}

std::optional<std::size_t> section_beginning_at(std::span<const SoundingSection> sections, const Beats& onset) {
  const auto found = std::ranges::lower_bound(sections, onset, {}, &SoundingSection::onset);
  if (found == sections.end() || found->onset != onset) return std::nullopt;
  return static_cast<std::size_t>(std::distance(sections.begin(), found));
}

bool has_double_bar(const Solo& solo, const Harmony& harmony, const Beats& onset) {
  if (std::ranges::binary_search(solo.double_bars, onset)) return true;
  return onset > Beats{} && section_beginning_at(harmony.sections, onset).has_value();
}

std::string names_of(std::span<const SoundingSection> sections) {
  constexpr std::size_t most_names = 24;
  std::string names;
  std::size_t named = 0;
  for (const SoundingSection& section : sections) {
    if (section.chorus > sections.front().chorus && named > 0) break;
    if (named++ == most_names) return names + " ...";
    names += (names.empty() ? "" : ", ") + section.name;
  }
  return names;
}

}  // namespace insideline
