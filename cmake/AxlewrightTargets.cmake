# How our targets are made, so that each source is named once.

# What every target of ours gets. No contraction of a * b + c and no fast-math: the same sources give the same digits
# with every compiler and at every optimisation level. Warnings and sanitizers belong to the presets.
function(axlewright_target target)
  target_compile_features(${target} PUBLIC cxx_std_20)
  set_target_properties(${target} PROPERTIES CXX_EXTENSIONS OFF)
  target_compile_options(${target} PRIVATE -ffp-contract=off)
endfunction()

# axlewright_library(core): a static library, seen by others as axlewright::core. It may go into a shared library, as the
# Python module is one; names stay within, so calls among its own files cost nothing more for that.
function(axlewright_library name)
  add_library(axlewright_${name} STATIC)
  add_library(axlewright::${name} ALIAS axlewright_${name})
  axlewright_target(axlewright_${name})
  set_target_properties(axlewright_${name} PROPERTIES
    EXPORT_NAME ${name}
    VERIFY_INTERFACE_HEADER_SETS ON)
  if(NOT EMSCRIPTEN)
    set_target_properties(axlewright_${name} PROPERTIES
      POSITION_INDEPENDENT_CODE ON
      CXX_VISIBILITY_PRESET hidden
      VISIBILITY_INLINES_HIDDEN ON)
  endif()
  target_sources(axlewright_${name} PUBLIC FILE_SET HEADERS BASE_DIRS "${PROJECT_SOURCE_DIR}")
endfunction()

# axlewright_sources_use(core fmt::headers): libraries of headers alone that the sources include and no header of ours does.
# Whoever uses the installed library need not have them, which target_link_libraries() would ask for, PRIVATE or not.
function(axlewright_sources_use library)
  set_property(TARGET axlewright_${library} APPEND PROPERTY LINK_LIBRARIES ${ARGN})
endfunction()

# axlewright_stage(core base HEADERS vec.h SOURCES text.cpp TESTS text_test.cpp): the files of the folder base of the
# library core; the tests go into the program core_test.
function(axlewright_stage library stage)
  cmake_parse_arguments(PARSE_ARGV 2 arg "" "" "HEADERS;SOURCES;TESTS")
  if(arg_UNPARSED_ARGUMENTS)
    message(FATAL_ERROR "axlewright_stage(${library} ${stage}): say HEADERS, SOURCES or TESTS before "
      "${arg_UNPARSED_ARGUMENTS}")
  endif()
  list(TRANSFORM arg_HEADERS PREPEND "${CMAKE_CURRENT_SOURCE_DIR}/${stage}/")
  list(TRANSFORM arg_SOURCES PREPEND "${CMAKE_CURRENT_SOURCE_DIR}/${stage}/")
  list(TRANSFORM arg_TESTS PREPEND "${CMAKE_CURRENT_SOURCE_DIR}/${stage}/")
  target_sources(axlewright_${library}
    PRIVATE ${arg_SOURCES}
    PUBLIC FILE_SET HEADERS FILES ${arg_HEADERS})
  set_property(TARGET axlewright_${library} APPEND PROPERTY AXLEWRIGHT_TEST_SOURCES ${arg_TESTS})
endfunction()

# axlewright_test(name SOURCES ... LINK ... [PREFIX x.]): a GoogleTest program; each of its cases is a test of the suite.
function(axlewright_test name)
  cmake_parse_arguments(PARSE_ARGV 1 arg "" "PREFIX" "SOURCES;LINK")
  add_executable(${name} ${arg_SOURCES})
  axlewright_target(${name})
  target_link_libraries(${name} PRIVATE ${arg_LINK} GTest::gtest_main)
  target_compile_definitions(${name} PRIVATE "AXLEWRIGHT_ROOT=\"${PROJECT_SOURCE_DIR}\"")
  gtest_discover_tests(${name} WORKING_DIRECTORY "${PROJECT_SOURCE_DIR}" NO_PRETTY_VALUES
    TEST_PREFIX "${arg_PREFIX}"
    PROPERTIES TIMEOUT 300 LABELS gtest DISCOVERY_TIMEOUT 60)
endfunction()

# axlewright_library_tests(core): makes the program core_test of the tests that the stages of the library named.
function(axlewright_library_tests library)
  get_target_property(sources axlewright_${library} AXLEWRIGHT_TEST_SOURCES)
  if(AXLEWRIGHT_TESTS AND sources)
    axlewright_test(${library}_test SOURCES ${sources} LINK axlewright::${library} Ceres::headers rapidcheck)
  endif()
endfunction()

# axlewright_simbody_library(name source...): a library that may use Simbody, whose headers are C++17 at most and which
# crashes if compiled with NDEBUG. The library's own header shows none of its types.
function(axlewright_simbody_library name)
  find_package(Simbody 3.7 REQUIRED)
  add_library(${name} STATIC ${ARGN})
  set_target_properties(${name} PROPERTIES CXX_STANDARD 17 CXX_STANDARD_REQUIRED ON CXX_EXTENSIONS OFF)
  target_include_directories(${name} SYSTEM PRIVATE ${Simbody_INCLUDE_DIR})
  target_include_directories(${name} PUBLIC "${PROJECT_SOURCE_DIR}")
  # GCC 12 takes the strides of its matrices for reads out of bounds.
  target_compile_options(${name} PRIVATE -UNDEBUG -ffp-contract=off -Wno-array-bounds)
  target_link_libraries(${name} PRIVATE ${Simbody_LIBRARIES})
endfunction()

if(AXLEWRIGHT_TESTS)
  find_package(GTest REQUIRED)
  find_package(rapidcheck REQUIRED)
  include(GoogleTest)
  # Dual numbers to hold our derivatives against: one header of Ceres. Its library is not linked (GPL parts behind it).
  find_path(AXLEWRIGHT_CERES_INCLUDE ceres/jet.h REQUIRED)
  add_library(Ceres::headers INTERFACE IMPORTED GLOBAL)
  target_include_directories(Ceres::headers INTERFACE "${AXLEWRIGHT_CERES_INCLUDE}")
  target_link_libraries(Ceres::headers INTERFACE Eigen3::Eigen)
endif()
