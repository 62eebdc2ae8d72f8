# Installing, in two components. runtime: commands, shelf, pages for makers, and the libraries where they are shared.
# development: headers, static libraries, CMake package, pkg-config files, pages for C++ users.
set(package_folder ${CMAKE_INSTALL_LIBDIR}/cmake/lakebound)
set(pkg_config_folder ${CMAKE_INSTALL_LIBDIR}/pkgconfig)
set(shelf_folder ${CMAKE_INSTALL_DATADIR}/lakebound/formulations)
set(lakebound_parts core page shelf report)

# One export per library, so that a program that wants only core loads only core.
foreach(name IN LISTS lakebound_parts)
  get_target_property(headers lakebound_${name} INTERFACE_HEADER_SETS)
  list(TRANSFORM headers REPLACE "(.+)" "FILE_SET;\\1;COMPONENT;development")
  install(TARGETS lakebound_${name} EXPORT lakebound-${name}
    ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR} COMPONENT development
    LIBRARY DESTINATION ${CMAKE_INSTALL_LIBDIR} COMPONENT runtime NAMELINK_COMPONENT development
    ${headers})
  install(EXPORT lakebound-${name} NAMESPACE lakebound:: DESTINATION ${package_folder} COMPONENT development)
endforeach()

configure_package_config_file(lib/lakeboundConfig.cmake.in ${PROJECT_BINARY_DIR}/lakeboundConfig.cmake
  INSTALL_DESTINATION ${package_folder} PATH_VARS shelf_folder)
write_basic_package_version_file(${PROJECT_BINARY_DIR}/lakeboundConfigVersion.cmake
  COMPATIBILITY SameMinorVersion)
install(FILES ${PROJECT_BINARY_DIR}/lakeboundConfig.cmake ${PROJECT_BINARY_DIR}/lakeboundConfigVersion.cmake
  DESTINATION ${package_folder} COMPONENT development)

# lakebound_pkg_config(name about LIBS needed-by-name INSIDE what-a-static-library-needs-too)
# Paths are told from the place of the file itself, so that an installation can be moved.
file(RELATIVE_PATH up ${CMAKE_INSTALL_FULL_LIBDIR}/pkgconfig ${CMAKE_INSTALL_PREFIX})
file(RELATIVE_PATH include ${CMAKE_INSTALL_PREFIX} ${CMAKE_INSTALL_FULL_INCLUDEDIR})
file(RELATIVE_PATH libraries ${CMAKE_INSTALL_PREFIX} ${CMAKE_INSTALL_FULL_LIBDIR})
file(RELATIVE_PATH shelf ${CMAKE_INSTALL_PREFIX} ${CMAKE_INSTALL_FULL_DATADIR}/lakebound/formulations)
string(REGEX REPLACE "/$" "" up "${up}")
function(lakebound_pkg_config name about)
  cmake_parse_arguments(arg "" "" "LIBS;REQUIRES;INSIDE" ${ARGN})
  set(title "lakebound-${name}")
  set(requires ${arg_REQUIRES})
  set(private "")
  set(flags "${lakebound_double_words}")
  if(BUILD_SHARED_LIBS)
    set(private ${arg_INSIDE})
    string(APPEND flags " -DLAKEBOUND_SHARED")
  else()
    list(APPEND requires ${arg_INSIDE}) # so that nobody need ask for --static
  endif()
  list(JOIN requires ", " requires)
  list(JOIN private ", " private)
  list(JOIN arg_LIBS " " libs)
  configure_file(${PROJECT_SOURCE_DIR}/lib/lakebound.pc.in ${PROJECT_BINARY_DIR}/lakebound-${name}.pc @ONLY)
  install(FILES ${PROJECT_BINARY_DIR}/lakebound-${name}.pc DESTINATION ${pkg_config_folder} COMPONENT development)
endfunction()
lakebound_pkg_config(core "${PROJECT_DESCRIPTION}: answers from plain quantities" LIBS -llakebound_core -pthread)
lakebound_pkg_config(page "Answers laid out as text and HTML" LIBS -llakebound_page)
lakebound_pkg_config(shelf "Materials, recipes and records as YAML" LIBS -llakebound_shelf
  REQUIRES "lakebound-core = ${PROJECT_VERSION}" INSIDE "yaml-cpp >= 0.7")
lakebound_pkg_config(report "Answers in words and JSON" LIBS -llakebound_report
  REQUIRES "lakebound-core = ${PROJECT_VERSION}" "lakebound-page = ${PROJECT_VERSION}" INSIDE "fmt >= 9")

install(DIRECTORY formulations/ DESTINATION ${shelf_folder} COMPONENT runtime)
file(GLOB pages CONFIGURE_DEPENDS docs/*.md)
install(FILES ${pages} DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/lakebound COMPONENT runtime)
install(DIRECTORY docs/examples docs/pictures DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/lakebound COMPONENT runtime)
