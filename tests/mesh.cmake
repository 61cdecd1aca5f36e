# Outside checkers for meshes. CGAL (GPL) is used by a test program of its own only.
find_package(CGAL REQUIRED)
find_program(FW_ADMESH_PROGRAM admesh REQUIRED)

add_executable(fw_cgal_check mesh/cgal_check.cpp)
target_link_libraries(fw_cgal_check PRIVATE CGAL::CGAL)
set_target_properties(fw_cgal_check PROPERTIES CXX_STANDARD 17)

# outside_check.hpp, for any test that makes a mesh.
add_library(outside_check STATIC mesh/outside_check.cpp)
target_include_directories(outside_check PUBLIC ${CMAKE_CURRENT_SOURCE_DIR})
target_compile_definitions(outside_check PRIVATE FW_ADMESH="${FW_ADMESH_PROGRAM}"
                                                 FW_CGAL_CHECK="$<TARGET_FILE:fw_cgal_check>")
target_link_libraries(outside_check PUBLIC coupons_mesh PRIVATE fw_flags)
add_dependencies(outside_check fw_cgal_check)

if(TARGET test_coupons)
  target_link_libraries(test_coupons PRIVATE outside_check)
endif()
