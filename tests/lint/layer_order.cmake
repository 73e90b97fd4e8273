# Configures tests/lint/layers with one CASE and holds the outcome against what is expected:
# with EXPECT the configure step must stop and say so; without, it must pass.
set(build ${WORK}/${CASE})
file(REMOVE_RECURSE ${build})
execute_process(
  COMMAND ${CMAKE_COMMAND} -G ${GENERATOR} -S ${CMAKE_CURRENT_LIST_DIR}/layers -B ${build}
          -DCMAKE_CXX_COMPILER=${COMPILER} -DRP_ENGINE=${RP_ENGINE} -DCASE=${CASE}
  RESULT_VARIABLE status
  OUTPUT_VARIABLE out
  ERROR_VARIABLE err)
string(REGEX REPLACE "[ \n]+" " " said "${err}")  # CMake wraps its messages
if(EXPECT)
  if(status EQUAL 0)
    message(FATAL_ERROR "${CASE}: the configure step went through; it had to stop with '${EXPECT}'")
  endif()
  string(FIND "${said}" "${EXPECT}" at)
  if(at EQUAL -1)
    message(FATAL_ERROR "${CASE}: stopped, but did not say '${EXPECT}':\n${out}\n${err}")
  endif()
elseif(NOT status EQUAL 0)
  message(FATAL_ERROR "${CASE}: had to pass, but stopped:\n${out}\n${err}")
endif()
message(STATUS "${CASE}: as expected")
