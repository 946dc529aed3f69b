# Fails where a file of the tree breaks a rule that a reader of one file cannot see broken: a path of somebody's
# machine, the name of a package registry, a header without its guard, a file that should have been split.
#
#   cmake -D ROOT=<the tree> -P house_rules.cmake
cmake_minimum_required(VERSION 3.25)

set(lines_allowed 400)
# Sourced tables may be longer: they are read by the row.
set(may_be_longer "^analyzer/harmony/chord_kinds\\.cpp$")

function(fault text)
  message(SEND_ERROR "house rules: ${text}")
endfunction()

function(forbid file pattern reason)
  file(STRINGS "${ROOT}/${file}" lines REGEX "${pattern}" ENCODING UTF-8)
  list(FILTER lines EXCLUDE REGEX "^[ \t]*using namespace std::[a-z_]*literals;$")  # literals name no one else's things
  list(LENGTH lines count)
  if(count GREATER 0)
    list(GET lines 0 first)
    fault("${file} ${reason}: ${first}")
  endif()
endfunction()

# All text of the tree: what a fresh clone holds, so not the build folders.
file(GLOB top LIST_DIRECTORIES true RELATIVE "${ROOT}" "${ROOT}/*" "${ROOT}/.*")
list(REMOVE_ITEM top .git build node_modules .cache . ..)
set(files)
foreach(entry IN LISTS top)
  if(IS_DIRECTORY "${ROOT}/${entry}")
    file(GLOB_RECURSE below RELATIVE "${ROOT}" "${ROOT}/${entry}/*")
    list(APPEND files ${below})
  else()
    list(APPEND files "${entry}")
  endif()
endforeach()
# Data, seeds and inputs that broke a parser are read, too, and of files that are no text the text in them. What is
# compressed shows nothing.
list(FILTER files EXCLUDE REGEX "\\.(mxl|png|pdf)$")
if(NOT files)
  fault("no file found in ${ROOT}")
endif()

# A letter stands in brackets so that this file does not find itself.
foreach(file IN LISTS files)
  forbid("${file}" "(^|[^A-Za-z0-9_.~-])/([h]ome|[r]oot|[w]ork|[U]sers)/" "names a place on somebody's machine")
  forbid("${file}" "[r]egistry\\.[a-z]|[n]pmjs\\.|[d]eb\\.debian\\.org" "names a package registry")
  forbid("${file}" "[T]ODO|[F]IXME" "has a note to finish something")
endforeach()

set(sources ${files})
list(FILTER sources INCLUDE REGEX "\\.(cpp|hpp)$")
foreach(file IN LISTS sources)
  forbid("${file}" "^[ \t]*[u]sing namespace" "opens a whole namespace")
  forbid("${file}" "[s]td::(views|format|expected)[^_a-z]" "uses what one of our compilers cannot")
  forbid("${file}" "[ \t]+$|\t" "has a tab or blanks at the end of a line")
  file(READ "${ROOT}/${file}" text)
  string(REGEX MATCHALL "\n" ends "${text}")
  list(LENGTH ends line_count)
  if(line_count GREATER lines_allowed AND NOT file MATCHES "${may_be_longer}")
    fault("${file} has ${line_count} lines; a file is split at ${lines_allowed}")
  endif()
  if(file MATCHES "\\.hpp$" AND NOT text MATCHES "(^|\n)#pragma once\n")
    fault("${file} has no #pragma once")
  endif()
  if(file MATCHES "^(analyzer|io|reports|cli)/.*\\.hpp$" AND NOT text MATCHES "^// ")
    fault("${file} does not begin by saying what it is")
  endif()
endforeach()

# Only what DEVELOPERS.md explains stands at the top.
set(top_allowed analyzer io reports cli browser tests corpus-demo scripts benchmarks
  CMakeLists.txt CMakePresets.json README.md DEVELOPERS.md CHANGELOG.md LICENSE
  .ci .clang-format .clang-tidy .editorconfig .gitignore .gitattributes compile_commands.json)
foreach(entry IN LISTS top)
  if(NOT entry IN_LIST top_allowed)
    fault("${entry} stands at the top of the tree without a reason in DEVELOPERS.md")
  endif()
endforeach()
