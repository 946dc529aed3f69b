# For the tests of the checks: plants faults in a copy of the tree and expects the check to name them.
# COPY is the folder of the copy; `check_command` is set by the including script.

# Copies the named entries of the tree and makes sure that the copy passes.
function(copy_tree)
  file(REMOVE_RECURSE "${COPY}")
  foreach(entry IN LISTS ARGN)
    file(COPY "${ROOT}/${entry}" DESTINATION "${COPY}")
  endforeach()
  run_check(status output)
  if(NOT status EQUAL 0)
    message(FATAL_ERROR "the copy without a fault does not pass:\n${output}")
  endif()
endfunction()

function(run_check status_out output_out)
  execute_process(COMMAND ${check_command} RESULT_VARIABLE status OUTPUT_VARIABLE output ERROR_VARIABLE output)
  string(REGEX REPLACE "[ \n]+" " " output "${output}")
  set(${status_out} "${status}" PARENT_SCOPE)
  set(${output_out} "${output}" PARENT_SCOPE)
endfunction()

function(expect_fault expected)
  run_check(status output)
  string(FIND "${output}" "${expected}" place)
  if(status EQUAL 0)
    message(SEND_ERROR "the check did not notice: ${expected}")
  elseif(place EQUAL -1)
    message(SEND_ERROR "the check failed, but not with \"${expected}\":\n${output}")
  endif()
endfunction()

# A new file of one line.
function(plant file line expected)
  file(WRITE "${COPY}/${file}" "${line}\n")
  expect_fault("${expected}")
  file(REMOVE "${COPY}/${file}")
endfunction()

# A file of the copy with `pattern` replaced in it.
function(change file pattern replacement expected)
  file(READ "${COPY}/${file}" original)
  string(REGEX REPLACE "${pattern}" "${replacement}" changed "${original}")
  if(changed STREQUAL original)
    message(SEND_ERROR "nothing to change in ${file}: ${pattern}")
    return()
  endif()
  file(WRITE "${COPY}/${file}" "${changed}")
  expect_fault("${expected}")
  file(WRITE "${COPY}/${file}" "${original}")
endfunction()

# The copy without a file.
function(drop file expected)
  file(READ "${COPY}/${file}" original)
  file(REMOVE "${COPY}/${file}")
  expect_fault("${expected}")
  file(WRITE "${COPY}/${file}" "${original}")
endfunction()
