// What a survey says: how the work went, and what the collection is like.
#pragma once

#include "analyzer/collection/overview.hpp"
#include "reports/text/ink.hpp"

#include <cstddef>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

namespace insideline::reports {

/// A file that could not be used.
struct FailedFile {
  std::string path;
  std::string reason;
};

/// How the work on the folders went.
struct SurveyWork {
  std::vector<std::string> folders;
  int found = 0;                                           ///< files that could be solos
  int analysed = 0;                                        ///< now
  int unchanged = 0;                                       ///< stored before, and still the same
  int elsewhere = 0;                                       ///< in another part of the collection (--shard)
  int no_scores = 0;                                       ///< .xml files of other programs
  std::vector<std::pair<std::string, std::string>> twice;  ///< a file, and the one it is the same as; sorted
  std::vector<FailedFile> failed;                          ///< sorted
  std::vector<std::string> links_out;                      ///< symbolic links out of the folders, not followed
};

struct SurveyedSolo {
  std::string path;
  std::string folder;
  std::string player;
  std::string title;
  int bars = 0;
  int notes = 0;
  std::string page{};  ///< a link to its own page; empty where it has none
};

/// A cell or a shape with how often it comes.
struct Frequency {
  std::string name;
  int count = 0;
  int solos = 0;
};

struct CollectionReport {
  std::string name;                            ///< of the database; empty where none is kept
  std::string grouped_by;                      ///< "player" or "folder"
  int size = 0;                                ///< solos
  int groups = 0;                              ///< players or folders
  int bars = 0;                                ///< of all solos
  int notes = 0;                               ///< of all solos
  std::vector<SurveyedSolo> solos;             ///< by path; left out where only the main figures are told
  std::vector<FigureOverview> figures;         ///< in the order of figure_rows()
  std::vector<std::vector<SoloValue>> values;  ///< parallel to `figures`, for the page; may be empty
  std::vector<Frequency> cells;                ///< the most frequent first
  std::vector<Frequency> arpeggios;
};

/// Where one solo stands in one figure.
struct FigureStanding {
  std::size_t row = 0;    ///< index into figure_rows()
  double value = 0.0;     ///< of this solo
  double below = 0.0;     ///< the share (0..1) of the collection below it
  double median = 0.0;    ///< of the collection
  std::size_t solos = 0;  ///< that have the figure
};

/// A figure's value with its measure: "71 %", "3.4".
std::string value_text(std::size_t row, double value);

/// The sentences on how the work went, with every file that failed or lies twice.
std::string survey_work_text(const SurveyWork& work);

/// The same of one part of several: a line of its own, `solos` being in its database now, and the files that failed.
std::string part_work_text(const SurveyWork& work, const std::string& part, int solos);

/// What the collection is like, in sentences; the first of them says how large it is.
std::vector<std::string> collection_sentences(const CollectionReport& report);

enum class Depth : std::uint8_t { main_figures, everything };
std::string collection_text(const CollectionReport& report, Depth depth, Colour colour);
std::string collection_page(const CollectionReport& report);

/// One row a solo: its place, size and all figures. `values_by_figure` is parallel to figure_rows(), each with one text
/// a solo, empty for none.
std::string survey_csv(const std::vector<SurveyedSolo>& solos,
                       const std::vector<std::vector<std::string>>& values_by_figure);

/// Where a solo stands among those of a collection.
std::string standing_text(const std::string& collection, const std::vector<FigureStanding>& standings);

}  // namespace insideline::reports
