#include "io/midi/parts_of_beat.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace insideline::io {
namespace {

std::vector<Part> sorted_parts(BeatKind kind, std::span<const Subdivision> figures, double off_beat) {
  const auto lets_gain = [&](const Subdivision& figure) {
    const auto gains = [&](const Subdivision& other) {
      return other.gain_after_last > 0.0F && other.parts == figure.parts;
    };
    return figure.gain_after_last <= 0.0F && std::ranges::any_of(figures, gains);
  };
  std::vector<Part> parts;
  for (std::size_t f = 0; f < figures.size(); ++f) {
    const Subdivision& figure = figures[f];
    if (figure.kind != kind) continue;
    for (std::uint8_t part = 0; part < figure.parts; ++part)
      parts.push_back({static_cast<float>(position_in_beat(figure, part, off_beat)),
                       figure.cost + figure.enter.at(part), figure.leave.at(part),
                       std::max(0.0F, figure.cost - figure.gain_after_last), static_cast<std::uint8_t>(f), part,
                       part > 0 && figure.placing == Placing::swung, part + 1 == figure.parts && lets_gain(figure)});
  }
  std::ranges::sort(parts, {}, [](const Part& part) { return std::tuple(part.sounds, part.figure, part.part); });
  return parts;
}

}  // namespace

PartsOfBeat parts_of(BeatKind kind, std::span<const Subdivision> figures, double off_beat) {
  PartsOfBeat beat{sorted_parts(kind, figures, off_beat), {}};
  const auto stands_with = [&](const Part& a, const Part& b) {
    return a.swings == b.swings && a.part * figures[b.figure].parts == b.part * figures[a.figure].parts;
  };
  for (std::size_t i = 0; i < beat.parts.size(); ++i) {
    const Part& part = beat.parts[i];
    if (i == 0 || !stands_with(beat.parts[i - 1], part)) {
      const float written = static_cast<float>(part.part) / static_cast<float>(figures[part.figure].parts);
      const float free_way = std::max(well_explained, std::abs(part.sounds - written) + well_explained / 2.0F);
      beat.places.push_back({part.sounds, written, free_way, part.at_least, part.swings, i, i});
    }
    PlaceInBeat& place = beat.places.back();
    place.at_least = std::min(place.at_least, part.at_least);
    place.end = i + 1;
  }
  for (std::size_t i = 0; i < beat.first_place.size(); ++i) {
    const float sixteenth = static_cast<float>(i) / 16.0F;
    const auto first = std::ranges::lower_bound(beat.places, sixteenth, {}, &PlaceInBeat::sounds);
    beat.first_place.at(i) = static_cast<std::uint8_t>(first - beat.places.begin());
  }
  return beat;
}

std::span<const PlaceInBeat> PartsOfBeat::places_from(float from) const {
  const auto sixteenth = static_cast<std::size_t>(std::clamp(from * 16.0F, 0.0F, 16.0F));
  std::size_t first = first_place[sixteenth];
  while (first < places.size() && places[first].sounds < from) ++first;
  return std::span(places).subspan(first);
}

double position_in_beat(const Subdivision& subdivision, std::size_t part, double off_beat) {
  const double even = static_cast<double>(part) / subdivision.parts;
  if (subdivision.placing == Placing::even) return even;
  constexpr double half = 0.5;
  return even < half ? even * off_beat / half : off_beat + (even - half) * (1.0 - off_beat) / half;
}

}  // namespace insideline::io
