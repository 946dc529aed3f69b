// The page of each solo of a survey, as `analyze --html` writes it, in a folder of their own.
#pragma once

#include "cli/survey_run.hpp"

#include <map>
#include <string>

namespace insideline::cli {

/// Where the page of each file goes, by the path of the solo: in `folder` as the solo lies in the surveyed one,
/// "Anke/take.mid.html". With several folders the name of each goes before.
std::map<std::string, std::string> page_files(const SurveyOptions& options, const SurveyedFiles& files,
                                              const std::string& folder);

/// Writes the page of the solo at `path`, with the folders that it needs. Throws OutputError where that is not
/// possible.
void write_solo_page(const SurveyOptions& options, const std::string& path, const std::string& page);

/// The link from the page `from` ("-": from the current folder) to the file `to`.
std::string link_between(const std::string& from, const std::string& to);

}  // namespace insideline::cli
