// The sections of the printed summary, each a few sentences and a small table. A
// section that has nothing to say is an empty text.
#pragma once

#include "reports/report.hpp"
#include "reports/text/ink.hpp"

#include <string>

namespace insideline::reports {

/// What was read: title, part, bars, choruses, notes, key, transposition, changes.
std::string what_was_read(const Report& report, Colour colour);

std::string chord_tone_remarks(const Report& report, Colour colour);
std::string chance_remarks(const Report& report, Colour colour);
std::string arpeggio_remarks(const Report& report, Colour colour);
std::string crossing_remarks(const Report& report, Colour colour);
std::string guide_tone_remarks(const Report& report, Colour colour);
std::string other_note_remarks(const Report& report, Colour colour);
std::string early_and_late_remarks(const Report& report, Colour colour);
std::string telling_bar_remarks(const Report& report, Colour colour);

}  // namespace insideline::reports
