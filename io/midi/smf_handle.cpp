#include "io/midi/smf_handle.hpp"

// glib.h must come before smf.h, which includes it inside extern "C".
// clang-format off
#include <glib.h>
#include <smf.h>
// clang-format on
#include <unistd.h>

#include <algorithm>
#include <cassert>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <memory>
#include <mutex>
#include <stdexcept>

namespace insideline::io {
namespace {

constexpr std::size_t most_messages = 20;

/// smf_delete takes each event out of its track from the front and renumbers the rest, which is quadratic.
/// Freed here first, the tracks it finds are empty. The fields are documented as private: a test watches over it.
struct SmfDelete {
  void operator()(smf_t* smf) const noexcept {
    for (guint i = 0; i < smf->tracks_array->len; ++i) {
      auto* track = static_cast<smf_track_t*>(g_ptr_array_index(smf->tracks_array, i));
      for (guint k = 0; k < track->events_array->len; ++k) {
        auto* event = static_cast<smf_event_t*>(g_ptr_array_index(track->events_array, k));
        std::free(event->midi_buffer);  // NOLINT(cppcoreguidelines-no-malloc,cppcoreguidelines-owning-memory): libsmf's
        std::free(event);               // NOLINT(cppcoreguidelines-no-malloc,cppcoreguidelines-owning-memory): libsmf's
      }
      g_ptr_array_set_size(track->events_array, 0);
      track->number_of_events = 0;
    }
    smf_delete(smf);
  }
};
using SmfPtr = std::unique_ptr<smf_t, SmfDelete>;

void keep_message(const gchar* /*domain*/, GLogLevelFlags /*level*/, const gchar* message, gpointer messages) {
  auto& kept = *static_cast<std::vector<std::string>*>(messages);
  if (kept.size() < most_messages) kept.emplace_back(message);
}

/// While it lives, libsmf speaks into `messages` instead of standard error, and to nobody else.
class LibraryVoice {
 public:
  explicit LibraryVoice(std::vector<std::string>& messages) : lock_(mutex()) {
    // G_DEBUG=fatal-criticals in somebody's environment must not end the program.
    before_ = g_log_set_always_fatal(G_LOG_LEVEL_ERROR);
    constexpr auto all = static_cast<GLogLevelFlags>(G_LOG_LEVEL_MASK | G_LOG_FLAG_FATAL | G_LOG_FLAG_RECURSION);
    handler_ = g_log_set_handler("libsmf", all, keep_message, &messages);
  }
  ~LibraryVoice() {
    g_log_remove_handler("libsmf", handler_);
    g_log_set_always_fatal(before_);
  }
  LibraryVoice(const LibraryVoice&) = delete;
  LibraryVoice& operator=(const LibraryVoice&) = delete;
  LibraryVoice(LibraryVoice&&) = delete;
  LibraryVoice& operator=(LibraryVoice&&) = delete;

 private:
  static std::mutex& mutex() {
    static std::mutex one_at_a_time;
    return one_at_a_time;
  }
  std::lock_guard<std::mutex> lock_;
  GLogLevelFlags before_{};
  guint handler_ = 0;
};

/// A file of its own that is gone when this ends: libsmf can only save by name.
class TemporaryFile {
 public:
  TemporaryFile() : name_((std::filesystem::temp_directory_path() / "insideline-XXXXXX").string()) {
    const int handle = mkstemp(name_.data());
    if (handle < 0) throw std::runtime_error("no temporary file can be made in " + name_);
    close(handle);
  }
  ~TemporaryFile() {
    std::error_code ignored;
    std::filesystem::remove(name_, ignored);
  }
  TemporaryFile(const TemporaryFile&) = delete;
  TemporaryFile& operator=(const TemporaryFile&) = delete;
  TemporaryFile(TemporaryFile&&) = delete;
  TemporaryFile& operator=(TemporaryFile&&) = delete;

  [[nodiscard]] const std::string& name() const { return name_; }
  [[nodiscard]] std::string bytes() const {
    std::ifstream stream(name_, std::ios::binary);
    return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
  }

 private:
  std::string name_;
};

std::runtime_error failure(const char* what, const std::vector<std::string>& messages) {
  return std::runtime_error(messages.empty() ? std::string(what) : what + (": " + messages.front()));
}

void add_track(smf_t& smf, const std::vector<OutgoingEvent>& events, std::uint32_t end_ticks) {
  smf_track_t* track = smf_track_new();
  smf_add_track(&smf, track);
  std::uint32_t last = 0;
  for (const OutgoingEvent& outgoing : events) {
    assert(outgoing.ticks >= last && "events are written in order of time");
    last = outgoing.ticks;
    std::string bytes = outgoing.bytes;
    smf_event_t* event = smf_event_new_from_pointer(bytes.data(), static_cast<int>(bytes.size()));
    if (event == nullptr) throw std::runtime_error("a MIDI event is malformed");
    smf_track_add_event_pulses(track, event, static_cast<int>(outgoing.ticks));
  }
  if (smf_track_add_eot_pulses(track, static_cast<int>(std::max(last, end_ticks))) != 0)
    throw std::runtime_error("a MIDI track cannot be closed");
}

}  // namespace

std::string save_smf(const OutgoingSmf& outgoing) {
  std::vector<std::string> messages;
  const TemporaryFile file;
  {
    const LibraryVoice voice(messages);
    const SmfPtr smf(smf_new());
    if (smf == nullptr || smf_set_ppqn(smf.get(), static_cast<int>(outgoing.ticks_per_quarter)) != 0)
      throw failure("the MIDI library cannot start a file", messages);
    for (const auto& events : outgoing.tracks) add_track(*smf, events, outgoing.end_ticks);
    if (smf_save(smf.get(), file.name().c_str()) != 0) throw failure("the MIDI library cannot save the file", messages);
  }
  std::string bytes = file.bytes();
  if (bytes.empty()) throw failure("the MIDI file cannot be read back", messages);
  return bytes;
}

}  // namespace insideline::io
