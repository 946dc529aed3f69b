#include "reports/html/line_map.hpp"

#include "analyzer/model/sections.hpp"
#include "reports/hearing_text.hpp"
#include "reports/text/display_width.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace insideline::reports {
namespace {

constexpr double double_line_gap = 3.0;
constexpr double bar_number_size = 11.5;

std::string bars_in_words(const Solo& solo, const MapSystem& system) {
  const int first = solo.bars[system.first_bar].number;
  const int last = solo.bars[system.last_bar].number;
  if (last < 1) return "pickup";
  return first == last ? fmt::format("bar {}", first) : fmt::format("bars {} to {}", first, last);
}

std::string name_of(const Report& report, const MapSystem& system) {
  const std::string bars = bars_in_words(report.solo, system);
  if (report.analysis.harmony.choruses < 2 || system.chorus == 0) return bars;
  return fmt::format("chorus {}, {}", system.chorus, bars);
}

Markup lettering(double x, double y, std::string_view style, std::string_view words) {
  return element("text", {{"x", drawn(x)}, {"y", drawn(y)}, {"class", std::string(style)}}, words);
}

/// Where chord `index` sounds in the system.
struct Extent {
  double from = 0.0;
  double to = 0.0;
};
Extent extent_of(const MapLayout& layout, const MapSystem& system, const SoundingChord& sounding) {
  return {.from = x_of(layout, system, std::max(sounding.onset, system.onset)),
          .to = x_of(layout, system, std::min(sounding.onset + sounding.duration, system.end))};
}

/// A row of the map for each octave of each tone; the root is apart, because it is drawn stronger.
Markup lanes_of(const MapLayout& layout, std::size_t number, const SoundingChord& sounding) {
  const MapSize& size = layout.sizes[number];
  const MapSystem& system = layout.systems[number];
  const Extent extent = extent_of(layout, system, sounding);
  std::string roots;
  std::string others;
  for (int midi = size.lowest; midi <= size.highest; ++midi) {
    const int above = ((midi - pitch_class(sounding.chord.root)) % 12 + 12) % 12;
    const auto& tones = sounding.chord.tones;
    const auto tone = std::ranges::find(tones, above, [](const Degree& d) { return pitch_class_above_root(d); });
    if (tone == tones.end()) continue;
    std::string& path = above == 0 ? roots : others;
    path += fmt::format("M{} {}h{}v{}h-{}z", drawn(extent.from), drawn(y_of(size, midi) - size.per_semitone / 2),
                        drawn(extent.to - extent.from), drawn(size.per_semitone), drawn(extent.to - extent.from));
  }
  Markup lanes;
  if (!others.empty()) lanes += shape("path", {{"d", others}});
  if (!roots.empty()) lanes += shape("path", {{"class", "root"}, {"d", roots}});
  return lanes;
}

/// Indices of the chords that sound in a system.
std::pair<std::size_t, std::size_t> chords_in(const Harmony& harmony, const MapSystem& system) {
  const auto& chords = harmony.chords;
  const auto first = std::ranges::find_if(
      chords, [&](const SoundingChord& chord) { return chord.onset + chord.duration > system.onset; });
  const auto last =
      std::find_if(first, chords.end(), [&](const SoundingChord& chord) { return chord.onset >= system.end; });
  return {static_cast<std::size_t>(first - chords.begin()), static_cast<std::size_t>(last - chords.begin())};
}

Markup chord_symbols(const Report& report, const MapLayout& layout, std::size_t number) {
  const MapSystem& system = layout.systems[number];
  constexpr double row = 17.0;
  const Harmony& harmony = report.analysis.harmony;
  const auto [first, last] = chords_in(harmony, system);
  Markup symbols;
  for (std::size_t i = first; i < last; ++i) {
    const SoundingChord& sounding = harmony.chords[i];
    const bool goes_on = sounding.onset < system.onset;
    const double y = layout.sizes[number].chord_baseline - (goes_on ? 0.0 : row * layout.chord_rows[i]);
    const std::string symbol = printable(sounding.chord.symbol);
    symbols += element("text",
                       {{goes_on ? "data-chord" : "id", goes_on ? std::to_string(i) : fmt::format("c{}", i)},
                        {"class", goes_on ? "chord held" : "chord"},
                        {"x", drawn(extent_of(layout, system, sounding).from + 3)},
                        {"y", drawn(y)}},
                       goes_on ? "(" + symbol + ")" : symbol);
  }
  return symbols;
}

/// The name of the section that begins with the bar, in a box behind the number of the bar.
Markup section_letter(const Report& report, const Bar& bar, double x) {
  constexpr std::size_t widest = 20;  // columns
  constexpr double size = 11.5;
  constexpr double padding = 3.0;
  const std::vector<SoundingSection>& sections = report.analysis.harmony.sections;
  const auto begins = section_beginning_at(sections, bar.onset);
  if (!begins) return {};
  const std::string name = cut_to_width(sections[*begins].name, widest);
  return element("rect",
                 {{"class", "section-box"},
                  {"x", drawn(x)},
                  {"y", "2"},
                  {"width", drawn(lettering_width(name, size) + 2 * padding)},
                  {"height", "14"}},
                 "") +
         lettering(x + padding, 13, "section-name", name);
}

/// Bar lines, counted beats, the C of every octave.
Markup grid(const Report& report, const MapLayout& layout, std::size_t number) {
  const MapSize& size = layout.sizes[number];
  const MapSystem& system = layout.systems[number];
  std::string bar_lines;
  std::string beats;
  Markup words;
  for (std::size_t i = system.first_bar; i <= system.last_bar; ++i) {
    const Bar& bar = report.solo.bars[i];
    const double x = x_of(layout, system, bar.onset);
    bar_lines += fmt::format("M{} 18V{}", drawn(x), drawn(size.pitch_bottom));
    if (i > 0 && has_double_bar(report.solo, report.analysis.harmony, bar.onset))
      bar_lines += fmt::format("M{} 18V{}", drawn(x - double_line_gap), drawn(size.pitch_bottom));
    for (Beats beat = beat_length(bar.meter); beat < bar.length; beat += beat_length(bar.meter))
      beats += fmt::format("M{} {}V{}", drawn(x_of(layout, system, bar.onset + beat) + after_line),
                           drawn(size.pitch_top), drawn(size.pitch_bottom));
    const std::string name = bar.number < 1 ? "pickup" : std::to_string(bar.number);
    words += lettering(x + 3, 13, "bar-number", name);
    words += section_letter(report, bar, x + 3 + lettering_width(name, bar_number_size) + 6);
  }
  bar_lines += fmt::format("M{} 18V{}", drawn(x_of(layout, system, system.end)), drawn(size.pitch_bottom));
  std::string octaves;
  constexpr int octave = 12;
  for (int midi = (size.lowest + octave - 1) / octave * octave; midi <= size.highest; midi += octave) {
    octaves +=
        fmt::format("M{} {}H{}", drawn(size.left), drawn(y_of(size, midi)), drawn(x_of(layout, system, system.end)));
    words += element("text", {{"x", drawn(size.left - 6)}, {"y", drawn(y_of(size, midi) + 4)}, {"class", "octave"}},
                     fmt::format("C{}", midi / octave - 1));
  }
  return shape("path", {{"class", "octaves"}, {"d", octaves}}) + shape("path", {{"class", "beats"}, {"d", beats}}) +
         shape("path", {{"class", "bar-lines"}, {"d", bar_lines}}) + words;
}

/// The part of an arpeggio's bracket in this system; its words stand where it begins.
Markup bracket(const MapLayout& layout, const Arpeggio& arpeggio, std::size_t index, std::size_t system) {
  constexpr double row = 18.0;
  constexpr double hook = 5.0;
  const bool begins = system_of_note(layout, arpeggio.notes.front()) == system;
  const bool ends = system_of_note(layout, arpeggio.notes.back()) == system;
  const int in_row = layout.bracket_rows[index];
  const double y = layout.sizes[system].bracket_line - row * in_row;
  const double from = begins ? layout.note_x[arpeggio.notes.front()] - mark_radius : layout.sizes[system].left;
  const MapSystem& here = layout.systems[system];
  const double to = ends ? layout.note_x[arpeggio.notes.back()] + mark_radius : x_of(layout, here, here.end);
  std::string path = begins ? fmt::format("M{} {}v-{}", drawn(from), drawn(y), drawn(hook))
                            : fmt::format("M{} {}", drawn(from), drawn(y - hook));
  path += fmt::format("H{}", drawn(to));
  if (ends) path += fmt::format("v{}", drawn(hook));
  Markup markup = shape("path", {{"d", path}});
  if (begins)
    markup += lettering(bracket_room(layout, arpeggio).left, y - hook - 3,
                        arpeggio.straight_descent ? "straight-down" : "way", shown_cell(arpeggio));
  return markup;
}

std::string link_class(const Connection& connection) {
  if (connection.guide_tone) return "guide";
  switch (connection.kind) {
    case ConnectionKind::common_tone:
    case ConnectionKind::half_step:
    case ConnectionKind::whole_step: return "step";
    case ConnectionKind::third: return "third";
    case ConnectionKind::leap:
    case ConnectionKind::none: return "leap";
  }
  return "leap";
}

/// From the last note on the old chord to the first on the new one; cut in two where a system ends between them.
Markup connection_path(const MapLayout& layout, const Connection& connection, std::size_t system) {
  constexpr double bow = 10.0;
  const MapSystem& here = layout.systems[system];
  const auto inside = [&](std::size_t note) { return note >= here.first_note && note < here.end_note; };
  const bool from_here = inside(*connection.from_note);
  const bool to_here = inside(*connection.to_note);
  const double to_y = layout.note_y[*connection.to_note];
  const double from_y = layout.note_y[*connection.from_note];
  const double from_x = from_here ? layout.note_x[*connection.from_note] + mark_radius : layout.sizes[system].left;
  const double to_x = to_here ? layout.note_x[*connection.to_note] - mark_radius : x_of(layout, here, here.end);
  const double start_y = from_here ? from_y : (from_y + to_y) / 2;
  const double end_y = to_here ? to_y : (from_y + to_y) / 2;
  return shape("path",
               {{"class", link_class(connection)},
                {"d", fmt::format("M{} {}Q{} {} {} {}", drawn(from_x), drawn(start_y), drawn((from_x + to_x) / 2),
                                  drawn(std::max(start_y, end_y) + bow), drawn(to_x), drawn(end_y))}});
}

Markup note_mark(const Report& report, const MapLayout& layout, const MapSystem& system, std::size_t index) {
  const Note& note = report.solo.notes[index];
  const NoteLabel& label = report.analysis.labels[index];
  const std::string role(role_class(label.role));
  const double end = std::min(x_of(layout, system, end_of(note)), x_of(layout, system, system.end)) - 2;
  const double length = end - layout.note_x[index];
  Markup content;
  if (length > mark_radius) content += shape("path", {{"d", fmt::format("M0 0h{}", drawn(length))}});
  content += shape("use", {{"href", (note.grace ? "#small-" : "#mark-") + role}});
  if (label.pinned) content += shape("circle", {{"class", "by-hand"}, {"r", "8"}});
  const DegreePlace& place = layout.degrees[index];
  constexpr double below_middle = 4.0;
  content += element("text", {{"x", drawn(place.dx)}, {"y", drawn(place.dy + below_middle)}}, shown_degree(label));
  return element(
      "g",
      {{"id", fmt::format("n{}", index)},
       {"class", "note " + role},
       {"transform", fmt::format("translate({} {})", drawn(layout.note_x[index]), drawn(layout.note_y[index]))}},
      content);
}

Markup hidden_group(std::string_view style, const Markup& content) {
  return content.empty() ? Markup() : element("g", {{"class", std::string(style)}, {"aria-hidden", "true"}}, content);
}

}  // namespace

