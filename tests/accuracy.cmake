# How accurate the estimates are, by simulation: a program that writes docs/accuracy.md, and a short version as tests.
find_package(Threads REQUIRED)

file(GLOB accuracy_parts CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/accuracy/*.cpp)
list(FILTER accuracy_parts EXCLUDE REGEX "(main|_test)\\.cpp$")
add_library(accuracy_parts STATIC ${accuracy_parts} calib/stats/reference.cpp calib/stats/strd.cpp)
target_include_directories(accuracy_parts PUBLIC ${CMAKE_CURRENT_SOURCE_DIR})
target_compile_definitions(accuracy_parts PRIVATE FW_REFERENCE="${CMAKE_CURRENT_SOURCE_DIR}/reference")
target_link_libraries(accuracy_parts PUBLIC calib_fits calib_correct calib_practice coupons_design Threads::Threads PRIVATE fw_flags)

add_executable(fw_accuracy accuracy/main.cpp)
target_link_libraries(fw_accuracy PRIVATE accuracy_parts CLI11::CLI11 fw_flags)

file(GLOB accuracy_tests CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/accuracy/*_test.cpp)
add_executable(test_accuracy ${accuracy_tests} $<TARGET_OBJECTS:catch_main>)
target_link_libraries(test_accuracy PRIVATE accuracy_parts Catch2::Catch2 fw_flags)
catch_discover_tests(test_accuracy TEST_PREFIX "test_accuracy: " DISCOVERY_MODE PRE_TEST)
