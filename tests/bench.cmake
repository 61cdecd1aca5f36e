# Times of estimates, coupons and the record: bash tests/bench/run.sh. No test: nothing about time is asserted.
file(GLOB bench_sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/bench/*.cpp)
add_executable(fw_bench ${bench_sources})
target_include_directories(fw_bench PRIVATE ${CMAKE_CURRENT_SOURCE_DIR})
target_link_libraries(fw_bench PRIVATE calib_model calib_practice calib_record coupons_design coupons_mesh CLI11::CLI11 fw_flags)

# The same for the window: xvfb-run build/tests/fw_bench_window
pkg_check_modules(XTEST REQUIRED IMPORTED_TARGET xtst x11)
add_executable(fw_bench_window EXCLUDE_FROM_ALL bench/window/main.cpp window/keyboard.cpp window/bench.cpp)
target_include_directories(fw_bench_window PRIVATE ${CMAKE_CURRENT_SOURCE_DIR})
target_compile_definitions(fw_bench_window PRIVATE FW_FITWRIGHT="$<TARGET_FILE:fitwright>")
target_link_libraries(fw_bench_window PRIVATE gui_window PkgConfig::XTEST fw_flags)
add_dependencies(fw_bench_window fitwright)
