#include "reports/from_sound.hpp"

#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace insideline::reports {
namespace {

std::string some_of(const std::vector<std::string>& places) {
  constexpr std::size_t most = 12;
  std::vector<std::string> named(places.begin(),
                                 places.begin() + static_cast<std::ptrdiff_t>(std::min(most, places.size())));
  if (places.size() > most) named.push_back(fmt::format("{} more", places.size() - most));
  return listed(named);
}

}  // namespace

std::string from_sound_in_words(const FromSound& sound) {
  const std::string limits = fmt::format(
      "Nothing is said of the tone, nor of ahead or behind by {:.0f} ms or less, which the attack of an instrument "
      "takes.",
      attack_ms);
  if (sound.unsure == 0)
    return fmt::format("Heard from a recording, {}, none of them unsure. {}", counted(sound.notes, "note"), limits);
  return fmt::format("Heard from a recording, {}; {} {} unsure, at {}: listen there before you believe it. {}",
                     counted(sound.notes, "note"), sound.unsure, agreeing(sound.unsure, "is", "are"),
                     some_of(sound.places), limits);
}

}  // namespace insideline::reports
