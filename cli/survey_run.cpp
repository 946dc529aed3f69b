#include "cli/survey_run.hpp"

#include "analyzer/collection/solo_rows.hpp"
#include "cli/hearing_option.hpp"
#include "cli/section_option.hpp"
#include "cli/terminal.hpp"
#include "io/database/statement.hpp"
#include "io/file_bytes.hpp"
#include "io/solo_files.hpp"
#include "io/solo_hash.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <exception>
#include <filesystem>
#include <iterator>
#include <map>
#include <mutex>
#include <new>
#include <numeric>
#include <stdexcept>
#include <thread>
#include <utility>

namespace insideline::cli {
namespace {

constexpr std::size_t largest_side_file = std::size_t{1} << 20U;  // bytes; of changes, of tapped beats

std::string said(const std::optional<std::string>& value) { return value.value_or("-"); }

/// Everything that changes a result: the version of the program and the options.
std::string way_of(const SoloOptions& options) {
  const io::ReadOptions& reading = options.reading;
  std::string grids;
  for (const io::Grid grid : reading.grids) grids += std::to_string(static_cast<int>(grid));
  const std::string beats =
      options.beats_file ? io::to_string(io::content_hash(io::read_bytes(*options.beats_file, largest_side_file)))
                         : "-";
  return fmt::format(
      "insideline {}: {}, {}, held tension {}, {}, changes pitch {}, start bar {}, part {}, voice {}, tune {}, "
      "transpose {}, {}, {}, chord track {}, grid {}, beats {}, bar one {}",
      INSIDELINE_VERSION, options.settings.feel == Feel::swing ? "swing" : "straight",
      options.settings.hearing == Hearing::strict ? "strict" : "as heard", to_string(options.settings.held_tension),
      options.section ? name_of(*options.section) : "whole",
      options.changes_pitch == ChangesPitch::concert ? "concert" : "written", options.start_bar, said(reading.part),
      said(reading.voice), said(reading.tune), reading.transpose ? std::to_string(*reading.transpose) : "-",
      reading.road_map == io::RoadMap::played ? "played" : "as written",
      reading.damage == io::Damage::refused ? "whole files" : "salvaged", said(reading.chord_track),
      grids.empty() ? "-" : grids, beats, reading.bar_one ? to_string(*reading.bar_one) : "-");
}

/// The message without the file, which the list names, and without the line of the file that it shows.
std::string reason_of(const io::ReadError& error) {
  const std::string message = error.what();
  std::string reason = message.substr(0, message.find('\n'));
  const std::string place = io::to_string(error.place()) + ": ";
  if (reason.starts_with(place)) reason.erase(0, place.size());
  return error.place().line > 0 ? fmt::format("line {}: {}", error.place().line, reason) : reason;
}

std::string without_slash(std::string folder) {
  while (folder.size() > 1 && folder.ends_with('/')) folder.pop_back();
  return folder;
}

class Survey {
 public:
  Survey(const SurveyOptions& options, const SurveyedFiles& files, io::Collection& collection)
      : options_(options),
        files_(files.found),
        collection_(collection),
        made_with_(way_of(options.reading)),
        begins_empty_(collection.totals().solos == 0) {
    work_.folders = options.folders;
    work_.failed = files.unreachable;
    work_.links_out = files.links_out;
    work_.found = static_cast<int>(files.found.size() + files.unreachable.size());
  }

  reports::SurveyWork run() {
    if (begins_empty_ || options_.analyse_again) {
      to_take_.resize(files_.size());
      std::iota(to_take_.begin(), to_take_.end(), std::size_t{0});
    } else {
      side_by_side([this] { look_through(); });
      std::ranges::sort(to_take_);
    }
    side_by_side([this] { work_through(); });
    show_progress("survey", 1, 1);
    remember_copies();
    std::ranges::sort(work_.twice);
    std::ranges::sort(work_.failed, {}, &reports::FailedFile::path);
    return std::move(work_);
  }

 private:
  struct Copy {
    std::size_t file = 0;
    io::ContentHash hash;
  };

  /// On as many threads as there are jobs; each takes what comes `next_`.
  template <typename Work>
  void side_by_side(const Work& work) {
    const unsigned cores = std::max(1U, std::thread::hardware_concurrency());
    const unsigned wanted = options_.jobs == 0 ? cores : options_.jobs;
    const auto jobs = static_cast<unsigned>(std::clamp<std::size_t>(files_.size(), 1, wanted));
    next_ = 0;
    {
      std::vector<std::jthread> workers;
      for (unsigned job = 0; job < jobs; ++job) workers.emplace_back(work);
    }
    if (broken_) std::rethrow_exception(broken_);
  }

  /// Finds the files that are not known as they are. A known one costs a look at the disk and one at the database, so
  /// that each worker asks for a number of them at a time.
  void look_through() {
    constexpr std::size_t at_a_time = 64;
    try {
      for (std::size_t first = next_.fetch_add(at_a_time); first < files_.size() && !stop_;
           first = next_.fetch_add(at_a_time))
        look_at(first, std::min(first + at_a_time, files_.size()));
    } catch (const std::exception&) {
      stop_for_all();
    }
  }

