# For the tests of the checks: plants faults in a copy of the tree and expects the check to name each of them.
# The faults are planted together and the check runs once over them, as it takes seconds.
# COPY is the folder of the copy; `check_command` is set by the including script.

set(planted 0)
set(expected_faults)

# Copies the named entries of the tree and makes sure that the copy passes.
function(copy_tree)
  file(REMOVE_RECURSE "${COPY}")
  foreach(entry IN LISTS ARGN)
    file(COPY "${ROOT}/${entry}" DESTINATION "${COPY}")
  endforeach()
  execute_process(COMMAND ${check_command} RESULT_VARIABLE status OUTPUT_VARIABLE output ERROR_VARIABLE output)
  if(NOT status EQUAL 0)
    message(FATAL_ERROR "the copy without a fault does not pass:\n${output}")
  endif()
endfunction()

# One complaint of the check must have both texts in it.
macro(expect_fault place text)
  string(MAKE_C_IDENTIFIER "fault_${planted}" fault)
  math(EXPR planted "${planted} + 1")
  set(${fault}_place "${place}")
  set(${fault}_text "${text}")
  list(APPEND expected_faults ${fault})
endmacro()

# A new file of one line. "planted" in it gets a letter of its own, also where the complaint names it.
macro(plant file line expected)
  string(SUBSTRING "abcdefghijklmnopqrstuvwxyz" ${planted} 1 letter)
  string(REPLACE "planted" "planted${letter}" new_file "${file}")
  string(REPLACE "planted" "planted${letter}" new_line "${line}")
  string(REPLACE "planted" "planted${letter}" new_expected "${expected}")
  file(WRITE "${COPY}/${new_file}" "${new_line}\n")
  cmake_path(GET new_file STEM new_name)
  string(REGEX REPLACE "_(command|test|fuzz)$" "" new_name "${new_name}")
  expect_fault("${new_name}" "${new_expected}")
endmacro()

# A file of the copy with `pattern` replaced in it.
macro(change file pattern replacement expected)
  file(READ "${COPY}/${file}" original)
  string(REGEX REPLACE "${pattern}" "${replacement}" changed "${original}")
  if("${changed}" STREQUAL "${original}")
    message(SEND_ERROR "nothing to change in ${file}: ${pattern}")
  endif()
  file(WRITE "${COPY}/${file}" "${changed}")
  expect_fault("" "${expected}")
endmacro()

# The copy without a file.
macro(drop file expected)
  file(REMOVE "${COPY}/${file}")
  expect_fault("" "${expected}")
endmacro()

# Runs the check and compares: every fault named, in a complaint of its own.
function(expect_all_faults)
  execute_process(COMMAND ${check_command} RESULT_VARIABLE status OUTPUT_VARIABLE output ERROR_VARIABLE output)
  if(status EQUAL 0)
    message(FATAL_ERROR "the check passes a tree full of faults")
  endif()
  string(REGEX REPLACE "[][;]" "_" output "${output}")  # these three mean something in a list
  string(REGEX REPLACE "[ \n]+" " " output "${output}")
  string(REPLACE "CMake Error at" ";" complaints "${output}")
  foreach(fault IN LISTS expected_faults)
    string(REGEX REPLACE "[][;]" "_" text "${${fault}_text}")
    set(named FALSE)
    foreach(complaint IN LISTS complaints)
      string(FIND "${complaint}" "${${fault}_place}" has_place)
      string(FIND "${complaint}" "${text}" has_text)
      if(NOT has_place EQUAL -1 AND NOT has_text EQUAL -1)
        set(named TRUE)
        list(REMOVE_ITEM complaints "${complaint}")
        break()
      endif()
    endforeach()
    if(NOT named)
      message(SEND_ERROR "the check did not notice: ${${fault}_place} ${${fault}_text}")
    endif()
  endforeach()
  file(REMOVE_RECURSE "${COPY}")
endfunction()
