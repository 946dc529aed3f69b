# The unit tests over layers that the address and undefined-behaviour sanitizers watch: `sanitized_tests`, for clang, built
# by .ci/run. Only the layers are compiled once more; the tests are those of the ordinary programs, already compiled. The
# layers stand first where they are linked, so that of what both have the watched one is taken.
set(sanitizers -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer)
# Undefined behaviour ends a test without a word, which is a sixth less to compile; the `sanitize` preset then says which.
set(unsaid -fsanitize-trap=undefined)
add_custom_target(sanitized_tests)

# insideline_sanitize(LAYER [KNOWN...]): LAYER compiled with the sanitizers, and its tests over it and the layers it knows.
function(insideline_sanitize layer)
  set(plain insideline_${layer})
  set(watched ${layer}_sanitized)
  get_target_property(folder ${plain} SOURCE_DIR)
  get_target_property(sources ${plain} SOURCES)
  list(TRANSFORM sources PREPEND ${folder}/ REGEX "^[^/]")
  add_library(${watched} OBJECT EXCLUDE_FROM_ALL ${sources})
  target_compile_options(${watched} PRIVATE ${sanitizers} ${unsaid})
  target_compile_definitions(${watched} PRIVATE $<TARGET_PROPERTY:${plain},COMPILE_DEFINITIONS>)
  target_include_directories(${watched} PRIVATE $<TARGET_PROPERTY:${plain},INCLUDE_DIRECTORIES>)
  get_target_property(libraries ${plain} LINK_LIBRARIES)
  target_link_libraries(${watched} PRIVATE ${libraries})
  if(ARGN)
    insideline_share_headers(analyzer_sanitized ${watched})
  else()
    target_precompile_headers(${watched} PRIVATE ${insideline_heavy_headers})
  endif()
  insideline_build_by_folder(${watched})
  add_dependencies(${watched} ${plain})  # for the sources that are written while it is built

  list(TRANSFORM ARGN REPLACE "(.+)" "$<TARGET_OBJECTS:\\1_sanitized>" OUTPUT_VARIABLE known)
  add_executable(${watched}_tests EXCLUDE_FROM_ALL
    $<TARGET_OBJECTS:${watched}> ${known} $<TARGET_OBJECTS:${layer}_tests>)
  get_target_property(libraries ${layer}_tests LINK_LIBRARIES)
  target_link_libraries(${watched}_tests PRIVATE ${libraries})
  target_link_options(${watched}_tests PRIVATE ${sanitizers})
  add_dependencies(sanitized_tests ${watched}_tests)
endfunction()

insideline_sanitize(analyzer)
insideline_sanitize(io analyzer)
insideline_sanitize(reports analyzer)
