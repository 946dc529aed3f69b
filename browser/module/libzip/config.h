/* What libzip asks of a system, answered for emscripten. */
#pragma once
#include "zipconf.h"

#define HAVE_FILENO
#define HAVE_FSEEKO
#define HAVE_FTELLO
#define HAVE_LOCALTIME_R
#define HAVE_SNPRINTF
#define HAVE_STDBOOL_H
#define HAVE_STRCASECMP
#define HAVE_STRDUP
#define HAVE_STRINGS_H
#define HAVE_STRTOLL
#define HAVE_STRTOULL
#define HAVE_UNISTD_H
#define SIZEOF_OFF_T 8
#define SIZEOF_SIZE_T 4
#define PACKAGE "libzip"
#define VERSION LIBZIP_VERSION
