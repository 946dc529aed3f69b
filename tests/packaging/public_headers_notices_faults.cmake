# Plants headers that ask their user for too much, beside a good one, and expects the check to name each of them.
cmake_minimum_required(VERSION 3.25)

function(run_check)
  execute_process(COMMAND "${CMAKE_COMMAND}" -D "HEADERS=${COPY}" -D "CXX=${CXX}" -D "WORK=${COPY}-work"
    -P "${CMAKE_CURRENT_LIST_DIR}/public_headers.cmake" RESULT_VARIABLE status OUTPUT_VARIABLE output ERROR_VARIABLE output)
  string(REGEX REPLACE "[ \n]+" " " output "${output}")
  set(status "${status}" PARENT_SCOPE)
  set(output "${output}" PARENT_SCOPE)
endfunction()

file(REMOVE_RECURSE "${COPY}")
file(COPY "${HEADERS}/analyzer/model/beats.hpp" DESTINATION "${COPY}/analyzer/model")
run_check()
if(NOT status EQUAL 0)
  message(FATAL_ERROR "the header without a fault does not pass:\n${output}")
endif()

file(WRITE "${COPY}/a.hpp" "#include <tl/expected.hpp>\n")
file(WRITE "${COPY}/b.hpp" "#include <pugixml.hpp>\n")
file(WRITE "${COPY}/c.hpp" "#include \"analyzer/model/pitch.hpp\"\n")
file(WRITE "${COPY}/d.hpp" "std::string planted();\n")
run_check()
foreach(expected IN ITEMS
    "a.hpp includes <tl/expected.hpp>, which is not of the C++ library"
    "b.hpp includes <pugixml.hpp>, which is not of the C++ library"
    "c.hpp includes \"analyzer/model/pitch.hpp\", which is not installed"
    "d.hpp:1:"
    "one does not compile alone")
  string(FIND "${output}" "${expected}" place)
  if(place EQUAL -1)
    message(SEND_ERROR "the check did not say: ${expected}\n${output}")
  endif()
endforeach()
if(status EQUAL 0)
  message(SEND_ERROR "the check passes with four faults")
endif()
file(REMOVE_RECURSE "${COPY}" "${COPY}-work")
