# Times of estimates, coupons and the record: bash tests/bench/run.sh. No test: nothing about time is asserted.
file(GLOB bench_sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/bench/*.cpp)
add_executable(fw_bench ${bench_sources})
target_include_directories(fw_bench PRIVATE ${CMAKE_CURRENT_SOURCE_DIR})
target_link_libraries(fw_bench PRIVATE calib_model calib_practice calib_record coupons_design coupons_mesh CLI11::CLI11 fw_flags)
