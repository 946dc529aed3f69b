# What `cmake --install` puts where: GNU's folders, and inside them the places that Debian's policy names. Two components:
#   program      the program with its manual, completions, schemas, demo pieces and the script for Slurm
#   development  the libraries with their public headers and the CMake package `insideline`
include(GNUInstallDirs)
include(CMakePackageConfigHelpers)

set(packaging ${PROJECT_SOURCE_DIR}/scripts/packaging)
set(documents ${CMAKE_INSTALL_DATAROOTDIR}/doc)
add_subdirectory(cli/manual)

install(TARGETS insideline RUNTIME COMPONENT program)
get_target_property(pages manual PAGES)
install(FILES ${pages} DESTINATION ${CMAKE_INSTALL_MANDIR}/man1 COMPONENT program)
install(FILES ${PROJECT_BINARY_DIR}/manual/insideline.bash RENAME insideline
  DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions COMPONENT program)
install(FILES ${PROJECT_BINARY_DIR}/manual/_insideline
  DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions COMPONENT program)
install(FILES ${PROJECT_BINARY_DIR}/manual/insideline.fish
  DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d COMPONENT program)
install(FILES reports/analysis.schema.json reports/assessment.schema.json reports/comparison.schema.json
  reports/practice_log.schema.json
  DESTINATION ${CMAKE_INSTALL_DATADIR}/insideline COMPONENT program)
install(FILES README.md DESTINATION ${documents}/insideline COMPONENT program)
install(DIRECTORY corpus-demo DESTINATION ${documents}/insideline/examples COMPONENT program)
install(PROGRAMS scripts/survey-array.sbatch DESTINATION ${documents}/insideline/examples COMPONENT program)

# The headers that somebody needs who reads solos, analyses them and writes the results. What these include is a part of
# the list; practice sheets, the collection and everything else inside may change without notice.
target_sources(insideline_analyzer PUBLIC FILE_SET HEADERS BASE_DIRS ${PROJECT_SOURCE_DIR} FILES
  ${PROJECT_SOURCE_DIR}/analyzer/alignment.hpp
  ${PROJECT_SOURCE_DIR}/analyzer/alignment_doctor.hpp
  ${PROJECT_SOURCE_DIR}/analyzer/bar_one.hpp
  ${PROJECT_SOURCE_DIR}/analyzer/drills/instruments.hpp
  ${PROJECT_SOURCE_DIR}/analyzer/analysis.hpp
  ${PROJECT_SOURCE_DIR}/analyzer/heard_line.hpp
  ${PROJECT_SOURCE_DIR}/analyzer/phrases.hpp
  ${PROJECT_SOURCE_DIR}/analyzer/pin.hpp
  ${PROJECT_SOURCE_DIR}/analyzer/section.hpp
  ${PROJECT_SOURCE_DIR}/analyzer/settings.hpp
  ${PROJECT_SOURCE_DIR}/analyzer/spelling.hpp
  ${PROJECT_SOURCE_DIR}/analyzer/harmony/chord_symbol.hpp
  ${PROJECT_SOURCE_DIR}/analyzer/harmony/tensions.hpp
  ${PROJECT_SOURCE_DIR}/analyzer/measures/bar_amounts.hpp
  ${PROJECT_SOURCE_DIR}/analyzer/measures/block_bootstrap.hpp
  ${PROJECT_SOURCE_DIR}/analyzer/measures/comparison.hpp
  ${PROJECT_SOURCE_DIR}/analyzer/measures/figure_table.hpp
  ${PROJECT_SOURCE_DIR}/analyzer/measures/proportion.hpp
  ${PROJECT_SOURCE_DIR}/analyzer/measures/results.hpp
  ${PROJECT_SOURCE_DIR}/analyzer/measures/rotation.hpp
  ${PROJECT_SOURCE_DIR}/analyzer/measures/time_feel.hpp
  ${PROJECT_SOURCE_DIR}/analyzer/model/beats.hpp
  ${PROJECT_SOURCE_DIR}/analyzer/model/changes.hpp
  ${PROJECT_SOURCE_DIR}/analyzer/model/chord.hpp
  ${PROJECT_SOURCE_DIR}/analyzer/model/pitch.hpp
  ${PROJECT_SOURCE_DIR}/analyzer/model/solo.hpp
  ${PROJECT_SOURCE_DIR}/analyzer/patterns/results.hpp)
target_sources(insideline_io PUBLIC FILE_SET HEADERS BASE_DIRS ${PROJECT_SOURCE_DIR} FILES
  ${PROJECT_SOURCE_DIR}/io/changes/changes_file.hpp
  ${PROJECT_SOURCE_DIR}/io/hearing/hearing_file.hpp
  ${PROJECT_SOURCE_DIR}/io/midi/beat_cells.hpp
  ${PROJECT_SOURCE_DIR}/io/midi/beats_file.hpp
  ${PROJECT_SOURCE_DIR}/io/midi/smf_fault.hpp
  ${PROJECT_SOURCE_DIR}/io/midi/subdivisions.hpp
  ${PROJECT_SOURCE_DIR}/io/read_result.hpp
  ${PROJECT_SOURCE_DIR}/io/read_solo.hpp
  ${PROJECT_SOURCE_DIR}/io/source_text.hpp)
