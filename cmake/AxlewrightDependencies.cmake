# Finds what the core is made of: libraries that are headers alone, so that the same sources compile natively and to
# WebAssembly. fmt's functions are compiled by one file of ours (engine/base/fmt_library.cpp). toml++'s header-only mode
# aborts on some bad input, so natively it is the system's library and for WebAssembly one file of ours compiles it
# (engine/truck/toml_library.cpp).

# For WebAssembly the native headers serve, through a folder of links: /usr/include itself would bring the native C
# library's headers along. axlewright_link_headers(Eigen/Core Eigen3::Eigen) links the folder that holds Eigen/Core.
function(axlewright_link_headers header target)
  cmake_path(GET header PARENT_PATH folder)
  find_path(AXLEWRIGHT_${folder}_PARENT "${header}" REQUIRED
    PATHS /usr/include/eigen3 /usr/include /usr/local/include NO_DEFAULT_PATH NO_CMAKE_FIND_ROOT_PATH)
  set(links "${PROJECT_BINARY_DIR}/headers")
  file(MAKE_DIRECTORY "${links}")
  file(CREATE_LINK "${AXLEWRIGHT_${folder}_PARENT}/${folder}" "${links}/${folder}" SYMBOLIC)
  add_library(${target} INTERFACE IMPORTED GLOBAL)
  target_include_directories(${target} INTERFACE "${links}")
  target_compile_definitions(${target} INTERFACE ${ARGN})
endfunction()

if(EMSCRIPTEN)
  axlewright_link_headers(Eigen/Core Eigen3::Eigen)
  axlewright_link_headers(fmt/format.h fmt::headers)
  axlewright_link_headers(nlohmann/json.hpp nlohmann_json::nlohmann_json)
  axlewright_link_headers(tl/expected.hpp tl::expected)
  axlewright_link_headers(fast_float/fast_float.h FastFloat::fast_float)
  axlewright_link_headers(toml++/toml.h tomlplusplus::tomlplusplus TOML_HEADER_ONLY=0)
else()
  find_package(Eigen3 3.4 REQUIRED NO_MODULE)
  find_package(fmt 9.1 REQUIRED)
  add_library(fmt::headers INTERFACE IMPORTED GLOBAL)
  target_include_directories(fmt::headers INTERFACE $<TARGET_PROPERTY:fmt::fmt,INTERFACE_INCLUDE_DIRECTORIES>)
  find_package(nlohmann_json 3.11 REQUIRED)
  find_package(tl-expected REQUIRED)
  find_package(FastFloat REQUIRED)
  find_package(tomlplusplus 3.3 REQUIRED)
endif()
