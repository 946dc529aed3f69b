// The sections of the summary, each a few sentences and a small table: the same words for the terminal, which
// `said` writes, and for a page. A section that has nothing to say has no remarks.
#pragma once

#include "reports/report.hpp"
#include "reports/text/ink.hpp"
#include "reports/text/length.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace insideline::reports {

/// What is counted, with what stands beside the count: a share by role, words, or how long a bar is.
struct CountRow {
  std::string name;
  Share share;
  std::optional<Role> role = {};  ///< the share is given, with a bar filled as the role is
  std::string beside = {};        ///< words; where there are none, a bar
};

/// A bar of the solo, to be shown, perhaps with the next.
struct ShownBar {
  std::size_t first = 0;  ///< index into Solo::bars
  std::size_t last = 0;   ///< included
};

using Sentences = std::string;
using Remark = std::variant<Sentences, CountRow, ShownBar>;

struct RemarkSection {
  std::string title;
  std::vector<Remark> remarks;
};

/// The title of the solo: its own, else that of the changes, else the name of its file.
std::string title_of(const Report& report);

/// What was read: title, part, bars, choruses, notes, key, transposition, changes.
RemarkSection what_was_read(const Report& report);

RemarkSection chord_tone_remarks(const Report& report);
/// Chord tones by kind of chord and by chorus, where there are several.
RemarkSection group_remarks(const Report& report);
/// The lettered sections of the form, where there are several.
RemarkSection section_remarks(const Report& report);
RemarkSection chance_remarks(const Report& report);
/// The same in two sentences.
RemarkSection chance_in_brief(const Report& report);
/// The whole names every chord and bar; the first page the first of many. So do guide tones and patterns.
RemarkSection arpeggio_remarks(const Report& report, Length length);
RemarkSection arpeggio_shape_remarks(const Report& report);
RemarkSection cell_remarks(const Report& report);
/// Riffs, sequences, digital patterns, the vocabulary of the blues and of the bebop scales.
RemarkSection pattern_remarks(const Report& report, Length length);
RemarkSection connection_remarks(const Report& report);
/// The way through the chords that moves least.
RemarkSection thread_remarks(const Report& report);
RemarkSection guide_tone_remarks(const Report& report, Length length);
RemarkSection other_note_remarks(const Report& report);
RemarkSection early_and_late_remarks(const Report& report);
/// Of a performance.
RemarkSection time_remarks(const Report& report);
/// Each phrase in a row, where there are several.
RemarkSection phrase_remarks(const Report& report);
RemarkSection telling_bar_remarks(const Report& report);
/// What to keep in mind before relying on the figures.
RemarkSection cautions(const Report& report);

/// All of them but what was read, in the order of the summary, those with something to say; of the first page, what
/// someone reads who has not asked for details.
std::vector<RemarkSection> summary_sections(const Report& report, Length length = Length::whole);

/// A section for a terminal: lines of at most the page width.
std::string said(const RemarkSection& section, const Report& report, Colour colour);

}  // namespace insideline::reports