target_sources(insideline_reports PUBLIC FILE_SET HEADERS BASE_DIRS ${PROJECT_SOURCE_DIR} FILES
  ${PROJECT_SOURCE_DIR}/reports/csv_report.hpp
  ${PROJECT_SOURCE_DIR}/reports/from_sound.hpp
  ${PROJECT_SOURCE_DIR}/reports/hearing_text.hpp
  ${PROJECT_SOURCE_DIR}/reports/html/html_report.hpp
  ${PROJECT_SOURCE_DIR}/reports/json_report.hpp
  ${PROJECT_SOURCE_DIR}/reports/report.hpp
  ${PROJECT_SOURCE_DIR}/reports/text/ink.hpp
  ${PROJECT_SOURCE_DIR}/reports/text/length.hpp
  ${PROJECT_SOURCE_DIR}/reports/text_report.hpp)

# Libraries that are headers only, and our own compiler options, are of no concern to who links with the archives.
foreach(layer IN ITEMS analyzer io reports)
  set(library insideline_${layer})
  get_target_property(links ${library} INTERFACE_LINK_LIBRARIES)
  list(TRANSFORM links REPLACE "^(.*(insideline_options|tl::expected|Eigen3::Eigen|nlohmann_json::nlohmann_json).*)$"
    "$<BUILD_INTERFACE:\\1>")
  set_target_properties(${library} PROPERTIES INTERFACE_LINK_LIBRARIES "${links}" EXPORT_NAME ${layer})
  target_compile_features(${library} INTERFACE cxx_std_20)
  install(TARGETS ${library} EXPORT insideline-targets
    ARCHIVE COMPONENT development
    FILE_SET HEADERS DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}/insideline COMPONENT development)
endforeach()

set(cmake_package ${CMAKE_INSTALL_LIBDIR}/cmake/insideline)
configure_package_config_file(${packaging}/insideline-config.cmake.in ${PROJECT_BINARY_DIR}/insideline-config.cmake
  INSTALL_DESTINATION ${cmake_package} NO_SET_AND_CHECK_MACRO NO_CHECK_REQUIRED_COMPONENTS_MACRO)
write_basic_package_version_file(${PROJECT_BINARY_DIR}/insideline-config-version.cmake COMPATIBILITY SameMinorVersion)
install(EXPORT insideline-targets NAMESPACE insideline:: DESTINATION ${cmake_package} COMPONENT development)
install(FILES ${PROJECT_BINARY_DIR}/insideline-config.cmake ${PROJECT_BINARY_DIR}/insideline-config-version.cmake
  DESTINATION ${cmake_package} COMPONENT development)
install(FILES tests/packaging/library_example/CMakeLists.txt tests/packaging/library_example/chord_tones.cpp
  DESTINATION ${documents}/libinsideline-dev/examples COMPONENT development)

# What every Debian package must have: who may do what with it, and what changed.
set(changes ${PROJECT_BINARY_DIR}/changes)
file(MAKE_DIRECTORY ${changes})
add_custom_command(OUTPUT ${changes}/changelog.gz ${changes}/changelog.Debian.gz
  COMMAND ${CMAKE_COMMAND} -E copy ${PROJECT_SOURCE_DIR}/CHANGELOG.md ${changes}/changelog
  COMMAND ${CMAKE_COMMAND} -E copy ${packaging}/changelog.Debian ${changes}/changelog.Debian
  COMMAND ${INSIDELINE_GZIP} -9 --no-name --force ${changes}/changelog ${changes}/changelog.Debian
  DEPENDS CHANGELOG.md ${packaging}/changelog.Debian VERBATIM)
add_custom_target(changelogs ALL DEPENDS ${changes}/changelog.gz ${changes}/changelog.Debian.gz)
foreach(package_of IN ITEMS "program=insideline" "development=libinsideline-dev")
  string(REGEX MATCH "^(.*)=(.*)$" ignored "${package_of}")
  set(component ${CMAKE_MATCH_1})
  set(package ${CMAKE_MATCH_2})
  install(FILES ${packaging}/copyright ${changes}/changelog.gz ${changes}/changelog.Debian.gz
    DESTINATION ${documents}/${package} COMPONENT ${component})
  install(FILES ${packaging}/${package}.lintian-overrides RENAME ${package}
    DESTINATION ${CMAKE_INSTALL_DATADIR}/lintian/overrides COMPONENT ${component})
endforeach()
