#include "analyzer/measures/heard_harmony.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <vector>

namespace insideline {
namespace {

constexpr double as_good = 1e-9;  // likelihoods this near are equal

/// A set of tones with how many they are.
struct CandidateChord {
  PitchClassSet tones = 0;
  std::size_t size = 0;
};

struct Candidates {
  std::vector<CandidateChord> chords;
  std::vector<std::size_t> sizes;  ///< how many tones they have, each number once, in order
};

/// Every kind of chord in use on every root; each set of tones once, in order.
Candidates candidate_chords(const HeardLine& line) {
  std::vector<PitchClassSet> sets;
  for (const Stretch& stretch : line.stretches) sets.push_back(stretch.tones);
  std::ranges::sort(sets);
  sets.erase(std::unique(sets.begin(), sets.end()), sets.end());
  const std::size_t in_use = sets.size();
  for (std::size_t i = 0; i < in_use; ++i)
    for (int semitones = 1; semitones < pitch_classes; ++semitones) sets.push_back(moved_up(sets[i], semitones));
  std::ranges::sort(sets);
  sets.erase(std::unique(sets.begin(), sets.end()), sets.end());
  Candidates candidates;
  candidates.chords.reserve(sets.size());
  std::array<bool, pitch_classes + 1> has_size{};
  for (const PitchClassSet set : sets) {
    candidates.chords.push_back({.tones = set, .size = static_cast<std::size_t>(std::popcount(set))});
    has_size.at(candidates.chords.back().size) = true;
  }
  for (std::size_t size = 0; size < has_size.size(); ++size)
    if (has_size.at(size)) candidates.sizes.push_back(size);
  return candidates;
}

/// The natural logarithm of the probability of `notes` notes under a chord of `tones` tones that `hits` of them are.
double log_likelihood(int notes, int hits, std::size_t tones) {
  static const double log_weight = std::log(tone_weight);
  static const auto log_total = [] {
    std::array<double, pitch_classes + 1> totals{};
    for (std::size_t size = 0; size < totals.size(); ++size)
      totals.at(size) = std::log(tone_weight * static_cast<double>(size) + static_cast<double>(pitch_classes - size));
    return totals;
  }();
  return hits * log_weight - notes * log_total.at(tones);
}

/// Candidates of as many tones that as many notes belong to are equally likely: they are weighed together.
HeardChord heard_chord(const PitchHits& hits_of, int notes, PitchClassSet real, const Candidates& candidates) {
  HeardChord heard;
  heard.notes = notes;
  std::vector<std::array<int, pitch_classes + 1>> alike(static_cast<std::size_t>(notes) + 1);  // by hits and tones
  for (const CandidateChord& candidate : candidates.chords)
    ++alike[static_cast<std::size_t>(hits_of.of(candidate.tones))][candidate.size];
  const double of_real = log_likelihood(notes, hits_of.of(real), static_cast<std::size_t>(std::popcount(real)));
  double relative_sum = 0.0;  // of all likelihoods, against that of the real chord
  for (int hits = 0; hits <= notes; ++hits) {
    for (const std::size_t tones : candidates.sizes) {
      const int count = alike[static_cast<std::size_t>(hits)][tones];
      if (count == 0) continue;
      const double difference = log_likelihood(notes, hits, tones) - of_real;
      if (difference > as_good) heard.rank += count;
      relative_sum += count * std::exp(difference);
    }
  }
  heard.bits = std::log2(static_cast<double>(candidates.chords.size()) / relative_sum);
  return heard;
}

struct Mean {
  double sum = 0.0;
  int count = 0;
};
double value(const Mean& mean) { return mean.count == 0 ? 0.0 : mean.sum / mean.count; }

}  // namespace

HeardHarmony measure_heard_harmony(const HeardLine& line, const Harmony& harmony) {
  HeardHarmony heard;
  const Candidates candidates = candidate_chords(line);
  heard.candidates = static_cast<int>(candidates.chords.size());
  std::vector<PitchCounts> counts(line.stretches.size());
  std::vector<int> notes(line.stretches.size());
  for (const HeardNote& note : line.notes) {
    if (!note.sounding) continue;
    ++counts[*note.sounding].at(static_cast<std::size_t>(note.pitch_class));
    ++notes[*note.sounding];
  }
  Mean overall;
  std::vector<Mean> by_chorus(static_cast<std::size_t>(std::max(harmony.choruses, 1)));
  for (std::size_t i = 0; i < line.stretches.size(); ++i) {
    if (notes[i] == 0) continue;
    HeardChord chord = heard_chord(PitchHits(counts[i]), notes[i], line.stretches[i].tones, candidates);
    chord.chord = line.stretches[i].first;
    ++heard.first_rank.of;
    if (chord.rank == 1) ++heard.first_rank.count;
    Mean& chorus = by_chorus.at(static_cast<std::size_t>(harmony.chords[chord.chord].chorus - 1));
    for (Mean* mean : {&overall, &chorus}) {
      mean->sum += chord.bits;
      ++mean->count;
    }
    heard.chords.push_back(chord);
  }
  heard.bits_per_chord = value(overall);
  for (const Mean& chorus : by_chorus) heard.bits_per_chord_by_chorus.push_back(value(chorus));
  return heard;
}

}  // namespace insideline
