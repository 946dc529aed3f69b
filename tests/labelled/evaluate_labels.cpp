// Reads label files and prints how far the program agrees with them: by role, figure and
// placement, with a confusion table and a reliability table of `confidence`.
//   evaluate_labels [--list] FILE...     --list also prints every note that disagrees
#include "analyzer/analysis.hpp"
#include "analyzer/labels/label_notes.hpp"
#include "analyzer/phrases.hpp"
#include "tests/support/label_file.hpp"

#include <algorithm>
#include <array>
#include <cstdio>
#include <exception>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>

namespace {

using insideline::NoteLabel;
using insideline::Role;
using insideline::tests::code_of;
using insideline::tests::ExpectedLabel;
using insideline::tests::LabelledExample;

struct Count {
  int agreed = 0;
  int notes = 0;
  void add(bool agrees) {
    ++notes;
    if (agrees) ++agreed;
  }
};

struct ReliabilityBin {
  int notes = 0;
  int right = 0;
  double confidence = 0.0;
};

struct Tally {
  std::map<std::string, Count> by_role;
  std::map<std::string, Count> by_figure;
  Count roles;
  Count figures;
  Count placements;
  std::map<std::pair<std::string, std::string>, int> confusions;
  std::array<ReliabilityBin, 10> bins;
};

std::string figure_word(const ExpectedLabel& expected) {
  if (expected.figure) return to_string(*expected.figure);
  return to_string(expected.role);
}

template <typename Test>
bool any(const std::vector<ExpectedLabel>& acceptable, Test test) {
  return std::any_of(acceptable.begin(), acceptable.end(), test);
}

void add_note(Tally& tally, const NoteLabel& label, const std::vector<ExpectedLabel>& acceptable,
              const std::string& code) {
  const ExpectedLabel& preferred = acceptable.front();
  const bool role = any(acceptable, [&](const ExpectedLabel& other) { return other.role == label.role; });
  const bool figure = agrees(label, acceptable);
  const bool placement = any(
      acceptable, [&](const ExpectedLabel& other) { return !other.placement || *other.placement == label.placement; });
  tally.roles.add(role);
  tally.figures.add(figure);
  tally.placements.add(placement);
  tally.by_role[to_string(preferred.role)].add(role);
  tally.by_figure[figure_word(preferred)].add(figure);
  if (!figure) ++tally.confusions[{code, code_of(label)}];
  const auto bin = std::min<std::size_t>(static_cast<std::size_t>(label.confidence * 10.0), 9);
  if (label.confidence < 1.0) {
    ++tally.bins.at(bin).notes;
    tally.bins.at(bin).right += role ? 1 : 0;
    tally.bins.at(bin).confidence += label.confidence;
  }
}

void list_disagreement(const LabelledExample& example, std::size_t i, const NoteLabel& label) {
  fmt::print("  {} note {:>2} {:<4} wanted {:<10} got {:<8} ({:.2f}) {}", example.id, i + 1,
             to_string(example.solo.notes[i].pitch), example.codes[i], code_of(label), label.confidence, label.reason);
  for (const auto& other : label.alternatives) fmt::print(" | {} {:.2f}", to_string(other.figure), other.probability);
  fmt::print("\n");
}

void print_counts(std::string_view title, const std::map<std::string, Count>& counts) {
  fmt::print("\n{:<18} agreed  notes\n", title);
  for (const auto& [word, count] : counts) fmt::print("  {:<16} {:>6} {:>6}\n", word, count.agreed, count.notes);
}

void print(const Tally& tally) {
  const auto line = [](std::string_view what, const Count& count) {
    fmt::print("{:<12} {:>4} of {:>4}  {:5.1f} %\n", what, count.agreed, count.notes,
               100.0 * count.agreed / std::max(count.notes, 1));
  };
  line("roles", tally.roles);
  line("figures", tally.figures);
  line("placements", tally.placements);
  print_counts("by role", tally.by_role);
  print_counts("by figure", tally.by_figure);
  fmt::print("\nwanted -> got\n");
  for (const auto& [pair, count] : tally.confusions)
    fmt::print("  {:<10} -> {:<10} {:>3}\n", pair.first, pair.second, count);
  fmt::print("\nconfidence  notes  right  mean confidence (hard facts, confidence 1, left out)\n");
  for (std::size_t i = 0; i < tally.bins.size(); ++i) {
    const ReliabilityBin& bin = tally.bins.at(i);
    if (bin.notes == 0) continue;
    fmt::print("  {:.1f}-{:.1f}   {:>6} {:>6.2f} {:>6.2f}\n", 0.1 * static_cast<double>(i),
               0.1 * static_cast<double>(i + 1), bin.notes, static_cast<double>(bin.right) / bin.notes,
               bin.confidence / bin.notes);
  }
}

void evaluate(const std::string& file, bool list, Tally& tally) {
  for (const LabelledExample& example : insideline::tests::read_label_file(file)) {
    const auto phrases = insideline::find_phrases(example.solo, example.harmony);
    const auto labels = insideline::label_notes(example.solo, example.harmony, phrases);
    for (std::size_t i = 0; i < labels.size(); ++i) {
      add_note(tally, labels[i], example.acceptable[i], example.codes[i]);
      if (list && !agrees(labels[i], example.acceptable[i])) list_disagreement(example, i, labels[i]);
    }
  }
}

}  // namespace

int main(int argc, char** argv) {
  try {
    const std::vector<std::string> arguments(argv + 1, argv + argc);
    const bool list = !arguments.empty() && arguments.front() == "--list";
    Tally tally;
    for (std::size_t i = list ? 1 : 0; i < arguments.size(); ++i) evaluate(arguments[i], list, tally);
    print(tally);
    return 0;
  } catch (const std::exception& error) {
    fmt::print(stderr, "evaluate_labels: {}\n", error.what());
    return 1;
  }
}
