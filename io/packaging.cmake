# Installing, the exported package `tubewright` (target tubewright::solver), and Debian packages.
include(CMakePackageConfigHelpers)

# The program
# -----------
install(TARGETS tubewright RUNTIME COMPONENT program)
install(TARGETS tubewright_draw RUNTIME DESTINATION ${CMAKE_INSTALL_LIBEXECDIR}/tubewright
  COMPONENT program)
install(FILES ${PROJECT_BINARY_DIR}/tubewright.1 COMPONENT program
  DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)

# Shell completion, where bash-completion, zsh and fish look for it; Debian's zsh looks for what
# packages bring in a directory of its own.
set(completion_dir ${PROJECT_BINARY_DIR}/completion)
install(FILES ${completion_dir}/tubewright.bash COMPONENT program
  DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions RENAME tubewright)
foreach(zsh_dir site-functions vendor-completions)
  install(FILES ${completion_dir}/tubewright.zsh COMPONENT program
    DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/${zsh_dir} RENAME _tubewright)
endforeach()
install(FILES ${completion_dir}/tubewright.fish COMPONENT program
  DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d)

# Licence, README with its chapters, examples and pictures, as they stand in the tree, so that links
# between them hold.
set(doc_dir ${CMAKE_INSTALL_DATADIR}/doc)
install(FILES README.md CHANGELOG.md DEVELOPERS.md LICENSE COMPONENT program
  DESTINATION ${doc_dir}/tubewright)
install(DIRECTORY cases io solver viz COMPONENT program DESTINATION ${doc_dir}/tubewright
  FILES_MATCHING
  PATTERN "README.md" PATTERN "DATA.md" PATTERN "cases/0*.yaml" PATTERN "cases/vary_*.sh"
  PATTERN "cases/pictures/*"
  PATTERN "io/options/completion" EXCLUDE PATTERN "io/report/page" EXCLUDE)
install(FILES LICENSE COMPONENT program DESTINATION ${doc_dir}/tubewright RENAME copyright)
install(FILES LICENSE COMPONENT library DESTINATION ${doc_dir}/tubewright-dev RENAME copyright)

# The solver library, for other programs: find_package(tubewright), tubewright::solver
# ------------------------------------------------------------------------------------
set(package_dir ${CMAKE_INSTALL_LIBDIR}/cmake/tubewright)
install(TARGETS tubewright_solver EXPORT tubewright_targets ARCHIVE COMPONENT library)
install(DIRECTORY solver DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}/tubewright COMPONENT library
  FILES_MATCHING PATTERN "*.h")
install(EXPORT tubewright_targets FILE tubewright-targets.cmake NAMESPACE tubewright::
  DESTINATION ${package_dir} COMPONENT library)
configure_package_config_file(solver/tubewright-config.cmake.in
  ${PROJECT_BINARY_DIR}/tubewright-config.cmake INSTALL_DESTINATION ${package_dir})
write_basic_package_version_file(${PROJECT_BINARY_DIR}/tubewright-config-version.cmake
  COMPATIBILITY SameMinorVersion)
install(FILES
  ${PROJECT_BINARY_DIR}/tubewright-config.cmake
  ${PROJECT_BINARY_DIR}/tubewright-config-version.cmake
  solver/FindCHOLMOD.cmake
  DESTINATION ${package_dir} COMPONENT library)

# Debian packages: tubewright (the program), tubewright-dev (the library)
# -----------------------------------------------------------------------
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_CONTACT "the tubewright authors <tubewright@example.org>")
set(CPACK_RESOURCE_FILE_LICENSE ${PROJECT_SOURCE_DIR}/LICENSE)
set(CPACK_RESOURCE_FILE_README ${PROJECT_SOURCE_DIR}/README.md)
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_COMPONENTS_ALL program library)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME tubewright)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_RECOMMENDS "libopenblas0, xvfb")
set(CPACK_DEBIAN_LIBRARY_PACKAGE_NAME tubewright-dev)
set(CPACK_DEBIAN_LIBRARY_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_LIBRARY_PACKAGE_DEPENDS "libeigen3-dev (>= 3.4), libspectra-dev")
if(TUBEWRIGHT_HAS_CHOLMOD)
  string(APPEND CPACK_DEBIAN_LIBRARY_PACKAGE_DEPENDS ", libsuitesparse-dev")
endif()
set(CPACK_COMPONENT_PROGRAM_DESCRIPTION
  "Strength and stiffness of light welded tube frames\n \
Solves the load cases of a welded tube frame described in a YAML file, checks\n \
every member, and writes results for people, programs and 3D viewers.")
set(CPACK_COMPONENT_LIBRARY_DESCRIPTION
  "Beam frame solver of tubewright, for other programs\n \
Linear statics of three-dimensional Timoshenko beam frames as a C++ library.")
include(CPack)
