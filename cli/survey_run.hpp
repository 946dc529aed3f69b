// The work of a survey: every solo under some folders into a database, on several cores.
#pragma once

#include "cli/solo_options.hpp"
#include "io/database/collection.hpp"
#include "io/solo_files.hpp"
#include "reports/survey/survey_report.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace insideline::cli {

/// One of several equal parts of a collection; a solo's part is told by what it holds.
struct Shard {
  unsigned number = 1;  ///< 1 to `of`
  unsigned of = 1;
};

struct SurveyOptions {
  SoloOptions reading;  ///< the same for each solo
  std::vector<std::string> folders;
  Shard shard;
  unsigned jobs = 0;           ///< 0: as many as there are cores
  bool analyse_again = false;  ///< what is stored already, too
  io::LinksOut links_out = io::LinksOut::left_out;
};

struct SurveyedFile {
  std::string path;
  std::uint32_t root = 0;  ///< which of the folders it was found in
};

struct SurveyedFiles {
  std::vector<SurveyedFile> found;  ///< sorted by path, each once
  std::vector<reports::FailedFile> unreachable;
  std::vector<std::string> links_out;  ///< that were not followed
};

/// Looks through the folders. Throws io::ReadError where one of them does not exist.
SurveyedFiles files_of(const SurveyOptions& options);

/// Puts every solo into `collection`. A file that cannot be used is named in the result and stops nothing. Throws
/// io::DatabaseError where the database cannot be written; what was stored till then is kept.
reports::SurveyWork survey(const SurveyOptions& options, const SurveyedFiles& files, io::Collection& collection);

}  // namespace insideline::cli
