#include "io/musicxml/libzip_on_demand.hpp"

#include "io/read_result.hpp"

#include <dlfcn.h>
#include <fmt/format.h>
#include <zip.h>

#include <stdexcept>

namespace insideline::io {
namespace {

/// The library itself, loaded once and never let go; null where it is not to be had.
void* libzip() {
  static void* const library = ::dlopen(INSIDELINE_LIBZIP, RTLD_NOW | RTLD_LOCAL);
  return library;
}

/// The function of that name. libzip's own interface is stable under the name of its file.
template <typename Function>
Function* in_libzip(const char* name) {
  void* const found = libzip() == nullptr ? nullptr : ::dlsym(libzip(), name);
  if (found == nullptr) throw std::logic_error(fmt::format("{} has no {}", INSIDELINE_LIBZIP, name));
  return reinterpret_cast<Function*>(found);  // NOLINT(cppcoreguidelines-pro-type-reinterpret-cast): what dlsym is for
}

}  // namespace

void load_libzip(std::string_view file_name) {
  if (libzip() == nullptr)
    throw ReadError(place_of(file_name), "compressed scores need the library " INSIDELINE_LIBZIP
                                         ", which is not installed; Debian has it in the package libzip4");
}

}  // namespace insideline::io

using insideline::io::in_libzip;

// NOLINTBEGIN(readability-identifier-naming): libzip's names
extern "C" {
int zip_close(zip_t* archive) { return in_libzip<decltype(zip_close)>("zip_close")(archive); }
void zip_discard(zip_t* archive) { return in_libzip<decltype(zip_discard)>("zip_discard")(archive); }
void zip_error_fini(zip_error_t* error) { return in_libzip<decltype(zip_error_fini)>("zip_error_fini")(error); }
void zip_error_init(zip_error_t* error) { return in_libzip<decltype(zip_error_init)>("zip_error_init")(error); }
const char* zip_error_strerror(zip_error_t* error) {
  return in_libzip<decltype(zip_error_strerror)>("zip_error_strerror")(error);
}
int zip_fclose(zip_file_t* file) { return in_libzip<decltype(zip_fclose)>("zip_fclose")(file); }
zip_int64_t zip_file_add(zip_t* archive, const char* name, zip_source_t* source, zip_flags_t flags) {
  return in_libzip<decltype(zip_file_add)>("zip_file_add")(archive, name, source, flags);
}
int zip_file_set_dostime(zip_t* archive, zip_uint64_t index, zip_uint16_t time, zip_uint16_t date, zip_flags_t flags) {
  return in_libzip<decltype(zip_file_set_dostime)>("zip_file_set_dostime")(archive, index, time, date, flags);
}
zip_file_t* zip_fopen_index(zip_t* archive, zip_uint64_t index, zip_flags_t flags) {
  return in_libzip<decltype(zip_fopen_index)>("zip_fopen_index")(archive, index, flags);
}
zip_int64_t zip_fread(zip_file_t* file, void* bytes, zip_uint64_t size) {
  return in_libzip<decltype(zip_fread)>("zip_fread")(file, bytes, size);
}
const char* zip_get_name(zip_t* archive, zip_uint64_t index, zip_flags_t flags) {
  return in_libzip<decltype(zip_get_name)>("zip_get_name")(archive, index, flags);
}
zip_int64_t zip_get_num_entries(zip_t* archive, zip_flags_t flags) {
  return in_libzip<decltype(zip_get_num_entries)>("zip_get_num_entries")(archive, flags);
}
zip_int64_t zip_name_locate(zip_t* archive, const char* name, zip_flags_t flags) {
  return in_libzip<decltype(zip_name_locate)>("zip_name_locate")(archive, name, flags);
}
zip_t* zip_open_from_source(zip_source_t* source, int flags, zip_error_t* error) {
  return in_libzip<decltype(zip_open_from_source)>("zip_open_from_source")(source, flags, error);
}
zip_source_t* zip_source_buffer(zip_t* archive, const void* bytes, zip_uint64_t size, int release) {
  return in_libzip<decltype(zip_source_buffer)>("zip_source_buffer")(archive, bytes, size, release);
}
zip_source_t* zip_source_buffer_create(const void* bytes, zip_uint64_t size, int release, zip_error_t* error) {
  return in_libzip<decltype(zip_source_buffer_create)>("zip_source_buffer_create")(bytes, size, release, error);
}
int zip_source_close(zip_source_t* source) { return in_libzip<decltype(zip_source_close)>("zip_source_close")(source); }
void zip_source_free(zip_source_t* source) { return in_libzip<decltype(zip_source_free)>("zip_source_free")(source); }
void zip_source_keep(zip_source_t* source) { return in_libzip<decltype(zip_source_keep)>("zip_source_keep")(source); }
int zip_source_open(zip_source_t* source) { return in_libzip<decltype(zip_source_open)>("zip_source_open")(source); }
zip_int64_t zip_source_read(zip_source_t* source, void* bytes, zip_uint64_t size) {
  return in_libzip<decltype(zip_source_read)>("zip_source_read")(source, bytes, size);
}
int zip_source_stat(zip_source_t* source, zip_stat_t* stat) {
  return in_libzip<decltype(zip_source_stat)>("zip_source_stat")(source, stat);
}
int zip_stat_index(zip_t* archive, zip_uint64_t index, zip_flags_t flags, zip_stat_t* stat) {
  return in_libzip<decltype(zip_stat_index)>("zip_stat_index")(archive, index, flags, stat);
}
void zip_stat_init(zip_stat_t* stat) { return in_libzip<decltype(zip_stat_init)>("zip_stat_init")(stat); }
}
// NOLINTEND(readability-identifier-naming)
