# What `cmake --install` puts where, and the CMake package that others find: find_package(axlewright) gives axlewright::core
# and axlewright::engine. The same package is in the build folder, for those who do not install. Components: library,
# program, python.

include(CMakePackageConfigHelpers)

set(package_folder "${CMAKE_INSTALL_LIBDIR}/cmake/axlewright")

set(libraries axlewright_core)
if(AXLEWRIGHT_OUTPUT)
  list(APPEND libraries axlewright_output axlewright_disk axlewright_engine)
endif()
foreach(library IN LISTS libraries)
  set(headers)
  get_target_property(type ${library} TYPE)
  if(type STREQUAL "STATIC_LIBRARY")
    set(headers FILE_SET HEADERS DESTINATION "${CMAKE_INSTALL_INCLUDEDIR}/axlewright" COMPONENT library)
  endif()
  install(TARGETS ${library} EXPORT axlewright
    ARCHIVE DESTINATION "${CMAKE_INSTALL_LIBDIR}" COMPONENT library
    ${headers})
endforeach()

# Before 1.0 a minor version may change what headers declare (docs/stability.md).
write_basic_package_version_file("${PROJECT_BINARY_DIR}/axlewrightConfigVersion.cmake" COMPATIBILITY SameMinorVersion)
configure_file(cmake/axlewrightConfig.cmake "${PROJECT_BINARY_DIR}/axlewrightConfig.cmake" COPYONLY)
export(EXPORT axlewright FILE "${PROJECT_BINARY_DIR}/axlewrightTargets.cmake" NAMESPACE axlewright::)
install(EXPORT axlewright FILE axlewrightTargets.cmake NAMESPACE axlewright::
  DESTINATION "${package_folder}" COMPONENT library)
install(FILES
  "${PROJECT_BINARY_DIR}/axlewrightConfig.cmake"
  "${PROJECT_BINARY_DIR}/axlewrightConfigVersion.cmake"
  DESTINATION "${package_folder}" COMPONENT library)

if(AXLEWRIGHT_APPS)
  install(TARGETS axlewright RUNTIME DESTINATION "${CMAKE_INSTALL_BINDIR}" COMPONENT program)
  # The pages, if tools/build-web has made them.
  install(DIRECTORY "${PROJECT_SOURCE_DIR}/build/web/" DESTINATION "${CMAKE_INSTALL_DATADIR}/axlewright/web"
    COMPONENT program OPTIONAL FILES_MATCHING PATTERN "*.html")
endif()
install(DIRECTORY trucks DESTINATION "${CMAKE_INSTALL_DATADIR}/axlewright" COMPONENT program
  FILES_MATCHING PATTERN "*.toml")
install(FILES LICENSE CHANGELOG.md DESTINATION "${CMAKE_INSTALL_DOCDIR}" COMPONENT program)
