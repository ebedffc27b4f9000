# hw_embed(target table FILES files… BASE folder [GZIP]): files become bytes inside the program.
#   Generates embedded/<table>.hpp with `const std::vector<File_<table>> <table>` of {path, text, gzip}, sorted by path.
#   GZIP adds a packed copy of every text file; without it, and for other files, gzip is empty.
#   A change of a file rebuilds the object, a new file re-runs the configuration. No files at all is an empty table.
function(hw_embed target table)
  cmake_parse_arguments(arg "GZIP" "BASE" "FILES" ${ARGN})
  set(dir ${CMAKE_BINARY_DIR}/generated/embedded)
  file(MAKE_DIRECTORY ${dir})
  set(asm ".section .note.GNU-stack,\"\",%progbits\n.section .rodata\n")
  set(externs "")
  set(rows "")
  set(inputs ${arg_FILES})
  set(n 0)
  list(SORT arg_FILES)
  foreach(file IN LISTS arg_FILES)
    file(RELATIVE_PATH path ${arg_BASE} ${file})
    set(copies "${file}")
    if(arg_GZIP AND file MATCHES "\\.(html|js|css|svg|txt|json|webmanifest)$")
      set(packed ${dir}/${table}_${n}.gz)
      find_program(HW_GZIP gzip REQUIRED)
      add_custom_command(OUTPUT ${packed} COMMAND ${HW_GZIP} -9nc "${file}" > "${packed}" DEPENDS ${file} COMMENT "gzip: ${path}")
      list(APPEND copies ${packed})
      list(APPEND inputs ${packed})
    endif()
    set(views "")
    set(symbol hw_${table}_${n})
    foreach(bytes IN LISTS copies)
      string(APPEND asm ".global ${symbol}\n.global ${symbol}_end\n${symbol}:\n.incbin \"${bytes}\"\n${symbol}_end:\n.byte 0\n")
      string(APPEND externs "extern \"C\" const char ${symbol}[];\nextern \"C\" const char ${symbol}_end[];\n")
      string(APPEND views ", {${symbol}, static_cast<std::size_t>(${symbol}_end - ${symbol})}")
      set(symbol ${symbol}_gz)
    endforeach()
    string(APPEND rows "    {\"${path}\"${views}},\n")
    math(EXPR n "${n}+1")
  endforeach()
  file(CONFIGURE OUTPUT ${dir}/${table}.S CONTENT "${asm}" @ONLY)
  file(CONFIGURE OUTPUT ${dir}/${table}.hpp @ONLY CONTENT "#pragma once
#include <string_view>
#include <vector>
namespace hw::embedded {
struct File_${table} { std::string_view path, text, gzip = {}; };
extern const std::vector<File_${table}> ${table};
}
")
  file(CONFIGURE OUTPUT ${dir}/${table}.cpp @ONLY CONTENT "#include \"embedded/${table}.hpp\"
#include <cstddef>
${externs}namespace hw::embedded {
const std::vector<File_${table}> ${table}{
${rows}};
}
")
  add_library(hw_embedded_${table} STATIC ${dir}/${table}.S ${dir}/${table}.cpp ${inputs})
  target_link_libraries(hw_embedded_${table} PUBLIC hw_options)
  set_source_files_properties(${dir}/${table}.S PROPERTIES OBJECT_DEPENDS "${inputs}")
  set_source_files_properties(${inputs} PROPERTIES HEADER_FILE_ONLY ON)
  get_target_property(type ${target} TYPE)
  if(type STREQUAL "EXECUTABLE")
    target_link_libraries(${target} PRIVATE hw_embedded_${table})
  else()
    target_link_libraries(${target} PUBLIC hw_embedded_${table})
  endif()
endfunction()
