# The libraries for the build for browsers, under the names that the other builds find them by. Those that are headers are
# Debian's own packages; zlib, libzip and pugixml are compiled from Debian's sources, which scripts/browser fetches into
# INSIDELINE_SOURCES. SQLite is left out, and with it what keeps a database (browser/module/left_out.cpp).
set(INSIDELINE_SOURCES ${PROJECT_SOURCE_DIR}/build/browser/sources CACHE PATH "Debian's sources of zlib, libzip and pugixml")

# Only these folders of /usr/include, as the others are for the machine that builds.
set(headers ${PROJECT_BINARY_DIR}/headers)
file(MAKE_DIRECTORY ${headers})
foreach(folder IN ITEMS CLI eigen3 fmt nlohmann tl)
  file(CREATE_LINK /usr/include/${folder} ${headers}/${folder} SYMBOLIC)
endforeach()
add_library(debian_headers INTERFACE)
target_include_directories(debian_headers SYSTEM INTERFACE ${headers} ${headers}/eigen3)
target_compile_definitions(debian_headers INTERFACE FMT_HEADER_ONLY)
foreach(name IN ITEMS fmt::fmt tl::expected Eigen3::Eigen nlohmann_json::nlohmann_json CLI11::CLI11)
  add_library(${name} ALIAS debian_headers)
endforeach()

enable_language(C)

set(zlib ${INSIDELINE_SOURCES}/zlib)
add_library(zlib STATIC
  ${zlib}/adler32.c ${zlib}/crc32.c ${zlib}/deflate.c ${zlib}/inffast.c ${zlib}/inflate.c ${zlib}/inftrees.c
  ${zlib}/trees.c ${zlib}/zutil.c)
target_include_directories(zlib PUBLIC ${zlib})
target_compile_options(zlib PRIVATE -w)

# Its own build tries out the compiler for minutes, and finds what stands here. Ciphers and other ways of packing are left out,
# as Debian's library with them would say that a score with them is none.
set(libzip ${INSIDELINE_SOURCES}/libzip/lib)
file(GLOB zip_sources ${libzip}/*.c)
list(FILTER zip_sources EXCLUDE REGEX "win32|uwp|_crypto_|winzip|bzip2|_xz|clonefile|stdio_named_|algorithm_zstd")
file(STRINGS ${libzip}/zip.h zip_errors REGEX "^#define ZIP_ER_[A-Z_]+ [0-9]+")
foreach(error IN LISTS zip_errors)
  string(REGEX MATCH "/[*] ([NSZ]) ([^*]+) [*]/" matched "${error}")
  string(APPEND zip_error_words "  \"${CMAKE_MATCH_2}\",\n")
  string(APPEND zip_error_kinds "  ZIP_ET_${CMAKE_MATCH_1},\n")
endforeach()
string(REGEX REPLACE "ZIP_ET_N," "ZIP_ET_NONE," zip_error_kinds "${zip_error_kinds}")
string(REGEX REPLACE "ZIP_ET_S," "ZIP_ET_SYS," zip_error_kinds "${zip_error_kinds}")
string(REGEX REPLACE "ZIP_ET_Z," "ZIP_ET_ZLIB," zip_error_kinds "${zip_error_kinds}")
file(CONFIGURE OUTPUT ${PROJECT_BINARY_DIR}/libzip/zip_err_str.c CONTENT [=[
#include "zipint.h"
const char *const _zip_err_str[] = {
@zip_error_words@};
const int _zip_nerr_str = sizeof(_zip_err_str) / sizeof(_zip_err_str[0]);
const int _zip_err_type[] = {
@zip_error_kinds@};
]=] @ONLY)
add_library(zip STATIC ${zip_sources} ${PROJECT_BINARY_DIR}/libzip/zip_err_str.c)
target_include_directories(zip PUBLIC ${libzip} ${PROJECT_SOURCE_DIR}/browser/module/libzip)
target_compile_definitions(zip PRIVATE HAVE_CONFIG_H)
target_compile_options(zip PRIVATE -w)
target_link_libraries(zip PRIVATE zlib)
set_target_properties(zlib PROPERTIES UNITY_BUILD OFF)
# emscripten takes seconds to start, so libzip is compiled as one, but for what defines the same things twice.
file(GLOB zip_alone ${libzip}/zip_source_file_*.c ${libzip}/zip_source_pkware_*.c)
set_source_files_properties(${zip_alone} PROPERTIES SKIP_UNITY_BUILD_INCLUSION ON)
set_target_properties(zip PROPERTIES UNITY_BUILD ON UNITY_BUILD_BATCH_SIZE 0)
set(LIBZIP_INCLUDE_DIRS ${libzip} ${PROJECT_SOURCE_DIR}/browser/module/libzip)  # as pkg-config says it

add_library(pugixml STATIC ${INSIDELINE_SOURCES}/pugixml/src/pugixml.cpp)
target_include_directories(pugixml SYSTEM PUBLIC ${INSIDELINE_SOURCES}/pugixml/src)
add_library(pugixml::pugixml ALIAS pugixml)

add_library(no_sqlite INTERFACE)
add_library(PkgConfig::SQLITE ALIAS no_sqlite)
