# Installs the packages of package-lock.json into INSTALLED, unless they are there already.
# A machine without node, npm or a network is told apart from a broken lock file: the first skips, the second fails.
cmake_minimum_required(VERSION 3.25)

set(reason_file "${INSTALLED}/missing.txt")

function(skip reason)
  file(WRITE "${reason_file}" "${reason}")
  message("skipped: npm packages are not installed: ${reason}")
endfunction()

file(MAKE_DIRECTORY "${INSTALLED}")
file(REMOVE "${reason_file}")

if(NOT NODE OR NOT NPM)
  skip("node or npm was not found when the build was configured")
  return()
endif()

file(SHA256 "${PACKAGES}/package-lock.json" wanted)
set(stamp "${INSTALLED}/installed.txt")
if(EXISTS "${stamp}")
  file(READ "${stamp}" present)
  if(present STREQUAL wanted)
    message("npm packages: already installed")
    return()
  endif()
endif()

file(REMOVE "${stamp}")
file(COPY "${PACKAGES}/package.json" "${PACKAGES}/package-lock.json" DESTINATION "${INSTALLED}")
execute_process(
  COMMAND "${NPM}" ci --ignore-scripts --no-audit --no-fund --prefer-offline --fetch-retries=1 --fetch-timeout=60000
  WORKING_DIRECTORY "${INSTALLED}" RESULT_VARIABLE status OUTPUT_VARIABLE output ERROR_VARIABLE output)
if(status EQUAL 0)
  file(WRITE "${stamp}" "${wanted}")
  message("npm packages: installed")
elseif(output MATCHES "(EAI_AGAIN|ENOTFOUND|ECONNREFUSED|ECONNRESET|ENETUNREACH|ETIMEDOUT|ERR_SOCKET_TIMEOUT|[A-Z_]*CERT[A-Z_]*)")
  skip("no package registry could be reached (${CMAKE_MATCH_1})")
else()
  message(FATAL_ERROR "npm ci failed:\n${output}")
endif()
