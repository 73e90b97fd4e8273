# rp_engine(): declares one folder of the house and stops the configure step when it would look
# upward or sideways. The numbers are those of docs/decisions/0001-layers.md.
set(RP_LAYERS base catalog claims analysis coupled decision evidence sheet store app server cli)

add_library(rp_flags INTERFACE)
target_include_directories(rp_flags INTERFACE ${CMAKE_SOURCE_DIR} ${CMAKE_BINARY_DIR}/generated)
target_compile_options(rp_flags INTERFACE
  -Wall -Wextra -Wconversion -Wshadow -Wpedantic -Werror -ffp-contract=off)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU" AND CMAKE_CXX_COMPILER_VERSION VERSION_LESS 13)
  # GCC 12 sees overlapping copies in std::string's own insert and operator+ (its bug 105329), and,
  # where the header is precompiled, copies beyond its end. The address sanitizer looks for real ones.
  target_compile_options(rp_flags INTERFACE -Wno-restrict -Wno-array-bounds -Wno-stringop-overflow
                                            -Wno-stringop-overread)
elseif(CMAKE_CXX_COMPILER_ID STREQUAL "Clang")
  # The stable_sort of libstdc++ 12 calls its own deprecated helper; GCC does not look into its headers.
  target_compile_options(rp_flags INTERFACE -Wno-deprecated-declarations)
  # Else its precompiled headers carry the time they were made, and ccache finds nothing twice.
  target_compile_options(rp_flags INTERFACE "SHELL:-Xclang -fno-pch-timestamp")
endif()
if(RP_SANITIZE)
  target_compile_definitions(rp_flags INTERFACE RP_SANITIZED)  # each compiler has another name for it
  target_compile_options(rp_flags INTERFACE -fsanitize=address,undefined -fno-sanitize-recover=all
                                            -fno-omit-frame-pointer)
  target_link_options(rp_flags INTERFACE -fsanitize=address,undefined)
  if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
    # The sanitizers' own branches hide from GCC that a member is written before it is read; the
    # builds without them keep the warning.
    target_compile_options(rp_flags INTERFACE -Wno-maybe-uninitialized)
  endif()
endif()
if(RP_FUZZ)
  target_compile_options(rp_flags INTERFACE -fsanitize=fuzzer-no-link)
endif()

# Standard headers are read once for all sources of the house (rp_common) and once for all tests
# (rp_test_common): reading them is a third to a half of compiling one source. Sources still include
# what they use; the tidy build has no such headers and would not compile otherwise.
set(RP_COMMON_HEADERS <algorithm> <array> <bit> <charconv> <chrono> <cmath> <cstdint> <functional> <limits> <map> <memory>
  <numeric> <optional> <set> <span> <stdexcept> <string> <string_view> <tuple> <unordered_map> <utility> <vector>
  <fmt/format.h> <tl/expected.hpp>)
# Test code is compiled without optimizing: it runs little and is compiled often. What it calls is
# optimized, and so are the tests that say OPTIMIZED (brute force over many cases).
set(RP_TEST_FLAGS -O0)
file(WRITE ${CMAKE_BINARY_DIR}/generated/rp_common.cpp "// Carries the precompiled headers.\n")
add_library(rp_common OBJECT ${CMAKE_BINARY_DIR}/generated/rp_common.cpp)
target_link_libraries(rp_common PRIVATE rp_flags fmt::fmt tl::expected)
target_precompile_headers(rp_common PRIVATE ${RP_COMMON_HEADERS})
if(RP_TESTS)
  add_library(rp_test_common OBJECT ${CMAKE_BINARY_DIR}/generated/rp_common.cpp)
  target_link_libraries(rp_test_common PRIVATE rp_flags fmt::fmt tl::expected GTest::gtest GTest::gmock)
  target_compile_options(rp_test_common PRIVATE ${RP_TEST_FLAGS})
  target_precompile_headers(rp_test_common PRIVATE ${RP_COMMON_HEADERS} <gtest/gtest.h> <gmock/gmock.h>)
endif()

# rp_engine(NAME LAYER layer SOURCES a.cpp b.cpp DEPS rp_base ... [LIBS fmt::fmt ...])
# DEPS are folders of this house, LIBS are libraries from outside. HEADERS are large headers of a
# library that most of its sources include, to be precompiled with the standard ones.
function(rp_engine NAME)
  cmake_parse_arguments(E "" "LAYER" "SOURCES;DEPS;LIBS;HEADERS" ${ARGN})
  if(E_UNPARSED_ARGUMENTS)
    message(FATAL_ERROR "${NAME}: not understood: ${E_UNPARSED_ARGUMENTS}")
  endif()
  list(FIND RP_LAYERS "${E_LAYER}" own)
  if(own EQUAL -1)
    message(FATAL_ERROR "${NAME}: there is no layer '${E_LAYER}' (one of: ${RP_LAYERS})")
  endif()
  add_library(${NAME} STATIC ${E_SOURCES})
  set_target_properties(${NAME} PROPERTIES RP_LAYER_NUMBER ${own})
  foreach(dep IN LISTS E_DEPS)
    if(NOT TARGET ${dep})
      message(FATAL_ERROR "${NAME}: there is no ${dep}; a lower layer stands before it in CMakeLists.txt")
    endif()
    get_target_property(theirs ${dep} RP_LAYER_NUMBER)
    if(NOT theirs MATCHES "^[0-9]+$")
      message(FATAL_ERROR "${NAME}: ${dep} is no engine of ours; name it under LIBS")
    endif()
    if(NOT theirs LESS own)
      message(FATAL_ERROR "${NAME} (layer ${E_LAYER}) may not use ${dep}: only lower layers are open to it")
    endif()
  endforeach()
  foreach(lib IN LISTS E_LIBS)
    if(lib MATCHES "^rp_")
      message(FATAL_ERROR "${NAME}: ${lib} is one of ours; name it under DEPS, where its layer is checked")
    endif()
  endforeach()
  target_link_libraries(${NAME} PUBLIC rp_flags ${E_DEPS} fmt::fmt tl::expected ${E_LIBS})
  if(E_HEADERS)  # its own set: those of the house and these
    target_precompile_headers(${NAME} PRIVATE ${RP_COMMON_HEADERS} ${E_HEADERS})
  else()
    target_precompile_headers(${NAME} REUSE_FROM rp_common)
  endif()
