# Finds CHOLMOD of SuiteSparse, which Debian 12 ships without a CMake package: target
# CHOLMOD::CHOLMOD.
# Where the compiler has OpenMP, the target links its run-time library and defines
# CHOLMOD_WITH_OPENMP: a caller can then say how many threads CHOLMOD may start. It does not turn
# OpenMP on in the caller's own code.
find_path(CHOLMOD_INCLUDE_DIR cholmod.h PATH_SUFFIXES suitesparse)
find_library(CHOLMOD_LIBRARY cholmod)
mark_as_advanced(CHOLMOD_INCLUDE_DIR CHOLMOD_LIBRARY)

include(FindPackageHandleStandardArgs)
find_package_handle_standard_args(CHOLMOD REQUIRED_VARS CHOLMOD_LIBRARY CHOLMOD_INCLUDE_DIR)

if(CHOLMOD_FOUND AND NOT TARGET CHOLMOD::CHOLMOD)
  add_library(CHOLMOD::CHOLMOD UNKNOWN IMPORTED GLOBAL)
  set_target_properties(CHOLMOD::CHOLMOD PROPERTIES
    IMPORTED_LOCATION "${CHOLMOD_LIBRARY}"
    INTERFACE_INCLUDE_DIRECTORIES "${CHOLMOD_INCLUDE_DIR}")
  find_package(OpenMP COMPONENTS CXX QUIET)
  if(OpenMP_CXX_FOUND)
    set_target_properties(CHOLMOD::CHOLMOD PROPERTIES
      INTERFACE_LINK_LIBRARIES "${OpenMP_CXX_LIBRARIES}"
      INTERFACE_COMPILE_DEFINITIONS CHOLMOD_WITH_OPENMP)
  endif()
endif()
