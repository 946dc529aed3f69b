#include "cli/placing.hpp"

#include "analyzer/alignment.hpp"
#include "analyzer/alignment_doctor.hpp"
#include "analyzer/alignment_fit.hpp"
#include "analyzer/bar_one.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdlib>
#include <span>
#include <utility>

namespace insideline::cli {
namespace {

constexpr int semitones_in_octave = 12;

/// The chart says one meter and the solo has another throughout.
bool differ_throughout(const Changes& changes, const Solo& solo) {
  return changes.meter &&
         std::ranges::none_of(changes.bars, [](const FormBar& bar) { return bar.meter.has_value(); }) &&
         std::ranges::none_of(solo.bars, [&](const Bar& bar) { return bar.meter == *changes.meter; });
}

/// What to do about a disagreement, where the command line has something.
std::string remedy(Contradiction kind, const Changes& changes, const Solo& solo) {
  switch (kind) {
    case Contradiction::meter:
      return differ_throughout(changes, solo)
                 ? "is it the chart of this solo? If so, one of the two says the wrong meter"
                 : "write a line like `meter: 3/4` before those bars of the changes";
    case Contradiction::bars:
    case Contradiction::pickup: return "--start-bar says which bar of the solo falls on bar 1 of the changes";
    case Contradiction::key: return "if the solo sounds in another key than it is written in, give --transpose";
    case Contradiction::written_key: return "if the changes are in written pitch, give --changes-pitch written";
  }
  return {};
}

std::string interval_words(int semitones) {
  constexpr std::array words = {"a unison",      "a half step", "a whole step", "a minor third",
                                "a major third", "a fourth",    "a tritone"};
  return words.at(static_cast<std::size_t>(semitones));
}

/// The instrument whose part is written so far above its sound, as far as a line and a chart can show it.
std::string instrument_words(int written_above) {
  constexpr int b_flat = 2;
  constexpr int e_flat = -3;
  constexpr int f = -5;
  if (written_above == b_flat) return "a B flat";
  if (written_above == e_flat) return "an E flat";
  return written_above == f ? "an F" : "";
}

std::string key_advice(int semitones, const Solo& solo, ChangesPitch pitch) {
  const int to_sounding = solo.sounding_minus_written.semitones;
  const auto same_class = [](int a, int b) { return (a - b) % semitones_in_octave == 0; };
  const std::string finding =
      std::abs(semitones) == semitones_in_octave / 2
          ? "the chart is a tritone off"
          : fmt::format("the chart is {} too {}", interval_words(std::abs(semitones)), semitones > 0 ? "high" : "low");
  if (!same_class(to_sounding, 0) && pitch == ChangesPitch::concert && same_class(semitones, -to_sounding))
    return finding + ", as it is for who reads the part: --changes-pitch written";
  if (!same_class(to_sounding, 0) && pitch == ChangesPitch::written && same_class(semitones, to_sounding))
    return finding + ": it is in concert pitch already, leave out --changes-pitch written";
  const std::string instrument = same_class(to_sounding, 0) ? instrument_words(semitones) : "";
  const std::string whose =
      instrument.empty() ? "" : fmt::format(", as it is for a player of {} instrument", instrument);
  return fmt::format("{}{}: write it in the key of the line, or give --transpose {} to move the line", finding, whose,
                     to_sounding + semitones);
}

std::string beats_advice(const Beats& later, const io::ReadResult& read, const SoloOptions& options) {
  const Meter meter = read.solo.bars.back().meter;
  const Beats beats = (later < Beats{} ? -later : later) / beat_length(meter);
  const std::string finding = fmt::format("the chart begins {} beat{} too {}", to_string(beats),
                                          beats == Beats(1) ? "" : "s", later < Beats{} ? "late" : "early");
  if (!read.bar_one)
    return fmt::format(
        "{}: {} {} beat{}{}", finding, later < Beats{} ? "the first bar of the solo is short of" : "write the first",
        to_string(beats), beats == Beats(1) ? "" : "s",
        later < Beats{} ? ", put a rest before it" : " of the solo as a pickup, a short bar before bar 1");
  Beats bar_one = *read.bar_one + later;
  if (bar_one >= Beats{}) return fmt::format("{}: --bar-one {}", finding, to_string(bar_one));
  bar_one += bar_length(meter);
  return fmt::format("{}: --bar-one {} --start-bar {}", finding, to_string(bar_one), options.start_bar - 1);
}

std::string form_advice(const FormAdvice& form) {
  const std::string near =
      form.first == form.last ? "" : fmt::format(" (or another of bars {} to {})", form.first, form.last);
  return form.missing ? fmt::format("bar {} of the chart seems to be missing{}", form.bar, near)
                      : fmt::format("bar {} of the chart seems to be one too many{}", form.bar, near);
}

std::string advice_words(const AlignmentAdvice& advice, const io::ReadResult& read, const SoloOptions& options) {
  if (advice.form) return form_advice(*advice.form);
  if (advice.beats_later) return beats_advice(*advice.beats_later, read, options);
  if (advice.semitones) return key_advice(*advice.semitones, read.solo, options.changes_pitch);
  return fmt::format("the chart fits another bar better: --start-bar {}", advice.start_bar.value_or(1));
}

}  // namespace

void place_bar_one(io::ReadResult& read, const Changes& changes, reports::Report& report) {
  if (!read.count_in) return;
  const auto choice = choose_bar_one(changes, read.solo, *read.count_in);
  if (!choice) return;
  report.alignment->bar_one = *choice;
  const auto kept = static_cast<std::size_t>(choice->chosen.kept);
  if (kept == 0) return;
  const std::span<const Bar> bars = std::span(read.count_in->bars).last(kept);
  read.solo = counted_with(std::move(read.solo), bars);
  for (const Bar& bar : bars) *read.bar_one -= bar.length;
  std::erase_if(read.warnings, [&](const io::Warning& warning) { return warning.message == read.count_in->remark; });
}

std::optional<double> fit_over_chart(const Changes& changes, const Solo& solo, const SoloOptions& options) {
  if (!has_other_places(changes, solo)) return std::nullopt;
  return weight_of_fit(LineOverChart(changes, solo, first_bar_onset(solo, {.start_bar = options.start_bar})), {});
}

std::vector<std::string> doubts_about_place(const Changes& changes, const io::ReadResult& read,
                                            const SoloOptions& options, reports::Report& report) {
  std::vector<std::string> warnings;
  const Alignment alignment{.start_bar = options.start_bar};
  for (const Disagreement& disagreement : disagreements(changes, read.solo, alignment)) {
    const std::string message = disagreement.message + "; " + remedy(disagreement.kind, changes, read.solo);
    const std::string file = file_name(options.changes.value_or(options.solo));
    if (disagreement.kind == Contradiction::meter) throw io::ReadError(io::place_of(file), message);
    warnings.push_back(file + ": " + message);
  }
  const auto advice = better_alignment(changes, read.solo, alignment);
  if (!advice) return warnings;
  report.alignment->better = advice;
  warnings.push_back(fmt::format("{}; {} of {} notes would then be chord tones, as it is {} of {}",
                                 advice_words(*advice, read, options), advice->there.count, advice->there.of,
                                 advice->here.count, advice->here.of));
  return warnings;
}

}  // namespace insideline::cli
