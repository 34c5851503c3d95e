# Initial cache for development: cmake -C .cmake/dev.cmake -S . -B build/dev -G Ninja
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(APLOMB_WARNINGS_AS_ERRORS ON CACHE BOOL "")
# Lines for a stack trace; everything else a debugger could want is a third of the compilation.
set(CMAKE_CXX_FLAGS_DEBUG "-g1" CACHE STRING "")
