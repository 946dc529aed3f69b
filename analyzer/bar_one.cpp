#include "analyzer/bar_one.hpp"

#include "analyzer/alignment_doctor.hpp"
#include "analyzer/alignment_fit.hpp"

#include <algorithm>

namespace insideline {
namespace {

// Logarithms of how much likelier each thing makes a place, as weight_of_fit: our choice, without a source.
constexpr double chart_as_long = 5.0;        ///< a chart made for this recording has its bars
constexpr double chart_begins_silent = 4.0;  ///< nobody writes N.C. bars that are then left out
constexpr double all_kept = -0.5;            ///< by themselves empty bars are a count-in
constexpr double pickup_bar_kept = -2.0;
constexpr double usual_count_in = -4.0;  ///< a bar or two are left out, then the soloist waits
constexpr double other_part_kept = -7.0;

int last_bar_number(const Solo& solo) { return solo.bars.empty() ? 0 : solo.bars.back().number; }

bool begins_silent(const Changes& changes) {
  return !changes.spans.empty() && !changes.spans.front().chord &&
         changes.spans.front().duration >= changes.bars.front().length;
}

double before_listening(int kept, const CountIn& count_in) {
  constexpr int longest_count_in = 2;
  const int all = static_cast<int>(count_in.bars.size());
  if (kept == 0) return 0.0;
  if (kept == all) return all_kept;
  if (kept == 1 && count_in.has_pickup) return pickup_bar_kept;
  return all - kept <= longest_count_in ? usual_count_in : other_part_kept;
}

bool is_as_long(const Changes& changes, const Solo& solo, const CountIn& count_in, int kept) {
  const int form = static_cast<int>(changes.bars.size());
  const int left_out = static_cast<int>(count_in.bars.size()) - kept;
  return form == last_bar_number(solo) + kept || form == count_in.file_bars - left_out;
}

}  // namespace

std::optional<BarOneChoice> choose_bar_one(const Changes& changes, const Solo& solo, const CountIn& count_in) {
  if (!has_other_places(changes, solo) || count_in.bars.empty()) return std::nullopt;
  const Beats length = changes.bars.front().length;
  if (!std::ranges::all_of(count_in.bars, [&](const Bar& bar) { return bar.length == length; })) return std::nullopt;
  const LineOverChart line(changes, solo, Beats{});
  struct Weighed {
    BarOnePlace place;
    double weight = 0.0;
  };
  const int all = static_cast<int>(count_in.bars.size());
  std::vector<Weighed> places;
  for (int kept = 0; kept <= all; ++kept) {
    const ChartPlace place{.cells = -(kept % line.form_bars()) * line.bar_cells()};
    double weight = before_listening(kept, count_in);
    weight += weight_of_fit(line, place);
    if (is_as_long(changes, solo, count_in, kept)) weight += chart_as_long;
    if (kept == all && begins_silent(changes)) weight += chart_begins_silent;
    places.push_back({{.kept = kept, .chord_tones = line.chord_tones(place)}, weight});
  }
  std::ranges::stable_sort(places, std::ranges::greater{}, &Weighed::weight);
  return BarOneChoice{.bars = all,
                      .chosen = places[0].place,
                      .runner_up = places[1].place,
                      .as_long_as_chart = is_as_long(changes, solo, count_in, places[0].place.kept)};
}

Solo counted_with(Solo solo, std::span<const Bar> kept) {
  if (kept.empty()) return solo;
  Beats length;
  for (const Bar& bar : kept) length += bar.length;
  const int count = static_cast<int>(kept.size());
  if (solo.bars.front().number == 0) solo.bars.erase(solo.bars.begin());  // the pickup lies in a whole bar now
  for (Bar& bar : solo.bars) {
    bar.number += count;
    bar.onset += length;
  }
  std::vector<Bar> bars(kept.begin(), kept.end());
  Beats onset;
  for (int i = 0; i < count; ++i) {
    Bar& bar = bars[static_cast<std::size_t>(i)];
    bar.number = i + 1;
    bar.onset = onset;
    onset += bar.length;
  }
  solo.bars.insert(solo.bars.begin(), bars.begin(), bars.end());
  for (Note& note : solo.notes) {
    note.onset += length;
    const Bar& bar = solo.bars[bar_index_at(solo, note.onset)];
    note.place.bar = std::to_string(bar.number);
    note.place.position = note.onset - bar.onset;
  }
  for (KeyChange& key : solo.keys) key.onset += length;
  if (!solo.keys.empty()) solo.keys.front().onset = Beats{};
  for (PerformedNote& note : solo.performed) note.onset_beats += to_double(length);
  return solo;
}

}  // namespace insideline
