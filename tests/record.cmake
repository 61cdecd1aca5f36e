# A program that writes to a record, to be killed, starved of room or run twice by test_record.
add_executable(record_writer record/writer.cpp)
target_link_libraries(record_writer PRIVATE calib_record fw_flags)

if(TARGET test_record)
  add_dependencies(test_record record_writer)
  target_compile_definitions(test_record PRIVATE FW_RECORD_WRITER="$<TARGET_FILE:record_writer>")
endif()

# The demo's record, made again and looked at.
fw_test(test_demo_record demo gui_bench demo_story)
