# Installing: libraries, headers, CMake package, pkg-config file and the shipped shelf.
set(package_folder ${CMAKE_INSTALL_LIBDIR}/cmake/lakebound)

# One export per library, so that a program that wants only core loads only core.
foreach(name core page shelf report)
  if(TARGET lakebound_${name})
    get_target_property(headers lakebound_${name} INTERFACE_HEADER_SETS)
    list(TRANSFORM headers PREPEND "FILE_SET;")
    install(TARGETS lakebound_${name} EXPORT lakebound-${name}
      ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR}
      LIBRARY DESTINATION ${CMAKE_INSTALL_LIBDIR}
      ${headers})
    install(EXPORT lakebound-${name} NAMESPACE lakebound:: DESTINATION ${package_folder})
  endif()
endforeach()
configure_package_config_file(lib/lakeboundConfig.cmake.in ${PROJECT_BINARY_DIR}/lakeboundConfig.cmake
  INSTALL_DESTINATION ${package_folder})
write_basic_package_version_file(${PROJECT_BINARY_DIR}/lakeboundConfigVersion.cmake
  COMPATIBILITY SameMinorVersion)
install(FILES ${PROJECT_BINARY_DIR}/lakeboundConfig.cmake ${PROJECT_BINARY_DIR}/lakeboundConfigVersion.cmake
  DESTINATION ${package_folder})
configure_file(lib/lakebound.pc.in ${PROJECT_BINARY_DIR}/lakebound.pc @ONLY)
install(FILES ${PROJECT_BINARY_DIR}/lakebound.pc DESTINATION ${CMAKE_INSTALL_LIBDIR}/pkgconfig)
install(DIRECTORY formulations/ DESTINATION ${CMAKE_INSTALL_DATADIR}/lakebound/formulations)
