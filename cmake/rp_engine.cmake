# rp_engine(): declares one folder of the house and stops the configure step when it would look
# upward or sideways. The numbers are those of docs/decisions/0001-layers.md.
set(RP_LAYERS base catalog claims analysis decision evidence sheet store app cli)

add_library(rp_flags INTERFACE)
target_include_directories(rp_flags INTERFACE ${CMAKE_SOURCE_DIR} ${CMAKE_BINARY_DIR}/generated)
target_compile_options(rp_flags INTERFACE
  -Wall -Wextra -Wconversion -Wshadow -Wpedantic -Werror -ffp-contract=off)
if(RP_SANITIZE)
  target_compile_options(rp_flags INTERFACE -fsanitize=address,undefined -fno-sanitize-recover=all
                                            -fno-omit-frame-pointer)
  target_link_options(rp_flags INTERFACE -fsanitize=address,undefined)
endif()

# rp_engine(NAME LAYER layer SOURCES a.cpp b.cpp DEPS rp_base ... [LIBS fmt::fmt ...])
function(rp_engine NAME)
  cmake_parse_arguments(E "" "LAYER" "SOURCES;DEPS;LIBS" ${ARGN})
  list(FIND RP_LAYERS "${E_LAYER}" own)
  if(own EQUAL -1)
    message(FATAL_ERROR "${NAME}: there is no layer '${E_LAYER}' (one of: ${RP_LAYERS})")
  endif()
  add_library(${NAME} STATIC ${E_SOURCES})
  set_target_properties(${NAME} PROPERTIES RP_LAYER_NUMBER ${own})
  foreach(dep IN LISTS E_DEPS)
    get_target_property(theirs ${dep} RP_LAYER_NUMBER)
    if(NOT theirs LESS own)
      message(FATAL_ERROR "${NAME} (layer ${E_LAYER}) may not use ${dep}: only lower layers are open to it")
    endif()
  endforeach()
  target_link_libraries(${NAME} PUBLIC rp_flags ${E_DEPS} fmt::fmt tl::expected ${E_LIBS})
endfunction()

# rp_test(NAME SOURCES a_test.cpp DEPS rp_base ... [LABELS unit]): one test program, ctest label `unit`
# unless said otherwise. Tests may use anything.
function(rp_test NAME)
  cmake_parse_arguments(T "" "" "SOURCES;DEPS;LABELS;LIBS" ${ARGN})
  if(NOT RP_TESTS)
    return()
  endif()
  if(NOT T_LABELS)
    set(T_LABELS unit)
  endif()
  add_executable(${NAME} ${T_SOURCES})
  target_link_libraries(${NAME} PRIVATE rp_flags ${T_DEPS} ${T_LIBS} GTest::gtest GTest::gmock GTest::gtest_main)
  gtest_discover_tests(${NAME} PROPERTIES LABELS "${T_LABELS}" DISCOVERY_TIMEOUT 60
                       WORKING_DIRECTORY ${CMAKE_SOURCE_DIR})
endfunction()

# rp_bench(NAME SOURCES a_bench.cpp DEPS ...): a benchmark program, built where the library is present.
function(rp_bench NAME)
  cmake_parse_arguments(B "" "" "SOURCES;DEPS" ${ARGN})
  if(NOT benchmark_FOUND)
    return()
  endif()
  add_executable(${NAME} ${B_SOURCES})
  target_link_libraries(${NAME} PRIVATE rp_flags ${B_DEPS} benchmark::benchmark)
endfunction()

# rp_fuzz(NAME SOURCES a_fuzz.cpp DEPS ... INPUTS folder): a fuzz target. With RP_FUZZ (clang) it runs
# under libFuzzer; otherwise it gets a plain main that replays every kept input, run by ctest.
function(rp_fuzz NAME)
  cmake_parse_arguments(F "" "INPUTS" "SOURCES;DEPS" ${ARGN})
  if(NOT RP_TESTS)
    return()
  endif()
  if(RP_FUZZ)
    add_executable(${NAME} ${F_SOURCES})
    target_compile_options(${NAME} PRIVATE -fsanitize=fuzzer)
    target_link_options(${NAME} PRIVATE -fsanitize=fuzzer)
  else()
    add_executable(${NAME} ${F_SOURCES} ${CMAKE_SOURCE_DIR}/fuzz/replay_main.cpp)
    add_test(NAME ${NAME}.replay COMMAND ${NAME} ${F_INPUTS})
    set_tests_properties(${NAME}.replay PROPERTIES LABELS unit)
  endif()
  target_link_libraries(${NAME} PRIVATE rp_flags ${F_DEPS})
endfunction()
