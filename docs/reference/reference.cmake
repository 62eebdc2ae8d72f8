# The target `reference`: the headers as HTML, in reference/html of the build folder. A warning is an error.
find_program(LAKEBOUND_DOXYGEN doxygen)
if(LAKEBOUND_DOXYGEN)
  add_custom_target(reference
    COMMAND ${CMAKE_COMMAND} -E make_directory ${PROJECT_BINARY_DIR}/reference
    COMMAND ${CMAKE_COMMAND} -E env LAKEBOUND_MADE=${PROJECT_BINARY_DIR}/include
            LAKEBOUND_REFERENCE=${PROJECT_BINARY_DIR}/reference ${LAKEBOUND_DOXYGEN} docs/reference/Doxyfile
    WORKING_DIRECTORY ${PROJECT_SOURCE_DIR} VERBATIM)
endif()
