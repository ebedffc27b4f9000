# Every CSV in atlas/ becomes one header of constexpr rows, generated/atlas/<table>.hpp.
# A row without a source, a locator or a standing, or a number without a unit, stops the build.
function(hw_atlas_tables target)
  file(GLOB tables CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/*.csv)
  set(headers)
  foreach(table IN LISTS tables)
    get_filename_component(stem ${table} NAME_WE)
    set(header ${CMAKE_BINARY_DIR}/generated/atlas/${stem}.hpp)
    add_custom_command(OUTPUT ${header}
      COMMAND hw_atlas_table ${table} ${CMAKE_CURRENT_SOURCE_DIR}/sources.csv ${header}
      DEPENDS hw_atlas_table ${table} ${CMAKE_CURRENT_SOURCE_DIR}/sources.csv
      COMMENT "atlas: ${stem}" VERBATIM)
    list(APPEND headers ${header})
  endforeach()
  add_custom_target(${target}_rows DEPENDS ${headers})
  add_library(${target} INTERFACE)
  add_dependencies(${target} ${target}_rows)
  target_link_libraries(${target} INTERFACE hw_options)
endfunction()
