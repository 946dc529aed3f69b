#include "io/musicxml/bar_lengths.hpp"

namespace insideline::io {
namespace {

/// The meter that a bar without a time signature counts in: 7/2 quarter notes are 7/8.
Meter meter_of_length(const Beats& length) {
  constexpr std::int64_t shortest = 32;
  constexpr std::int64_t most_beats = 1000;
  const std::int64_t parts = length.denominator();
  const bool countable = parts <= shortest && (parts & (parts - 1)) == 0 && length.numerator() <= most_beats;
  return countable ? Meter{static_cast<int>(length.numerator()), static_cast<int>(4 * parts)} : Meter{};
}

class Layout {
 public:
  Layout(const WrittenPart& part, std::span<const std::size_t> order, Notices& notices)
      : part_(part), order_(order), notices_(notices), reported_(part.measures.size(), false) {}

  std::vector<PlayedMeasure> lay_out() {
    played_.reserve(order_.size());
    for (std::size_t k = 0; k < order_.size(); ++k) played_.push_back(shaped(k));
    Beats onset = !played_.empty() && played_.front().shape == BarShape::pickup ? -played_.front().length : Beats{};
    for (PlayedMeasure& measure : played_) {
      measure.onset = onset;
      onset += measure.length;
    }
    return std::move(played_);
  }

 private:
  const WrittenMeasure& written(std::size_t k) const { return part_.measures[order_[k]]; }

  bool is_short(std::size_t k) const {
    const WrittenMeasure& measure = written(k);
    return measure.meter && measure.content > Beats{} && measure.content < bar_length(*measure.meter);
  }

  bool has_notes(const WrittenMeasure& measure) const { return measure.first_note != measure.end_note; }

  PlayedMeasure shaped(std::size_t k) {
    const WrittenMeasure& measure = written(k);
    if (!measure.meter) return shaped_without_meter(k);
    const Beats full = bar_length(*measure.meter);
    if (is_short(k)) return shaped_short(k, full);
    const bool fits = measure.content <= full || (measure.holds_bar_rest && !has_notes(measure));
    if (!fits) report(Oddity::long_bars, order_[k]);
    return {order_[k], {}, fits ? full : measure.content, *measure.meter, BarShape::whole};
  }

  /// Without a time signature a measure is what it holds; a first one that is not counted, and is shorter than the one
  /// after it, is a pickup into that.
  PlayedMeasure shaped_without_meter(std::size_t k) {
    const WrittenMeasure& measure = written(k);
    const Beats length = measure.content > Beats{} ? measure.content : bar_length({});
    if (k == 0 && order_.size() > 1 && measure.implicit) {
      const WrittenMeasure& next = written(1);
      const Meter meter =
          next.meter ? *next.meter : meter_of_length(next.content > Beats{} ? next.content : bar_length({}));
      if (length < bar_length(meter)) return {order_[k], {}, length, meter, BarShape::pickup};
    }
    return {order_[k], {}, length, meter_of_length(length), BarShape::whole};
  }

  PlayedMeasure shaped_short(std::size_t k, const Beats& full) {
    const WrittenMeasure& measure = written(k);
    PlayedMeasure played{order_[k], {}, measure.content, *measure.meter, BarShape::whole};
    if (k == 0 && order_.size() > 1) {
      played.shape = BarShape::pickup;
      if (!measure.implicit && full - measure.content < beat_length(*measure.meter))
        report(Oddity::nearly_full_pickups, order_[k]);
    } else if (k > 0 && played_[k - 1].shape == BarShape::first_half) {
      played.shape = BarShape::second_half;
    } else if (k + 1 < order_.size() && is_short(k + 1) && measure.content + written(k + 1).content == full) {
      played.shape = BarShape::first_half;
    } else if (!measure.implicit && !completes_pickup(k, full)) {
      if (!measure.holds_bar_rest || has_notes(measure)) report(Oddity::short_bars, order_[k]);
      played.length = full;
    }
    return played;
  }

  bool completes_pickup(std::size_t k, const Beats& full) const {
    return k > 0 && k + 1 == order_.size() && played_.front().shape == BarShape::pickup &&
           written(k).content + played_.front().length == full;
  }

  void report(Oddity oddity, std::size_t measure) {
    if (reported_[measure]) return;
    reported_[measure] = true;
    notices_.add(oddity, part_.measures[measure].offset_bytes, part_.measures[measure].number);
  }

  const WrittenPart& part_;
  std::span<const std::size_t> order_;
  Notices& notices_;
  std::vector<bool> reported_;
  std::vector<PlayedMeasure> played_;
};

}  // namespace

std::vector<PlayedMeasure> lay_out_measures(const WrittenPart& part, std::span<const std::size_t> order,
                                            Notices& notices) {
  return Layout(part, order, notices).lay_out();
}

}  // namespace insideline::io
