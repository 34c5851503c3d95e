# Initial cache for the sanitized build: cmake -C .cmake/sanitize.cmake -S . -B build/sanitize -G Ninja
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
# The library's own checks see what lies within an object: an empty optional that is read, a place behind the last.
set(CMAKE_CXX_FLAGS_DEBUG "-O1 -g1 -D_GLIBCXX_ASSERTIONS" CACHE STRING "")
set(APLOMB_WARNINGS_AS_ERRORS ON CACHE BOOL "")
set(APLOMB_SANITIZE ON CACHE BOOL "")
# Several files are compiled as one: a quarter of the time for the whole, a few seconds more for one file.
set(APLOMB_FILES_AS_ONE 24 CACHE STRING "")
