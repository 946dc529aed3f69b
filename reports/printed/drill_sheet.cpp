#include "reports/printed/drill_sheet.hpp"

#include "analyzer/drills/drill_degrees.hpp"
#include "analyzer/drills/readable_drill.hpp"
#include "analyzer/model/sections.hpp"
#include "analyzer/notation/rhythm_writing.hpp"
#include "reports/printed/lilypond_text.hpp"
#include "reports/printed/line_plan.hpp"
#include "reports/printed/prelude.hpp"
#include "reports/printed/staff_music.hpp"
#include "reports/printed/text_rows.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <span>
#include <string_view>

namespace insideline::reports {
namespace {

constexpr std::size_t longest_title = 60;
constexpr std::size_t longest_name = 110;
constexpr std::size_t most_plain_notes = 34;  // in a line: four bars of eighths; tried on A4 and Letter

// After the handout's prelude: the plan is small and in two columns, so that the music begins on page 1; lines keep
// their distance however few they are; the foot of a page has the caution in place of the legend, and a note in
// brackets is small. Nothing here comes from a file.
constexpr std::string_view own_prelude = R"lily(
\paper {
  ragged-bottom = ##t
  system-system-spacing = #'((basic-distance . 13) (minimum-distance . 11) (padding . 2.6) (stretchability . 0))
  markup-system-spacing = #'((basic-distance . 12) (minimum-distance . 9) (padding . 3) (stretchability . 0))
}
either = #(define-music-function (music) (ly:music?)
  #{ \tweak font-size #-2 \tweak Parentheses.font-size #-1 \parenthesize #music #})
#(define-markup-command (plan-section layout props name texts) (string? markup-list?)
  (interpret-markup layout props
    #{ \markup \column { \vspace #0.5 \bold #name \vspace #0.15
                      \fontsize #-1.2 \override #'(baseline-skip . 0) \column { #texts } } #}))
#(define-markup-command (plan-paragraph layout props text) (string?)
  (interpret-markup layout props
    #{ \markup \pad-markup #0.4 \override #'(baseline-skip . 2.4) \wordwrap-string #text #}))
#(define-markup-command (plan-columns layout props left right) (markup-list? markup-list?)
  (let ((width (/ (- (ly:output-def-lookup layout 'line-width) 5) 2)))
    (interpret-markup layout props
      #{ \markup \override #`(line-width . ,width) \line {
           \override #'(baseline-skip . 0) \column { #left } \hspace #3
           \override #'(baseline-skip . 0) \column { #right } } #})))
#(define-markup-command (ladder layout props steps) (markup-list?)
  (interpret-markup layout props
    #{ \markup \pad-markup #0.6 \override #'(word-space . 1.2) \line { #steps } #}))
#(define-markup-command (rung layout props bpm) (string?)
  (interpret-markup layout props
    #{ \markup \override #'(box-padding . 0.5) \box \concat { \fontsize #-2 \general-align #Y #DOWN \note { 4 } #1 " = " #bpm } #}))
#(define-markup-command (key-name layout props root accidental mode) (string? string? string?)
  (interpret-markup layout props
    #{ \markup \sans \bold \fontsize #0.5 \override #'(box-padding . 0.5) \box \concat { #root \accidental-sign #accidental #mode } #}))
)lily";

std::string footer() {
  return fmt::format(
      "\\paper {{\n  oddFooterMarkup = \\markup \\column {{\n    \\draw-hline\n    \\vspace #0.2\n"
      "    \\override #'(baseline-skip . 2) \\fontsize #-3.2 \\wordwrap-string {}\n    \\vspace #0.1\n"
      "    \\fill-line {{ \\fontsize #-2 \\concat {{ \"page \" \\fromproperty #'page:page-number-string }} }}\n  }}\n"
      "  evenFooterMarkup = \\oddFooterMarkup\n}}\n",
      lilypond_string(caution_words()));
}

std::string header(const DrillReport& report, const DrillSheetOptions& options) {
  const Solo& solo = report.drill.solo;
  const bool transposes = solo.sounding_minus_written.semitones != 0;
  std::string described = fitted(solo.part, longest_title);
  if (transposes) described += options.pitch == PrintedPitch::written ? ", in written pitch" : ", in concert pitch";
  const std::string title = fitted(solo.title, longest_title);
  return fmt::format(
      "\\header {{\n  title = {}\n  running = {}\n  sheetname = {}\n  described = {}\n  tagline = ##f\n}}\n",
      lilypond_string(title), lilypond_string(title),
      lilypond_string(fitted(drill_name(report.settings), longest_name)), lilypond_string(described));
}

std::string plan_section(const PlanSection& section, const DrillReport& report) {
  std::string paragraphs;
  for (const std::string& sentence : section.paragraphs)
    paragraphs += fmt::format("    \\plan-paragraph {}\n", lilypond_string(sentence));
  if (section.heading == "Tempo ladder") {
    paragraphs = "    \\ladder {";
    for (const int bpm : tempo_ladder(report.goal_bpm)) paragraphs += fmt::format(" \\rung \"{}\"", bpm);
    paragraphs += fmt::format(" }}\n    \\plan-paragraph {}\n", lilypond_string(section.paragraphs.back()));
  }
  return fmt::format("  \\plan-section {} {{\n{}  }}\n", lilypond_string(section.heading), paragraphs);
}

/// The lines that a section takes in a column, its heading and the gaps with them.
double lines_in_column(const PlanSection& section) {
  constexpr double heading = 1.6;
  constexpr double ladder = 1.8;
  constexpr double gap = 0.25;
  constexpr std::size_t letters_in_a_line = 54;
  double lines = heading + (section.heading == "Tempo ladder" ? ladder : 0.0);
  for (const std::string& paragraph : section.paragraphs)
    lines += gap + static_cast<double>((paragraph.size() + letters_in_a_line - 1) / letters_in_a_line);
  return lines;
}

struct PrintedPlan {
  std::string text;
  double lines = 0.0;       ///< of the longer column
  bool in_columns = false;  ///< else one section under the other
};

/// The plan above the music: what to play on the left, and each section on how to under the shorter of two columns. A
/// plan of many words has one section under the other, since two columns stay on one page. The caution stands at the
/// foot of every page.
PrintedPlan printed_plan(const DrillReport& report) {
  constexpr double most_lines_of_what = 38.0;  // about a third of a page in two columns
  struct Column {
    std::string text;
    double lines = 0.0;
  };
  Column left;
  Column right;
  std::string stacked;
  double what = 0.0;
  for (const PlanSection& section : drill_plan(report)) {
    if (section.heading == caution_heading) continue;
    const std::string text = plan_section(section, report);
    const bool is_what = section.heading == "What to play" || section.heading == "Why this sheet";
    Column& column = is_what || left.lines < right.lines ? left : right;
    column.text += text;
    column.lines += lines_in_column(section);
    if (is_what) what += lines_in_column(section);
    stacked += "\\markup\n" + text;
  }
  if (what > most_lines_of_what) return {stacked, 0.0, false};
  return {fmt::format("\\markup \\plan-columns {{\n{}}} {{\n{}}}\n", left.text, right.text),
          std::max(left.lines, right.lines), true};
}

/// How large the sheet is set, in points, and whether it is one page: the largest size at which all of it has room on
/// one, else the usual one. Measured on sheets of ten bars, in millimetres at the usual size.
struct PageSize {
  double staff = 19.0;
  bool one_page = false;
};

PageSize page_size(const PrintedPlan& plan, std::size_t systems, const DrillSheetOptions& options) {
  constexpr PageSize usual;
  constexpr double margins = 20.0;
  constexpr double title_and_foot = 43.0;  // with the gaps around the plan
  constexpr double line_of_plan = 4.0;
  const double page = options.paper == Paper::a4 ? 297.0 : 279.0;
  const double system = options.degrees == DegreeRow::shown ? 30.0 : 26.0;
  const double height = title_and_foot + line_of_plan * plan.lines + system * static_cast<double>(systems);
  if (!plan.in_columns) return usual;
  for (const double staff : {usual.staff, 18.0, 17.0})
    if (margins + height * staff / usual.staff <= page) return {staff, true};
  return usual;
}

/// Writes the line: staff by staff symbol, with the open choices as small notes.
class LineText {
 public:
  LineText(const Sheet& sheet, const DrillReport& report, const LinePlan& plan)
      : sheet_(sheet), report_(report), drill_(report.drill), plan_(plan) {}

  std::string text(std::span<const WrittenBar> bars) {
    std::vector<Pitch> pitches;
    for (const Note& note : drill_.solo.notes) pitches.push_back(printed(note.pitch));
    std::string all = fmt::format("  \\clef {}\n", clef_for(pitches));
    for (const WrittenBar& written : bars) all += bar_text(written);
    return all + "  \\bar \"|.\"\n";
  }

 private:
  [[nodiscard]] Pitch printed(const Pitch& sounding) const { return transposed(sounding, to_printed_pitch(sheet_)); }

  std::string bar_text(const WrittenBar& written) {
    const Bar& bar = drill_.solo.bars[written.bar];
    const Bar* before = written.bar > 0 ? &drill_.solo.bars[written.bar - 1] : nullptr;
    std::string text = fmt::format("  % bar {}\n  ", bar.number) + line_start(written, bar);
    const auto key = key_at(drill_.solo, bar.onset);
    if (key && (before == nullptr || key_at(drill_.solo, before->onset) != key))
      text += lilypond_key(transposed(*key, to_printed_pitch(sheet_))) + " ";
    if (before == nullptr || !(before->meter == bar.meter)) text += fmt::format("\\time {} ", to_string(bar.meter));
    for (const WrittenGroup& group : written.groups) text += group_text(group);
    if (written.groups.empty()) text += fmt::format("R{} ", lilypond_length(written.length));
    return text + "|\n";
  }

  /// Where a line or a page may end, and what begins: a key or a chorus.
  std::string line_start(const WrittenBar& written, const Bar& bar) {
    const int chorus = chorus_starting_at(sheet_, bar);
    const auto start = std::ranges::find(report_.keys, written.bar, &KeyStart::bar);
    const bool begins_key = start != report_.keys.end();
    const bool double_bar = begins_key || has_double_bar(drill_.solo, drill_.harmony, bar.onset);
    std::string text;
    if (plan_.starts.contains(written.bar))
      text += chorus == 0 && chorus_is_short() ? "\\break \\noPageBreak " : "\\break ";
    else if (written.bar > 0)
      text += "\\noBreak ";
    if (written.bar > 0 && double_bar) text += "\\bar \"||\" ";
    std::vector<std::string> boxes = form_boxes(sheet_, bar, report_.keys.empty() ? chorus : chorus_in_key(chorus));
    if (begins_key) boxes.insert(boxes.begin(), key_box(start->key));
    return text + mark_text(boxes);
  }

  [[nodiscard]] std::string key_box(const Key& sounding) const {
    const Key key = read_key(sounding, to_printed_pitch(sheet_));
    const std::string tonic = to_string(tonic_of(key));
    return fmt::format("\\key-name \"{}\" \"{}\" \" {}\" ", tonic.substr(0, 1), tonic.substr(1), mode_name(key));
  }

  /// A chorus is told where a key has several.
  [[nodiscard]] int chorus_in_key(int chorus) const {
    return chorus == 0 || report_.settings.choruses == 1 ? 0 : (chorus - 1) % report_.settings.choruses + 1;
  }

  /// Few lines stay together on a page.
  [[nodiscard]] bool chorus_is_short() const {
    constexpr std::size_t most_lines = 5;
    const auto choruses = static_cast<std::size_t>(std::max(1, drill_.harmony.choruses));
    return choruses > 1 && plan_.starts.size() + 1 <= most_lines * choruses;
  }

  std::string group_text(const WrittenGroup& group) {
    std::string text;
    for (const WrittenSymbol& symbol : group.symbols) text += symbol_text(symbol) + " ";
    if (group.notes == group.in_time_of) return text;
    return fmt::format("\\tuplet {}/{} {{ {}}} ", group.notes, group.in_time_of, text);
  }

  std::string symbol_text(const WrittenSymbol& symbol) {
    const std::string value =
        std::to_string(symbol.value.divisor) + std::string(static_cast<std::size_t>(symbol.value.dots), '.');
    if (!symbol.note) return "r" + value;
    std::string sound = lilypond_pitch(printed(drill_.solo.notes[*symbol.note].pitch));
    const auto& choices = drill_.open_choices;
    if (symbol.struck && next_choice_ < choices.size() && choices[next_choice_].note == *symbol.note) {
      const std::string other = lilypond_pitch(printed(choices[next_choice_++].other));
      sound = fmt::format("<{} \\either {}>", sound, other);
    }
    return sound + value + (symbol.tied ? "~" : "");
  }

  const Sheet& sheet_;
  const DrillReport& report_;
  const Drill& drill_;
  const LinePlan& plan_;
  std::size_t next_choice_ = 0;
};

/// Degrees in black under the notes; in parentheses where the chord does not have the note.
std::string degree_markup_of(const DrillDegree& degree) {
  const std::string name = to_string(degree.degree);
  const std::size_t number = name.find_first_not_of("b#");
  const std::string plain = fmt::format("\\plain-degree \"{}\" \"{}\"", name.substr(0, number), name.substr(number));
  return degree.of_chord ? plain : fmt::format("\\concat {{ \"(\" {} \")\" }}", plain);
}

std::string degree_text(const DrillReport& report, std::span<const WrittenBar> bars) {
  const auto degrees = degrees_of(report.drill, report.settings);
  std::string text;
  for (const WrittenBar& written : bars) {
    text += "  ";
    for (const WrittenGroup& group : written.groups)
      for (const WrittenSymbol& symbol : group.symbols) {
        const std::string length = lilypond_length(length_of(symbol.value) * Beats(group.in_time_of, group.notes));
        const bool has_degree = symbol.note && symbol.struck && degrees[*symbol.note];
        text += has_degree ? fmt::format("\\markup {} {} ", degree_markup_of(*degrees[*symbol.note]), length)
                           : fmt::format("\\skip {} ", length);
      }
    if (written.groups.empty()) text += fmt::format("\\skip {} ", lilypond_length(written.length));
    text += "\n";
  }
  return text;
}

std::string score(const Sheet& sheet, const DrillReport& report, std::span<const WrittenBar> bars, const LinePlan& plan,
                  const DrillSheetOptions& options) {
  const bool with_degrees = options.degrees == DegreeRow::shown;
  std::string text = fmt::format("chords-above = \\lyricmode {{\n{}}}\n\n", chord_row(sheet, bars));
  text += fmt::format("line = {{\n{}}}\n\n", LineText(sheet, report, plan).text(bars));
  if (with_degrees) text += fmt::format("degrees-below = \\lyricmode {{\n{}}}\n\n", degree_text(report, bars));
  text +=
      "\\score {\n  <<\n    \\new Lyrics \\with { \\chord-row-style } \\chords-above\n"
      "    \\new Staff \\new Voice \\line\n";
  if (with_degrees) text += "    \\new Lyrics \\with { \\degree-row-style } \\degrees-below\n";
  text += "  >>\n";
  return text + (plan.last == LastLine::short_of_bars ? "  \\layout { ragged-last = ##t }\n}\n" : "}\n");
}

}  // namespace

std::vector<std::string> degree_names(const Drill& drill, const DrillSettings& settings) {
  std::vector<std::string> names;
  for (const auto& degree : degrees_of(drill, settings)) {
    const std::string name = degree ? to_string(degree->degree) : "";
    names.push_back(degree && !degree->of_chord ? "(" + name + ")" : name);
  }
  return names;
}

std::string drill_sheet_text(const DrillReport& report, const DrillSheetOptions& options) {
  Report whole;
  whole.solo = report.drill.solo;
  whole.analysis.harmony = report.drill.harmony;
  const HandoutOptions handout{SheetKind::annotated, options.paper, options.pitch, ChordRow::shown, std::nullopt};
  const Sheet sheet{whole, handout, *excerpt_of(whole.solo, std::nullopt)};
  const std::vector<WrittenBar> bars = written_rhythm(report.drill.solo);
  const LinePlan lines =
      line_plan(sheet, bars, options.degrees == DegreeRow::shown ? most_with_degrees : most_plain_notes);
  const PrintedPlan plan = printed_plan(report);
  const PageSize size = page_size(plan, lines.starts.size() + 1, options);
  std::string text = fmt::format(
      "\\version \"2.24.0\"\n#(set-default-paper-size \"{}\")\n#(set-global-staff-size {:.3g})\n"
      "#(define sheet 'annotated)\n#(define title-size 4)\n#(define roomy #f)\n#(define fewest-systems 1)\n"
      "#(define on-one-page {})\n#(define legend-items '())\n",
      options.paper == Paper::a4 ? "a4" : "letter", size.staff, size.one_page ? "#t" : "#f");
  text += printed_prelude();
  text += own_prelude;
  text += footer();
  text += header(report, options) + "\n" + plan.text + "\n";
  return text + score(sheet, report, bars, lines, options);
}

}  // namespace insideline::reports