Markup mark_shapes() {
  return Markup::of_the_program(
      R"svg(<svg class="defs" width="0" height="0" aria-hidden="true" focusable="false"><defs>)svg"
      R"svg(<g id="mark-c"><circle class="hit" r="10"/><circle r="4.7"/></g>)svg"
      R"svg(<g id="mark-t"><circle class="hit" r="10"/><path d="M-4.4 -4.4h8.8v8.8h-8.8z"/></g>)svg"
      R"svg(<g id="mark-n"><circle class="hit" r="10"/><path d="M0 -5.6L5.4 4H-5.4z"/></g>)svg"
      R"svg(<g id="mark-o"><circle class="hit" r="10"/><path d="M0 -6L6 0L0 6L-6 0z"/></g>)svg"
      R"svg(<g id="mark-x"><circle class="hit" r="10"/><path d="M-4 -4L4 4M-4 4L4 -4"/></g>)svg"
      R"svg(<g id="small-c"><use href="#mark-c" transform="scale(.68)"/></g>)svg"
      R"svg(<g id="small-t"><use href="#mark-t" transform="scale(.68)"/></g>)svg"
      R"svg(<g id="small-n"><use href="#mark-n" transform="scale(.68)"/></g>)svg"
      R"svg(<g id="small-o"><use href="#mark-o" transform="scale(.68)"/></g>)svg"
      R"svg(<g id="small-x"><use href="#mark-x" transform="scale(.68)"/></g>)svg"
      R"svg(<marker id="arrow" viewBox="0 0 8 8" refX="6" refY="4" markerWidth="3.4" markerHeight="3.4" orient="auto">)svg"
      R"svg(<path d="M0 0L8 4L0 8z"/></marker></defs></svg>)svg");
}

