# cmake -DBUILD=... -DSOURCE=... -DWORK=... -DCOMPILER=... -DGENERATOR=... -P install_check.cmake
# LINK: what programs on instrumented libraries must be linked with; may be empty.
# Installs the project into WORK, then builds and runs the outside program against the installation.
function(run)
  execute_process(COMMAND ${ARGN} RESULT_VARIABLE result OUTPUT_VARIABLE output ERROR_VARIABLE output)
  if(NOT result EQUAL 0)
    message(FATAL_ERROR "${ARGN}\n${output}")
  endif()
  set(output "${output}" PARENT_SCOPE)
endfunction()

file(REMOVE_RECURSE ${WORK})
run(${CMAKE_COMMAND} --install ${BUILD} --prefix ${WORK}/prefix)
run(${CMAKE_COMMAND} -G ${GENERATOR} -S ${SOURCE}/outside -B ${WORK}/build -DCMAKE_PREFIX_PATH=${WORK}/prefix
    -DCMAKE_CXX_COMPILER=${COMPILER} -DCMAKE_EXE_LINKER_FLAGS=${LINK})
run(${CMAKE_COMMAND} --build ${WORK}/build)
run(${WORK}/build/outside)
if(NOT output MATCHES "k")
  message(FATAL_ERROR "the outside program printed no k:\n${output}")
endif()
message("${output}")
