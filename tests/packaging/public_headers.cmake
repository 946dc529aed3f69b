# Fails where an installed header needs more than the headers installed with it and those of the C++ library: by what it
# includes, and by compiling each alone.
#
#   cmake -D HEADERS=<folder> -D CXX=<compiler> -D WORK=<folder> -P public_headers.cmake
cmake_minimum_required(VERSION 3.25)

file(GLOB_RECURSE headers RELATIVE "${HEADERS}" "${HEADERS}/*.hpp")
if(NOT headers)
  message(FATAL_ERROR "public headers: none found in ${HEADERS}")
endif()

# A header that is the very first include of another is compiled alone by that one.
set(proven "")
foreach(header IN LISTS headers)
  file(READ "${HEADERS}/${header}" text)
  if(text MATCHES "^((//[^\n]*|#pragma once)?\n)*#include \"([^\"]+)\"")
    list(APPEND proven "${CMAKE_MATCH_3}")
  endif()
endforeach()

set(all "")
foreach(header IN LISTS headers)
  file(STRINGS "${HEADERS}/${header}" lines REGEX "^[ \t]*#[ \t]*include")
  foreach(line IN LISTS lines)
    if(line MATCHES "include[ \t]*<([^>]+)>")
      set(target "${CMAKE_MATCH_1}")
      # The C++ library's headers have neither a folder nor an ending; all others have one of them.
      if(NOT target MATCHES "^[a-z_0-9]+$")
        message(SEND_ERROR "public headers: ${header} includes <${target}>, which is not of the C++ library")
      endif()
    elseif(line MATCHES "include[ \t]*\"([^\"]+)\"")
      if(NOT EXISTS "${HEADERS}/${CMAKE_MATCH_1}")
        message(SEND_ERROR "public headers: ${header} includes \"${CMAKE_MATCH_1}\", which is not installed")
      endif()
    else()
      message(SEND_ERROR "public headers: ${header} has an include that cannot be read: ${line}")
    endif()
  endforeach()
  if(header IN_LIST proven)
    continue()
  endif()
  string(MAKE_C_IDENTIFIER "${header}" name)
  file(WRITE "${WORK}/${name}.cpp" "#include \"${header}\"\n")
  list(APPEND all "${WORK}/${name}.cpp")
endforeach()

execute_process(COMMAND "${CXX}" -std=c++20 -fsyntax-only -Wall -Wextra -I "${HEADERS}" ${all}
  RESULT_VARIABLE status ERROR_VARIABLE output)
if(NOT status EQUAL 0 OR output)
  message(SEND_ERROR "public headers: one does not compile alone:\n${output}")
endif()
file(REMOVE_RECURSE "${WORK}")
