# Debian packages: cpack -G DEB makes lakebound (commands, shelf, pages) and liblakebound-dev. Configure with
# -DCMAKE_INSTALL_PREFIX=/usr, as docs/install.md says, for the folders that Debian has.
set(LAKEBOUND_PACKAGE_CONTACT "Lakebound <nobody@packages.invalid>" CACHE STRING "Who makes the packages, with an address")
find_program(LAKEBOUND_GZIP gzip)
if(LAKEBOUND_GZIP)
  configure_file(${CMAKE_CURRENT_LIST_DIR}/changelog.in ${PROJECT_BINARY_DIR}/changelog @ONLY)
  execute_process(COMMAND ${LAKEBOUND_GZIP} -9nc INPUT_FILE ${PROJECT_BINARY_DIR}/changelog
    OUTPUT_FILE ${PROJECT_BINARY_DIR}/changelog.gz)
  install(FILES ${PROJECT_BINARY_DIR}/changelog.gz DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/lakebound COMPONENT runtime)
  install(FILES ${PROJECT_BINARY_DIR}/changelog.gz DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/liblakebound-dev
    COMPONENT development)
endif()
install(FILES ${CMAKE_CURRENT_LIST_DIR}/copyright DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/lakebound COMPONENT runtime)
install(FILES ${CMAKE_CURRENT_LIST_DIR}/copyright DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/liblakebound-dev
  COMPONENT development)

set(CPACK_PACKAGE_NAME lakebound)
set(CPACK_PACKAGE_VENDOR "Lakebound")
set(CPACK_PACKAGE_CONTACT "${LAKEBOUND_PACKAGE_CONTACT}")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_COMPONENTS_ALL runtime development)
set(CPACK_COMPONENTS_GROUPING IGNORE)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
set(CPACK_DEBIAN_RUNTIME_PACKAGE_NAME lakebound)
set(CPACK_DEBIAN_RUNTIME_PACKAGE_SECTION science)
set(CPACK_DEBIAN_RUNTIME_PACKAGE_SHLIBDEPS ON)
set(CPACK_COMPONENT_RUNTIME_DESCRIPTION "lake pigment to paint that holds together
Commands that tell what to weigh so that a jar of dried lake becomes
watercolour, oil or egg tempera that holds, and how sure that is: batches,
limits of pigment volume, sieving, grinding and settling, and the record of
a jar. With the shelf of materials and recipes, and the pages for makers.")
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME liblakebound-dev)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS
    "lakebound (= ${PROJECT_VERSION}), libboost-dev (>= 1.74), libyaml-cpp-dev (>= 0.7), libfmt-dev (>= 9)")
set(CPACK_COMPONENT_DEVELOPMENT_DESCRIPTION "lake pigment to paint that holds together: C++ library
Headers and libraries of Lakebound for C++20, with package files for CMake
and pkg-config.")
include(CPack)