  void look_at(std::size_t begin, std::size_t end) {
    std::vector<std::string> paths;
    std::vector<std::string> stamps;
    for (std::size_t file = begin; file < end; ++file) {
      paths.push_back(files_[file].path);
      stamps.push_back(stamp_of(file, changes_of(paths.back())));
    }
    const std::scoped_lock lock(mutex_, database_);
    const auto known = collection_.known_files(paths);
    for (std::size_t file = begin; file < end; ++file) {
      if (!is_unchanged(file, stamps[file - begin], known[file - begin]))
        to_take_.push_back(file);
      else
        ++done_;
    }
    show_progress("survey", std::min(done_, files_.size() - 1), files_.size());
  }

  void work_through() {
    for (std::size_t next = next_++; next < to_take_.size() && !stop_; next = next_++) {
      const std::size_t file = to_take_[next];
      try {
        take(file);
      } catch (const io::ReadError& error) {
        fail(file, reason_of(error));
      } catch (const io::DatabaseError&) {
        stop_for_all();
      } catch (const std::overflow_error& error) {
        fail(file, fmt::format("a time in it is too long or too finely divided ({})", error.what()));
      } catch (const std::bad_alloc&) {
        fail(file, "it needs more memory than there is");
      } catch (const std::exception& error) {  // of one file; the others are not to suffer from it
        fail(file, fmt::format("this should not happen, please report it: {}", error.what()));
      }
      const std::scoped_lock lock(mutex_);
      show_progress("survey", std::min(++done_, files_.size() - 1), files_.size());
    }
  }

  /// Keeps the exception in hand for who waits for the workers.
  void stop_for_all() {
    const std::scoped_lock lock(mutex_);
    if (!broken_) broken_ = std::current_exception();
    stop_ = true;
  }

  void fail(std::size_t file, const std::string& reason) {
    const std::scoped_lock lock(mutex_);
    work_.failed.push_back({files_[file].path, reason});
  }

  io::SoloPlace place_of(std::size_t file) const {
    const std::filesystem::path folder = std::filesystem::path(files_[file].path).parent_path();
    const std::filesystem::path root = without_slash(options_.folders[files_[file].root]);
    const std::filesystem::path below = folder.lexically_relative(root);
    const bool in_root = below.empty() || below == ".";
    const std::filesystem::path whole = std::filesystem::absolute(root).lexically_normal();
    const std::filesystem::path own = whole.has_filename() ? whole.filename() : whole.parent_path().filename();
    return {.path = files_[file].path,
            .folder = folder.string(),
            .player = in_root ? own.string() : below.begin()->string()};
  }

  std::string stamp_of(std::size_t file, const std::optional<std::string>& changes) const {
    const auto hearing = hearing_of(files_[file].path);
    return io::file_stamp(files_[file].path) + (changes ? " " + io::file_stamp(*changes) : "") +
           (hearing ? " heard " + io::file_stamp(*hearing) : "");
  }

  bool is_in_shard(const io::ContentHash& hash) const {
    return hash.low % options_.shard.of == options_.shard.number - 1;
  }

  /// Counts what is stored already, and what another worker has in hand. Holds both locks.
  bool is_settled(std::size_t file, const io::ContentHash& hash, const std::string& stamp) {
    const auto [seen, is_new] = seen_.emplace(hash, file);
    if (!is_new) {
      const std::size_t first = std::min(seen->second, file);
      const std::size_t copy = std::max(seen->second, file);
      seen->second = first;
      copies_.push_back({copy, hash});
      if (first == file)
        if (const auto stored = collection_.stored(hash)) collection_.move(hash, place_of(file));
      return true;
    }
    const auto stored = collection_.stored(hash);
    if (!stored || stored->made_with != made_with_ || options_.analyse_again) return false;
    if (stored->place.path != files_[file].path) collection_.move(hash, place_of(file));
    collection_.remember(files_[file].path, stamp, hash);
    ++work_.unchanged;
    return true;
  }

  /// Without reading it: the file is as it was when its solo was stored. Holds both locks.
  bool is_unchanged(std::size_t file, const std::string& stamp, const std::optional<io::KnownFile>& known) {
    if (!known || known->stamp != stamp || known->made_with != made_with_) return false;
    if (!is_in_shard(known->hash)) return static_cast<void>(++work_.elsewhere), true;
    const auto [seen, is_new] = seen_.emplace(known->hash, file);
    if (!is_new) {
      copies_.push_back({std::max(seen->second, file), known->hash});
      seen->second = std::min(seen->second, file);
    } else {
      ++work_.unchanged;
    }
    if (seen->second == file && known->path_of_solo != files_[file].path) collection_.move(known->hash, place_of(file));
    return true;
  }

