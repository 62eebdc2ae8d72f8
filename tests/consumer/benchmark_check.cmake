# cmake -DSOURCE=... -DWORK=... -DCOMPILER=... -DGENERATOR=... -P benchmark_check.cmake
# Asked for without the tests, the benchmark is among what can be built.
file(REMOVE_RECURSE ${WORK})
execute_process(
  COMMAND ${CMAKE_COMMAND} -G ${GENERATOR} -S ${SOURCE} -B ${WORK} -DCMAKE_CXX_COMPILER=${COMPILER}
          -DLAKEBOUND_BUILD_TESTS=OFF -DLAKEBOUND_BUILD_BENCHMARKS=ON
  OUTPUT_VARIABLE output ERROR_VARIABLE output COMMAND_ERROR_IS_FATAL ANY)
execute_process(COMMAND ${CMAKE_COMMAND} --build ${WORK} --target help OUTPUT_VARIABLE targets COMMAND_ERROR_IS_FATAL ANY)
if(NOT targets MATCHES "lakebound_benchmark")
  message(FATAL_ERROR "LAKEBOUND_BUILD_BENCHMARKS=ON without the tests makes no benchmark:\n${targets}")
endif()
