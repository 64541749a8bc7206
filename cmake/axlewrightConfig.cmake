# find_package(axlewright): axlewright::core, the engine without files and text, and axlewright::engine, all of it.
include(CMakeFindDependencyMacro)
find_dependency(Eigen3 3.4 NO_MODULE)
find_dependency(nlohmann_json 3.11)
find_dependency(tl-expected)
find_dependency(tomlplusplus 3.3)
include("${CMAKE_CURRENT_LIST_DIR}/axlewrightTargets.cmake")
