// The options that say in whose pitch names are: --written, --concert, --for.
#pragma once

#include "analyzer/drills/instruments.hpp"
#include "analyzer/model/changes.hpp"
#include "analyzer/model/solo.hpp"
#include "analyzer/reading_pitch.hpp"
#include "reports/report.hpp"

#include <functional>
#include <optional>
#include <string>

namespace CLI {
class App;
class Option;
}  // namespace CLI

namespace insideline::cli {

/// Whose pitch is asked for.
struct ReadingChoice {
  reports::ReadBy reader = reports::ReadBy::everybody;
  std::optional<Instrument> instrument;  ///< for a player of an instrument
};

/// From then on the source decides: names are as it shows them to its player. `choice` must live as long as `command`.
void add_reading_pitch_options(CLI::App& command, ReadingChoice& choice);

/// --for INSTRUMENT; `choose` is told which.
CLI::Option* add_instrument_option(CLI::App& command, const std::function<void(const Instrument&)>& choose,
                                   const std::string& what);

/// Empty for the name of an instrument, else what is wrong with it, as CLI11 wants it.
std::string not_an_instrument(const std::string& text);

/// How a solo at sounding pitch is read; `key` is that of its changes, else its own, where there is one.
struct ChosenReading {
  reports::Reading reading;
  ReadingPitch pitch;
};
ChosenReading chosen_reading(const ReadingChoice& choice, const Solo& solo, const Harmony& harmony,
                             const std::optional<Key>& key);

}  // namespace insideline::cli