namespace {

Markup sign(std::string_view drawing, std::string_view words) {
  return element(
      "li",
      element(
          "svg",
          {{"width", "46"}, {"height", "24"}, {"viewBox", "-23 -12 46 24"}, {"class", "map"}, {"aria-hidden", "true"}},
          Markup::of_the_program(drawing)) +
          text(words));
}

Markup legend_of_map(bool by_hand) {
  Markup items;
  items += sign(
      R"svg(<g class="note c"><path d="M-9 0h24"/><use href="#mark-c" x="-12"/><text x="6" y="-4">3</text></g>)svg",
      "chord tone");
  items += sign(
      R"svg(<g class="note t"><path d="M-9 0h24"/><use href="#mark-t" x="-12"/><text x="6" y="-4">[9]</text></g>)svg",
      "tension");
  items += sign(
      R"svg(<g class="note n"><path d="M-9 0h24"/><use href="#mark-n" x="-12"/><text x="6" y="-4">(♭9)</text></g>)svg",
      "non-chord tone");
  items += sign(
      R"svg(<g class="note o"><path d="M-9 0h24"/><use href="#mark-o" x="-12"/><text x="6" y="-4">♯5!</text></g>)svg",
      "outside");
  items += sign(R"svg(<g class="note x"><use href="#mark-x" x="-12"/><text x="6" y="4">-</text></g>)svg", "no chord");
  items += sign(R"svg(<g class="note c"><text x="0" y="4">3» «4</text></g>)svg",
                "heard against the chord to come, the chord before");
  items += sign(R"svg(<g class="brackets"><path d="M-18 10v-5H18v5"/><text x="-17" y="0">down!</text></g>)svg",
                "arpeggio: up, down, down! (straight down), both ways, turns; with its degrees");
  items += sign(
      R"svg(<g class="connections"><path class="step" d="M-20 -2Q-10 6 0 -2"/><path class="guide" d="M2 -2Q10 6 18 -2"/></g>)svg",
      "connection; heavy: third and seventh lead to each other; dashed: a third; dotted: a leap");
  items += sign(R"svg(<g class="lanes"><path d="M-20 -8h40v7h-40z"/><path class="root" d="M-20 2h40v7h-40z"/></g>)svg",
                "lanes: the tones of the chord; darker: its root");
  if (by_hand)
    items +=
        sign(R"svg(<g class="note c"><use href="#mark-c" x="-12"/><circle class="by-hand" cx="-12" r="8"/></g>)svg",
             "set by hand");
  return element("ul", {{"class", "key signs"}}, items);
}

Markup toggle(std::string_view part, std::string_view words) {
  return element("label",
                 lone_element("input", {{"type", "checkbox"}, {"data-part", std::string(part)}, {"checked", ""}}) +
                     text(" ") + text(words));
}

Markup toggles(bool choruses) {
  Markup boxes = element("legend", "Show");
  boxes += toggle("lanes", "lanes") + toggle("degrees", "degrees") + toggle("brackets", "arpeggio brackets") +
           toggle("connections", "connections");
  if (choruses) boxes += toggle("stacked", "choruses under each other");
  return element("fieldset", {{"class", "controls toggles"}, {"hidden", ""}}, boxes);
}

}  // namespace

std::string_view role_class(Role role) {
  switch (role) {
    case Role::chord_tone: return "c";
    case Role::tension: return "t";
    case Role::non_chord_tone: return "n";
    case Role::outside: return "o";
    case Role::no_chord: return "x";
  }
  return "x";
}

Markup map_system(const Report& report, const MapLayout& layout, std::size_t system) {
  const MapSystem& here = layout.systems[system];
  const Analysis& analysis = report.analysis;
  Markup lanes;
  const auto [first, last] = chords_in(analysis.harmony, here);
  for (std::size_t i = first; i < last; ++i) lanes += lanes_of(layout, system, analysis.harmony.chords[i]);
  Markup brackets;
  const auto reaches = [&](std::size_t from, std::size_t to) { return from < here.end_note && to >= here.first_note; };
  for (std::size_t i = 0; i < analysis.arpeggios.size(); ++i)
    if (reaches(analysis.arpeggios[i].notes.front(), analysis.arpeggios[i].notes.back()))
      brackets += bracket(layout, analysis.arpeggios[i], i, system);
  Markup connections;
  for (const Connection& connection : analysis.connections)
    if (connection.from_note && connection.to_note && reaches(*connection.from_note, *connection.to_note))
      connections += connection_path(layout, connection, system);
  Markup notes;
  for (std::size_t i = here.first_note; i < here.end_note; ++i) notes += note_mark(report, layout, here, i);
  const std::string chorus =
      analysis.harmony.choruses > 1 && here.chorus > 0 ? fmt::format("Chorus {}", here.chorus) : std::string();
  const Markup names = (chorus.empty() ? Markup() : lettering(0, 13, "chorus-name", chorus)) +
                       grid(report, layout, system) + chord_symbols(report, layout, system);
  return element(
      "svg",
      {{"class", "map"},
       {"role", "group"},
       {"aria-label", name_of(report, here)},
       {"viewBox", fmt::format("0 0 {} {}", drawn(layout.sizes[system].width), drawn(layout.sizes[system].height))}},
      hidden_group("lanes", lanes) + hidden_group("frame", names) + hidden_group("brackets", brackets) +
          hidden_group("connections", connections) + notes);
}

Markup line_map(const Report& report, const MapLayout& layout) {
  const bool choruses = report.analysis.harmony.choruses > 1;
  std::vector<std::size_t> order = stacked_order(layout.systems);
  std::map<int, int> seen;  // systems by slot
  Markup systems;
  for (const std::size_t system : order) {
    const MapSystem& here = layout.systems[system];
    const bool opens = seen[here.slot]++ == 0;
    systems += element("div",
                       {{"class", opens && choruses ? "system opens" : "system"},
                        {"role", "presentation"},
                        {"data-played", std::to_string(system)},
                        {"data-bars", fmt::format("{} {}", here.first_bar, here.last_bar)}},
                       map_system(report, layout, system));
  }
  Markup map =
      element("p",
              "Pitch goes up, time goes across. Point at a note, tap it, or walk along the line with the arrow "
              "keys to read what it is and why. Tap a bar beside its notes, or drag across several, to hear them again "
              "and again.");
  map += mark_shapes() +
         element("details", {{"id", "signs"}, {"class", "figures"}, {"open", ""}},
                 element("summary", "What the signs mean") + legend_of_map(set_by_hand(report.analysis) > 0)) +
         toggles(choruses);
  map += element("div",
                 {{"class", "score"},
                  {"id", "score"},
                  {"tabindex", "0"},
                  {"role", "listbox"},
                  {"aria-label", "The notes of the line"},
                  {"data-left", drawn(layout.sizes.front().left)},
                  {"data-quarter", fmt::format("{:.4f}", layout.sizes.front().per_quarter)}},
                 systems);
  map += element("div", {{"id", "tip"}, {"role", "status"}, {"hidden", ""}}, "");
  map += element("details", {{"class", "figures"}, {"id", "all-notes"}, {"hidden", ""}},
                 element("summary", "All notes as a table"));
  return map;
}

}  // namespace insideline::reports
