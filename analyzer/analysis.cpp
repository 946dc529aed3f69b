#include "analyzer/analysis.hpp"

#include "analyzer/arpeggios.hpp"
#include "analyzer/cells.hpp"
#include "analyzer/connections.hpp"
#include "analyzer/heard_line.hpp"
#include "analyzer/labels/label_notes.hpp"
#include "analyzer/measures/chance.hpp"
#include "analyzer/measures/densities.hpp"
#include "analyzer/measures/heard_harmony.hpp"
#include "analyzer/measures/outline.hpp"
#include "analyzer/measures/phrase_figures.hpp"
#include "analyzer/measures/rotation.hpp"
#include "analyzer/measures/section_figures.hpp"
#include "analyzer/measures/summary.hpp"
#include "analyzer/measures/telling_bars.hpp"
#include "analyzer/measures/time_feel.hpp"
#include "analyzer/outside_events.hpp"
#include "analyzer/patterns/blues.hpp"
#include "analyzer/patterns/patterns.hpp"
#include "analyzer/phrases.hpp"
#include "analyzer/scales_in_thirds.hpp"
#include "analyzer/thread.hpp"

#include <utility>

namespace insideline {

namespace {

/// What only whoever asks for all figures is shown.
void add_figures(Analysis& analysis, const HeardLine& line, const Solo& solo, const ChangesRing& ring) {
  analysis.cells = count_cells(line, analysis.harmony);
  add_groups(analysis.densities, line, analysis.harmony, analysis.labels);
  analysis.phrase_figures =
      measure_phrases(line, solo, analysis.labels, analysis.phrases, analysis.arpeggios, analysis.densities);
  analysis.section_figures = measure_sections(line, solo, analysis);
  analysis.threads = find_threads(line, solo, analysis.harmony, ring);
  analysis.summary.chance_by_transposing = chance_by_transposing(line);
}

}  // namespace

Analysis analyze(const Solo& solo, Harmony harmony, const Settings& settings) {
  std::vector<Phrase> phrases = find_phrases(solo, harmony, settings);
  std::vector<NoteLabel> labels = label_notes(solo, harmony, phrases, settings);
  return analyze_labelled(solo, std::move(harmony), std::move(phrases), std::move(labels), settings);
}

Analysis analyze_labelled(const Solo& solo, Harmony its_harmony, std::vector<Phrase> phrases,
                          std::vector<NoteLabel> labels, const Settings& settings) {
  Analysis analysis;
  analysis.detail = settings.detail;
  analysis.harmony = std::move(its_harmony);
  analysis.phrases = std::move(phrases);
  analysis.labels = std::move(labels);

  const Harmony& harmony = analysis.harmony;
  const HeardLine line = hear(solo, harmony, analysis.labels, analysis.phrases);
  const std::vector<ScaleInThirds> scales_in_thirds = find_scales_in_thirds(line);
  analysis.arpeggios = find_arpeggios(line, scales_in_thirds, harmony, analysis.labels);
  analysis.connections = find_connections(line, solo, harmony, analysis.labels, settings);
  analysis.densities = measure_densities(line);
  analysis.outline = measure_outline(line, solo, harmony);
  analysis.heard = measure_heard_harmony(line, harmony);
  analysis.time_feel = time_feel(solo);
  analysis.outside_events = find_outside_events(line, harmony, analysis.labels);
  analysis.patterns = find_patterns(line, scales_in_thirds, solo, harmony);
  analysis.patterns.blue_notes = find_blue_notes(line, solo, analysis);
  analysis.telling_bars = find_telling_bars(line, scales_in_thirds, solo, analysis);

  const ChangesRing ring = ring_of(solo, harmony, line);
  analysis.summary = summarize(line, solo, analysis);
  analysis.summary.chance = chance_by_turning(line, solo, ring);
  analysis.warnings = warnings_of_shortness(analysis.summary);
  if (settings.detail >= Detail::figures) add_figures(analysis, line, solo, ring);
  return analysis;
}

}  // namespace insideline