  void take(std::size_t file) {
    const std::string& path = files_[file].path;
    const std::optional<std::string> changes = changes_of(path);
    const std::string stamp = stamp_of(file, changes);
    const std::string bytes = bytes_of(path);
    if (bytes.empty()) return;
    io::ContentHash hash = io::solo_hash(bytes);
    if (changes) hash = io::solo_hash(io::read_bytes(*changes, largest_side_file), hash);
    if (const auto hearing = hearing_of(path)) hash = io::solo_hash(io::read_bytes(*hearing, largest_side_file), hash);
    if (!is_in_shard(hash)) {
      ++elsewhere_;
      return;
    }
    if (!begins_empty_ || !is_first_of(hash, file)) {
      const std::scoped_lock lock(mutex_, database_);
      if (is_settled(file, hash, stamp)) return;
    }
    SoloOptions reading = options_.reading;
    reading.solo = path;
    reading.settings.detail = insideline::Detail::figures;
    const reports::Report report = analyzed(reading, bytes);
    store(file, hash, stamp, io::solo_texts(solo_rows(report.solo, report.analysis), path));
  }

  /// Others analyse meanwhile, and only who finds a copy of a solo has to wait.
  void store(std::size_t file, const io::ContentHash& hash, const std::string& stamp, const io::SoloTexts& texts) {
    const std::scoped_lock storing(database_);
    std::size_t first = file;
    {
      const std::scoped_lock lock(mutex_);
      first = seen_.at(hash);
      ++work_.analysed;
    }
    collection_.store({.hash = hash, .place = place_of(first), .made_with = made_with_}, texts,
                      first == file ? stamp : stamp_of(first, changes_of(files_[first].path)));
  }

  /// In a database that began empty nothing is stored that this run has not seen.
  bool is_first_of(const io::ContentHash& hash, std::size_t file) {
    const std::scoped_lock lock(mutex_);
    return seen_.emplace(hash, file).second;
  }

  /// Empty for an .xml file that is no score, and for a file that another shard tells about.
  std::string bytes_of(const std::string& path) {
    try {
      std::string bytes = io::read_solo_bytes(path);
      if (io::may_be_score(path, bytes)) return bytes;
      const std::scoped_lock lock(mutex_);
      ++work_.no_scores;
      return {};
    } catch (const io::ReadError&) {
      if (is_in_shard(io::solo_hash(path))) throw;
      ++elsewhere_;
      return {};
    }
  }

  std::optional<std::string> changes_of(const std::string& path) const {
    return options_.reading.changes ? options_.reading.changes : io::changes_beside(path);
  }

  std::optional<std::string> hearing_of(const std::string& path) const {
    SoloOptions reading = options_.reading;
    reading.solo = path;
    return hearing_file_of(reading);
  }

  /// Copies of one solo are known files too, so that they need not be read again.
  void remember_copies() {
    work_.elsewhere += elsewhere_;
    for (const Copy& copy : copies_) {
      const std::string& path = files_[copy.file].path;
      work_.twice.emplace_back(path, files_[seen_.at(copy.hash)].path);
      if (collection_.stored(copy.hash)) collection_.remember(path, stamp_of(copy.file, changes_of(path)), copy.hash);
    }
  }

  const SurveyOptions& options_;
  const std::vector<SurveyedFile>& files_;
  io::Collection& collection_;
  const std::string made_with_;
  const bool begins_empty_;           ///< the database
  std::vector<std::size_t> to_take_;  ///< files that must be read; guarded while they are looked for
  std::atomic<std::size_t> next_ = 0;
  std::atomic<bool> stop_ = false;
  std::atomic<int> elsewhere_ = 0;

  std::mutex database_;                          ///< guards the collection; may be held while taking `mutex_`
  std::mutex mutex_;                             ///< guards what follows
  std::map<io::ContentHash, std::size_t> seen_;  ///< the first file that holds a solo
  std::vector<Copy> copies_;
  reports::SurveyWork work_;
  std::size_t done_ = 0;
  std::exception_ptr broken_;
};

}  // namespace

SurveyedFiles files_of(const SurveyOptions& options) {
  SurveyedFiles files;
  for (std::uint32_t root = 0; root < options.folders.size(); ++root) {
    const auto show = [&](std::size_t found) { show_count("survey: files found", files.found.size() + found); };
    io::FoundSolos found = io::find_solos(without_slash(options.folders[root]), options.links_out, show);
    std::ranges::move(found.links_out, std::back_inserter(files.links_out));
    for (std::string& path : found.files) files.found.push_back({std::move(path), root});
    for (io::Unreachable& place : found.unreachable) files.unreachable.push_back({place.path, place.reason});
  }
  show_progress("survey", 1, 1);
  std::ranges::sort(files.found, {}, &SurveyedFile::path);
  const auto same_path = [](const SurveyedFile& a, const SurveyedFile& b) { return a.path == b.path; };
  files.found.erase(std::unique(files.found.begin(), files.found.end(), same_path), files.found.end());
  return files;
}

reports::SurveyWork survey(const SurveyOptions& options, const SurveyedFiles& files, io::Collection& collection) {
  return Survey(options, files, collection).run();
}

}  // namespace insideline::cli
