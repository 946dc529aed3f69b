// What is drawn on a sheet beside the music itself: all that was found, the topics asked for, or, on a worksheet and
// its key, what its tasks ask for and nothing else.
#pragma once

#include "reports/printed/line_plan.hpp"
#include "reports/printed/sheet.hpp"

#include <cstddef>
#include <cstdint>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace insideline::reports {

/// A bracket over two notes or more of the solo, by their indices, and its text as LilyPond markup.
struct Bracket {
  std::vector<std::size_t> notes;
  std::string text;
  bool straight_down = false;
};

/// What is drawn round a head.
enum class Ring : std::uint8_t { circle, square };

/// All by the indices of Solo::notes.
struct Marks {
  std::set<std::size_t> degrees;                          ///< notes with their degree below
  std::set<std::size_t> coloured;                         ///< heads in the colour and shape of their role
  std::vector<Bracket> brackets;                          ///< in order
  std::map<std::size_t, bool> arrows;                     ///< from this note to the next; true: third and seventh
  std::map<std::size_t, Ring> rings;                      ///< round the head
  std::map<std::size_t, std::vector<std::string>> words;  ///< over the note: "PT"
  std::set<std::size_t> motions;                          ///< notes with what they do below their degree: "pass"
};

/// Puts what `more` draws to `marks`.
void add_marks(Marks& marks, const Marks& more);

/// What an annotated sheet draws: `topics`, or everything where there are none.
Marks annotated_marks(const Sheet& sheet, const std::set<Topic>& topics);

/// The connections that an arrow can show: both notes are printed, and nothing stands between them.
std::vector<const Connection*> drawn_connections(const Sheet& sheet);

/// The leg as a bracket of its own, with its way, and its degrees where the sheet has chords.
Bracket bracket_of(const Arpeggio& arpeggio, const Leg& leg, ChordRow chords);

/// Whether all its notes are printed.
bool is_printed_whole(const Sheet& sheet, const Arpeggio& arpeggio);

/// What the legend at the foot of the page explains, as the prelude names it: C T N O early late arpeggios down
/// connections guide-tones, and the words below the degrees: pass nbr dbl appr encl lean esc ped.
std::set<std::string> legend_items(const Sheet& sheet, const Marks& marks);

}  // namespace insideline::reports
