// In place of what a browser cannot have: databases, and other programs. Each says so in one sentence when it is asked
// for.
#include "cli/child_process.hpp"
#include "cli/engraver.hpp"
#include "cli/survey_run.hpp"
#include "cli/synthesizer.hpp"
#include "io/database/collection.hpp"
#include "io/database/merge.hpp"
#include "io/database/practice_log.hpp"
#include "io/musicxml/libzip_on_demand.hpp"

#include <fmt/format.h>

#include <utility>

namespace insideline::io {
namespace {

[[noreturn]] void refuse_database(std::string_view file) {
  throw DatabaseError(
      fmt::format("{}: a page in a browser keeps no database; the program for the command line does", file));
}

}  // namespace

// libzip is a part of the module.
void load_libzip(std::string_view /*file_name*/) {}

struct Collection::Parts {
  std::string file;
};
Collection::Collection(const std::string& file, Access /*access*/) { refuse_database(file); }
Collection::~Collection() = default;
// Nobody gets as far as this.
void Collection::finish() { refuse_database(parts_->file); }
Totals Collection::totals() { refuse_database(parts_->file); }
std::vector<ListedSolo> Collection::solos() { refuse_database(parts_->file); }
std::vector<std::vector<SoloValue>> Collection::values(std::span<const std::string_view> /*figures*/) {
  refuse_database(parts_->file);
}
std::vector<NamedCount> Collection::frequent_cells(int /*most*/) { refuse_database(parts_->file); }
std::vector<NamedCount> Collection::frequent_arpeggios(int /*most*/) { refuse_database(parts_->file); }

NewFile::NewFile(std::string file) : file_(std::move(file)) {}
NewFile::~NewFile() = default;
Connection::Connection(const std::string& file, Access /*access*/) : name_(file) { refuse_database(file); }
void Connection::Close::operator()(sqlite3* /*handle*/) const noexcept {}
void Connection::fail() const { refuse_database(name_); }
PracticeLog::PracticeLog(const std::string& file, Access /*access*/) : new_file_(file), connection_(file) {}
void PracticeLog::add(const LoggedTake& /*take*/, const ContentHash& /*hash*/) { connection_.fail(); }
std::vector<LoggedTake> PracticeLog::takes_of(const std::string& /*player*/, const std::string& /*sheet_id*/) {
  connection_.fail();
}
std::vector<LoggedTake> PracticeLog::takes() { connection_.fail(); }
std::string sheet_id(const Solo& /*sheet*/) { return {}; }

Merged merge_databases(const std::vector<std::string>& /*parts*/, const std::string& merged) {
  refuse_database(merged);
}

}  // namespace insideline::io

namespace insideline::cli {
namespace {

constexpr const char* no_engraver = "LilyPond, which engraves the sheets, cannot be run by a page in a browser";

}  // namespace

// There are no other programs to wait for, and no signals.
SignalsHeld::SignalsHeld() = default;
SignalsHeld::~SignalsHeld() = default;
std::string engraved_elsewhere(std::string_view command) {
  return fmt::format("`{}` writes a sheet as LilyPond text, to be engraved on another machine", command);
}
std::string engraved_pdf(std::string_view /*text*/, std::chrono::seconds /*time_limit*/, std::string_view instead) {
  throw EngravingError(fmt::format("{}\n  {}", no_engraver, instead));
}
std::vector<std::string> engraved_pdfs(const std::vector<std::string>& /*texts*/, std::chrono::seconds /*time_limit*/,
                                       std::string_view instead) {
  throw EngravingError(fmt::format("{}\n  {}", no_engraver, instead));
}
std::vector<std::string> engraved_systems(const std::vector<std::string>& /*texts*/,
                                          std::chrono::seconds /*time_limit*/,
                                          const std::function<void(std::size_t)>& /*done*/) {
  throw EngravingError(no_engraver);
}
std::string synthesized(std::string_view /*midi*/) {
  throw SoundError(
      "FluidSynth, which makes the sound, cannot be run by a page in a browser; a MIDI file can be written");
}

SurveyedFiles files_of(const SurveyOptions& /*options*/) { return {}; }
reports::SurveyWork survey(const SurveyOptions& /*options*/, const SurveyedFiles& /*files*/,
                           io::Collection& /*collection*/) {
  return {};
}

}  // namespace insideline::cli
