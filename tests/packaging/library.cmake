# Builds the example of the library as a project of its own, against what was installed, and compares what it says with
# what the installed program says of the same solo. README.md must show the example as it is.
#
#   cmake -D PREFIX=<folder> -D WORK=<folder> -D CXX=<compiler> -D GENERATOR=<name> -D ROOT=<the tree> -P library.cmake
cmake_minimum_required(VERSION 3.25)

set(example "${ROOT}/tests/packaging/library_example")
file(READ "${ROOT}/README.md" readme)
foreach(shown IN ITEMS chord_tones.cpp CMakeLists.txt)
  file(READ "${example}/${shown}" text)
  string(FIND "${readme}" "\n${text}```" place)
  if(place EQUAL -1)
    message(SEND_ERROR "README.md does not show ${shown} as it is in ${example}")
  endif()
endforeach()

function(run)
  execute_process(COMMAND ${ARGN} RESULT_VARIABLE status OUTPUT_VARIABLE output ERROR_VARIABLE complaint)
  if(NOT status EQUAL 0)
    message(FATAL_ERROR "failed: ${ARGN}\n${output}${complaint}")
  endif()
  set(output "${output}" PARENT_SCOPE)
endfunction()

file(REMOVE_RECURSE "${WORK}")
run("${CMAKE_COMMAND}" -S "${example}" -B "${WORK}" -G "${GENERATOR}" "-DCMAKE_CXX_COMPILER=${CXX}"
  "-DCMAKE_PREFIX_PATH=${PREFIX}" -DCMAKE_FIND_PACKAGE_NO_PACKAGE_REGISTRY=ON)
run("${CMAKE_COMMAND}" --build "${WORK}")

set(solo "${PREFIX}/share/doc/insideline/examples/corpus-demo/ropewalk.musicxml")
run("${WORK}/chord_tones" "${solo}")
string(STRIP "${output}" by_library)
run("${PREFIX}/bin/insideline" analyze "${solo}" --json -)
string(JSON chord_tones GET "${output}" summary chord_tones)
string(JSON notes GET "${output}" summary notes)
if(NOT by_library STREQUAL "${chord_tones} of ${notes} notes are chord tones")
  message(SEND_ERROR "the library says \"${by_library}\", the program ${chord_tones} of ${notes}")
endif()
