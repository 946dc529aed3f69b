# `cpack` makes two Debian packages: `insideline` for who plays and teaches, `libinsideline-dev` for who writes programs.
# In one package every user of the program would get compilers' headers and five development packages with it.
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME insideline)
set(CPACK_PACKAGE_VERSION ${PROJECT_VERSION})
set(CPACK_PACKAGE_CONTACT "insideline developers <insideline@example.org>")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS
  OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
set(CPACK_COMPONENTS_ALL program development)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_RELEASE 1)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)

set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME insideline)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SECTION sound)
# libzip and libsndfile are loaded by name when the first compressed score or recording comes, so nothing in the program
# tells of them.
set(CPACK_DEBIAN_PROGRAM_PACKAGE_DEPENDS libzip4)
if(INSIDELINE_RECORDINGS)
  string(APPEND CPACK_DEBIAN_PROGRAM_PACKAGE_DEPENDS ", libsndfile1")
endif()
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_RECOMMENDS "lilypond, fluidsynth, fluid-soundfont-gm | timgm6mb-soundfont")
set(CPACK_DEBIAN_PROGRAM_DESCRIPTION "takes an improvised solo apart
insideline reads a transcribed solo and its chord changes, labels every note
against the chord it is heard against, finds arpeggios and how the line gets
from one chord to the next, and says all that in words and figures. It prints
the solo for a class, sets it beside another or among a whole collection,
makes practice sheets, and tells how well a recorded take has them in the
fingers.

LilyPond engraves the printed pages; FluidSynth plays the MIDI files.")

set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME libinsideline-dev)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS
  "libfmt-dev, libpugixml-dev, libsndfile1, libsqlite3-dev, libzip4, pkg-config")
set(CPACK_DEBIAN_DEVELOPMENT_DESCRIPTION "analysis of improvised solos, for C++ programs
The libraries of insideline with their public headers and a CMake package:
reading a solo from MusicXML or MIDI, its analysis, and the reports.")
include(CPack)
