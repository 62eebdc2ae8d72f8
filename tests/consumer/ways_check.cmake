# cmake -DBUILD=... -DSOURCE=... -DWORK=... -DCOMPILER=... -DGENERATOR=... -DSHARED=ON|OFF -DLINK=... -P ways_check.cmake
# Static: what BUILD has built is installed, and the part of a project is configured only. Shared: all is built anew.
# LINK: what programs on instrumented libraries must be linked with; may be empty.
# Every way to link the library, static or shared: found by CMake after the installation was moved, by pkg-config, as a
# part of another project, by programs that hide their own symbols; and that an installation has in each component what
# belongs there. With shared libraries the commands are tried too.
function(run)
  execute_process(COMMAND ${ARGN} RESULT_VARIABLE result OUTPUT_VARIABLE output ERROR_VARIABLE output)
  if(NOT result EQUAL 0)
    message(FATAL_ERROR "${ARGN}\n${output}")
  endif()
  set(output "${output}" PARENT_SCOPE)
endfunction()
function(want text regex what)
  if(NOT text MATCHES "${regex}")
    message(FATAL_ERROR "${what}:\n${text}")
  endif()
endfunction()

file(REMOVE_RECURSE ${WORK})
set(common -G ${GENERATOR} -DCMAKE_CXX_COMPILER=${COMPILER} -DCMAKE_BUILD_TYPE=Debug -DBUILD_SHARED_LIBS=${SHARED}
           -DCMAKE_CXX_FLAGS=-O0 -DCMAKE_CXX_VISIBILITY_PRESET=hidden)

# As a part of another project, which wants its libraries only.
run(${CMAKE_COMMAND} ${common} -S ${SOURCE}/part -B ${WORK}/part -DLAKEBOUND_TOP=${SOURCE}/../.. -DCMAKE_UNITY_BUILD=ON
    -DCMAKE_INSTALL_LIBDIR=lib/x86_64-linux-gnu -DLAKEBOUND_INSTALL=ON -DLAKEBOUND_BUILD_APPS=${SHARED})
if(SHARED)
  run(${CMAKE_COMMAND} --build ${WORK}/part -j2)
  run(${WORK}/part/part)
  want("${output}" "^10.00 g lake, 50.1[0-9] g gum water" "the part of a project prints")
  set(BUILD ${WORK}/part)
endif()

# Installed by components, under a folder of several architectures, and moved.
run(${CMAKE_COMMAND} --install ${BUILD} --prefix ${WORK}/first --component runtime)
file(GLOB_RECURSE runtime RELATIVE ${WORK}/first ${WORK}/first/*)
if("${runtime}" MATCHES "\\.hpp|\\.a(;|$)|\\.pc(;|$)|lakeboundConfig")
  message(FATAL_ERROR "the runtime component holds what only developers need")
endif()
want("${runtime}" "share/lakebound/formulations/families/oil.yaml" "the runtime component has no shelf")
run(${CMAKE_COMMAND} --install ${BUILD} --prefix ${WORK}/first --component development)
file(RENAME ${WORK}/first ${WORK}/moved)
file(GLOB_RECURSE core ${WORK}/moved/liblakebound_core.*)
list(GET core 0 core)
cmake_path(GET core PARENT_PATH libraries)

run(${CMAKE_COMMAND} ${common} -S ${SOURCE}/../../docs/examples -B ${WORK}/examples -DCMAKE_PREFIX_PATH=${WORK}/moved
    -DCMAKE_EXE_LINKER_FLAGS=${LINK})
run(${CMAKE_COMMAND} --build ${WORK}/examples -j2)
run(${CMAKE_CTEST_COMMAND} --test-dir ${WORK}/examples --no-tests=error)
if(SHARED)
  run(${CMAKE_COMMAND} -E chdir / ${WORK}/moved/bin/lakebound-batch lake-oil-tube --jar weld --shelf reedmere --pigment "6 g")
endif()

find_program(pkg_config NAMES pkg-config pkgconf)
function(by_pkg_config example)
  set(ENV{PKG_CONFIG_PATH} ${libraries}/pkgconfig)
  run(${pkg_config} --cflags --libs ${ARGN})
  separate_arguments(flags UNIX_COMMAND "${output}")
  run(${COMPILER} -std=c++20 -fvisibility=hidden ${SOURCE}/../../docs/examples/${example}.cpp ${flags} -Wl,-rpath,${libraries} ${LINK}
      -o ${WORK}/${example})
  run(${pkg_config} --variable=shelfdir lakebound-shelf)
  string(STRIP "${output}" shelf)
  run(${CMAKE_COMMAND} -DPROGRAM=${WORK}/${example} -DSOURCE=${SOURCE}/../../docs/examples/${example}.cpp -DSHELF=${shelf}
      -P ${SOURCE}/../../docs/examples/check.cmake)
endfunction()
if(pkg_config)
  by_pkg_config(size_a_batch lakebound-core)
  by_pkg_config(read_a_quantity lakebound-core) # catches what the library throws
  by_pkg_config(lay_out_a_page lakebound-page)
  by_pkg_config(batch_from_the_shelf lakebound-report lakebound-shelf)
else()
  message("pkg-config is not installed: not tried")
endif()

if(SHARED)
  if(NOT EXISTS ${libraries}/liblakebound_core.so.0.1)
    message(FATAL_ERROR "no liblakebound_core.so.0.1 in ${libraries}")
  endif()
  # What is exported is ours and public: nothing of a room's own headers, of Boost, Eigen, yaml-cpp, {fmt} or JSON.
  foreach(part core page shelf report)
    run(nm -D --defined-only -C ${libraries}/liblakebound_${part}.so)
    if(output MATCHES "[^\n]* (T|W|V|u) (YAML|Eigen|fmt|nlohmann)::[^\n]*")
      message(FATAL_ERROR "liblakebound_${part}.so exports what is not ours: ${CMAKE_MATCH_0}")
    endif()
    if(output MATCHES "[^\n]* T lakebound::(find_unit|json_pieces|layout|write_table_lines)[^\n]*")
      message(FATAL_ERROR "liblakebound_${part}.so exports what is nobody's but its own: ${CMAKE_MATCH_0}")
    endif()
    want("${output}" " T lakebound::" "liblakebound_${part}.so exports nothing")
  endforeach()
endif()