endfunction()

# rp_test(NAME SOURCES a_test.cpp DEPS rp_base ... [LABELS unit]): one test program, ctest label `unit`
# unless said otherwise. Tests may use anything.
function(rp_test NAME)
  cmake_parse_arguments(T "OPTIMIZED" "" "SOURCES;DEPS;LABELS;LIBS" ${ARGN})
  if(NOT RP_TESTS)
    return()
  endif()
  if(NOT T_LABELS)
    set(T_LABELS unit)
  endif()
  add_executable(${NAME} ${T_SOURCES})
  target_link_libraries(${NAME} PRIVATE rp_flags ${T_DEPS} ${T_LIBS} GTest::gtest GTest::gmock GTest::gtest_main)
  if(T_OPTIMIZED)
    target_precompile_headers(${NAME} REUSE_FROM rp_common)
  else()
    target_compile_options(${NAME} PRIVATE ${RP_TEST_FLAGS})
    target_precompile_headers(${NAME} REUSE_FROM rp_test_common)
  endif()
  gtest_discover_tests(${NAME} PROPERTIES LABELS "${T_LABELS}" DISCOVERY_TIMEOUT 60
                       WORKING_DIRECTORY ${CMAKE_SOURCE_DIR})
endfunction()

# rp_test_tools(NAME SOURCES a.cpp DEPS rp_app ...): what several test programs share; optimized, as
# brute force is at home here.
function(rp_test_tools NAME)
  cmake_parse_arguments(T "" "" "SOURCES;DEPS" ${ARGN})
  if(RP_TESTS)
    add_library(${NAME} STATIC ${T_SOURCES})
    target_link_libraries(${NAME} PUBLIC rp_flags ${T_DEPS} fmt::fmt tl::expected GTest::gtest)
    target_precompile_headers(${NAME} REUSE_FROM rp_common)
  endif()
endfunction()

# rp_bench(NAME SOURCES a_bench.cpp DEPS ...): a benchmark program, built where the library is present
# and the numbers would mean something (not under sanitizers).
function(rp_bench NAME)
  cmake_parse_arguments(B "" "" "SOURCES;DEPS" ${ARGN})
  if(NOT benchmark_FOUND OR RP_SANITIZE)
    return()
  endif()
  add_executable(${NAME} ${B_SOURCES})
  target_link_libraries(${NAME} PRIVATE rp_flags ${B_DEPS} benchmark::benchmark)
endfunction()

# rp_fuzz(NAME SOURCES a_fuzz.cpp DEPS ... INPUTS folder): a fuzz target and the folder of its kept
# inputs (relative to the caller or to the top). With RP_FUZZ (clang) it runs under libFuzzer, see
# tools/fuzz; otherwise it gets a plain main that replays every kept input, run by ctest.
function(rp_fuzz NAME)
  cmake_parse_arguments(F "" "INPUTS" "SOURCES;DEPS" ${ARGN})
  if(NOT RP_TESTS)
    return()
  endif()
  set(inputs ${CMAKE_CURRENT_SOURCE_DIR}/${F_INPUTS})
  if(IS_ABSOLUTE "${F_INPUTS}")
    set(inputs ${F_INPUTS})
  elseif(NOT IS_DIRECTORY ${inputs})
    set(inputs ${CMAKE_SOURCE_DIR}/${F_INPUTS})
  endif()
  if(NOT F_INPUTS OR NOT IS_DIRECTORY ${inputs})
    message(FATAL_ERROR "${NAME}: there is no folder of kept inputs '${F_INPUTS}'")
  endif()
  if(RP_FUZZ)
    add_executable(${NAME} ${F_SOURCES})
    target_compile_options(${NAME} PRIVATE -fsanitize=fuzzer)
    target_link_options(${NAME} PRIVATE -fsanitize=fuzzer)
    set_property(GLOBAL APPEND_STRING PROPERTY RP_FUZZ_TARGETS "${NAME}\t${inputs}\n")
    if(NOT TARGET all_fuzz)
      add_custom_target(all_fuzz)
    endif()
    add_dependencies(all_fuzz ${NAME})
  else()
    add_executable(${NAME} ${F_SOURCES} ${CMAKE_SOURCE_DIR}/fuzz/replay_main.cpp)
    add_test(NAME ${NAME}.replay COMMAND ${NAME} ${inputs})
    set_tests_properties(${NAME}.replay PROPERTIES LABELS unit)
  endif()
  target_link_libraries(${NAME} PRIVATE rp_flags ${F_DEPS})
endfunction()
