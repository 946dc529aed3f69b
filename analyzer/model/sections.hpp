// The parts of a form by name: what a chart letters [A] [B] or calls "Bridge", and what a rehearsal mark names in a
// score. Bars before the first letter belong to no section.
#pragma once

#include "analyzer/model/changes.hpp"
#include "analyzer/model/solo.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace insideline {

/// A section of one pass of the form. A letter that comes twice is two sections.
struct FormSection {
  std::string name;
  std::size_t first_bar = 0;  ///< index into Changes::bars
  std::size_t bars = 1;
};

/// In the order they are played; empty where the chart has no letters.
std::vector<FormSection> sections_of(const Changes& changes);

/// The sections under a solo: those of the chart, chorus after chorus with bar 1 of the first pass on
/// `harmony.first_chorus`; where it has none, those that the solo's own marks name.
std::vector<SoundingSection> sounding_sections(const Changes& changes, const Solo& solo, const Harmony& harmony);

/// The sections that `wanted` may mean, as indices in order: "B", "last A", "second A", "A 2" (the second one), each
/// also "of chorus 3"; "section 9" for a name that is a number. A name as it is spelled goes before one in other
/// capitals. Of "A" that comes several times all are given; empty where there is no such section.
std::vector<std::size_t> sections_named(std::span<const SoundingSection> sections, std::string_view wanted);
/// The same of one pass of the form, which is chorus 1.
std::vector<std::size_t> sections_named(std::span<const FormSection> sections, std::string_view wanted);

/// How many of a section's name come up to and including it, and how many in all: "the second A of three".
struct SectionPlace {
  std::size_t number = 1;
  std::size_t of = 1;
};
SectionPlace place_among_its_name(std::span<const SoundingSection> sections, std::size_t index);

/// The section that begins at `onset`; none where none does.
std::optional<std::size_t> section_beginning_at(std::span<const SoundingSection> sections, const Beats& onset);

/// Whether a double bar line belongs at `onset`: where the source draws one, and where a section begins but the first
/// bar.
bool has_double_bar(const Solo& solo, const Harmony& harmony, const Beats& onset);

/// "A, A, B, A": one pass of the form, or all sections where the names do not go round. For messages.
std::string names_of(std::span<const SoundingSection> sections);

}  // namespace insideline
