# The window, driven in its own process on a virtual screen. One test for all cases: a screen starts in a second, a case
# takes a tenth of that.
find_program(FW_XVFB_RUN xvfb-run REQUIRED)
file(GLOB window_tests CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/window/*.cpp)
add_executable(test_window ${window_tests})
target_include_directories(test_window PRIVATE ${CMAKE_CURRENT_SOURCE_DIR})
pkg_check_modules(XTEST REQUIRED IMPORTED_TARGET xtst x11)  # keys as from a hand
target_compile_definitions(test_window PRIVATE FW_FITW="$<TARGET_FILE:fitw>" FW_FITWRIGHT="$<TARGET_FILE:fitwright>")
target_link_libraries(test_window PRIVATE gui_window PkgConfig::XTEST nlohmann_json::nlohmann_json Catch2::Catch2
                                          fw_flags)
add_dependencies(test_window fitw fitwright)
add_test(NAME test_window COMMAND ${FW_XVFB_RUN} -a -s "-screen 0 1280x800x24" $<TARGET_FILE:test_window>)
set_tests_properties(test_window PROPERTIES ENVIRONMENT "NO_AT_BRIDGE=1;GTK_THEME=Adwaita" TIMEOUT 300)
# The same where the server has no OpenGL: the plan takes the place of the coupon in space.
add_test(NAME test_window_without_gl COMMAND ${FW_XVFB_RUN} -a -s "-screen 0 1280x800x24 -extension GLX"
                                             $<TARGET_FILE:test_window> "[coupon_view]")
set_tests_properties(test_window_without_gl PROPERTIES ENVIRONMENT "NO_AT_BRIDGE=1;GTK_THEME=Adwaita" TIMEOUT 300)

# The program as it is started: what it prints, and what it says to wrong usage.
add_test(NAME fitwright_version COMMAND fitwright --version)
set_tests_properties(fitwright_version PROPERTIES PASS_REGULAR_EXPRESSION "^fitwright ${PROJECT_VERSION}\n$")
add_test(NAME fitwright_help COMMAND fitwright --help)
set_tests_properties(fitwright_help PROPERTIES PASS_REGULAR_EXPRESSION "usage: fitwright")
add_test(NAME fitwright_wrong_option COMMAND fitwright --sideways)
set_tests_properties(fitwright_wrong_option PROPERTIES PASS_REGULAR_EXPRESSION "\"--sideways\" is not an option")
add_test(NAME fitwright_no_display COMMAND fitwright)
set_tests_properties(fitwright_no_display PROPERTIES ENVIRONMENT "DISPLAY=;WAYLAND_DISPLAY="
                                                     PASS_REGULAR_EXPRESSION "^fitwright: there is no display")

# The window as a screen reader has it: on an accessibility bus of its own. The server must not start anew between two
# clients, as it does when the last one leaves.
find_program(FW_DBUS_RUN dbus-run-session REQUIRED)
pkg_check_modules(ATSPI REQUIRED IMPORTED_TARGET atspi-2 gobject-2.0 glib-2.0)
file(GLOB access_tests CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/window/access/*.cpp)
add_executable(test_access ${access_tests} $<TARGET_OBJECTS:catch_main>)
add_dependencies(test_access fitwright)
target_include_directories(test_access PRIVATE ${CMAKE_CURRENT_SOURCE_DIR})
target_compile_definitions(test_access PRIVATE FW_FITWRIGHT="$<TARGET_FILE:fitwright>")
target_link_libraries(test_access PRIVATE PkgConfig::ATSPI Catch2::Catch2 fw_flags)
add_test(NAME test_access COMMAND ${FW_XVFB_RUN} -a -s "-screen 0 1280x800x24 -noreset" ${FW_DBUS_RUN} --
                                  $<TARGET_FILE:test_access>)
set_tests_properties(test_access PROPERTIES ENVIRONMENT "GTK_THEME=Adwaita" TIMEOUT 300)

# Paints the pictures of docs/pictures; tests/window/pictures/make.sh runs it.
add_executable(paint_places ${CMAKE_CURRENT_SOURCE_DIR}/window/pictures/paint_places.cpp)
target_link_libraries(paint_places PRIVATE gui_window fw_flags)
