# hw_test(name SOURCES … LINK …): one GoogleTest program; each of its tests becomes one ctest entry.
find_package(GTest REQUIRED)
include(GoogleTest)
set(HW_VALIDATION_DIR ${CMAKE_BINARY_DIR}/validation)
file(MAKE_DIRECTORY ${HW_VALIDATION_DIR})
function(hw_test name)
  cmake_parse_arguments(arg "" "" "SOURCES;LINK" ${ARGN})
  add_executable(${name} ${arg_SOURCES})
  # What is tested is built as it ships; the tests themselves build a third faster with less. (There the compiler no longer sees that a full optional is full.)
  target_compile_options(${name} PRIVATE $<$<CONFIG:Release>:-O1 -Wno-maybe-uninitialized>)
  target_link_libraries(${name} PRIVATE ${arg_LINK} hw_support GTest::gtest GTest::gtest_main)
  gtest_discover_tests(${name} DISCOVERY_TIMEOUT 60
    PROPERTIES TIMEOUT 600 FIXTURES_SETUP reference_rows ENVIRONMENT "HW_VALIDATION_DIR=${HW_VALIDATION_DIR}")
endfunction()
