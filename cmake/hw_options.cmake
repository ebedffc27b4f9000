# Compiler and linker settings that every target of ours gets, through the interface target hw_options.
add_library(hw_options INTERFACE)
target_include_directories(hw_options INTERFACE ${CMAKE_SOURCE_DIR} ${CMAKE_BINARY_DIR}/generated)
target_compile_options(hw_options INTERFACE
  -Wall -Wextra -Wpedantic -Wconversion -Wshadow -ffp-contract=off
  $<$<CXX_COMPILER_ID:GNU>:-Wno-restrict>  # g++ 12 warns wrongly on std::string concatenation (GCC bug 105651)
  $<$<BOOL:${HW_WERROR}>:-Werror>)
# Hardened release build; the sanitizer presets set their own flags.
target_compile_options(hw_options INTERFACE $<$<CONFIG:Release>:
  -U_FORTIFY_SOURCE -D_FORTIFY_SOURCE=3 -D_GLIBCXX_ASSERTIONS -fstack-protector-strong
  -fstack-clash-protection -fcf-protection>)
set(CMAKE_POSITION_INDEPENDENT_CODE ON)
target_link_options(hw_options INTERFACE -Wl,-z,relro,-z,now,-z,noexecstack)
find_program(HW_MOLD mold)
if(HW_MOLD)
  target_link_options(hw_options INTERFACE -fuse-ld=mold)
endif()
find_program(HW_CCACHE ccache)
if(HW_CCACHE AND NOT CMAKE_CXX_COMPILER_LAUNCHER)
  set(CMAKE_CXX_COMPILER_LAUNCHER ${HW_CCACHE})
endif()
