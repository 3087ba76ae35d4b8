# A test case with a semicolon in its name is split by CMake's lists and never run by ctest.
# Usage: cmake -D PROGRAM=... -P check_names.cmake
execute_process(COMMAND ${PROGRAM} --list-test-names-only OUTPUT_VARIABLE names)
if(names STREQUAL "")
  message(FATAL_ERROR "${PROGRAM} lists no test cases")
endif()
if(names MATCHES "[^\n]*;[^\n]*")
  message(FATAL_ERROR "ctest leaves out this test case, name it without a semicolon: ${CMAKE_MATCH_0}")
endif()
