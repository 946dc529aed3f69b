# Installs what was built into PREFIX, and looks whether everything is there that belongs there.
#
#   cmake -D BUILD=<build folder> -D PREFIX=<folder> -D LIBRARIES=<lib> -P install.cmake
cmake_minimum_required(VERSION 3.25)

file(REMOVE_RECURSE "${PREFIX}")
execute_process(COMMAND ${CMAKE_COMMAND} --install "${BUILD}" --prefix "${PREFIX}"
  RESULT_VARIABLE status OUTPUT_VARIABLE output ERROR_VARIABLE output)
if(NOT status EQUAL 0)
  message(FATAL_ERROR "cmake --install failed; is everything built?\n${output}")
endif()

foreach(file IN ITEMS
    bin/insideline
    ${LIBRARIES}/libinsideline_analyzer.a
    ${LIBRARIES}/libinsideline_io.a
    ${LIBRARIES}/libinsideline_reports.a
    ${LIBRARIES}/cmake/insideline/insideline-config.cmake
    ${LIBRARIES}/cmake/insideline/insideline-config-version.cmake
    ${LIBRARIES}/cmake/insideline/insideline-targets.cmake
    include/insideline/analyzer/analysis.hpp
    include/insideline/io/read_solo.hpp
    include/insideline/reports/text_report.hpp
    share/bash-completion/completions/insideline
    share/zsh/vendor-completions/_insideline
    share/fish/vendor_completions.d/insideline.fish
    share/insideline/analysis.schema.json
    share/insideline/assessment.schema.json
    share/insideline/comparison.schema.json
    share/insideline/practice_log.schema.json
    share/doc/insideline/README.md
    share/doc/insideline/copyright
    share/doc/insideline/changelog.gz
    share/doc/insideline/changelog.Debian.gz
    share/doc/insideline/examples/corpus-demo/lantern-street.musicxml
    share/doc/insideline/examples/survey-array.sbatch
    share/doc/libinsideline-dev/copyright
    share/doc/libinsideline-dev/examples/chord_tones.cpp
    share/man/man1/insideline.1.gz)
  if(NOT EXISTS "${PREFIX}/${file}")
    message(SEND_ERROR "not installed: ${file}")
  endif()
endforeach()
