# Every flag and definition of the house, in one place.
add_library(house_rules INTERFACE)
target_include_directories(house_rules INTERFACE ${CMAKE_SOURCE_DIR})
target_compile_definitions(house_rules INTERFACE
  QT_NO_CAST_FROM_ASCII QT_NO_CAST_TO_ASCII QT_NO_CAST_FROM_BYTEARRAY QT_NO_URL_CAST_FROM_STRING
  QT_NO_KEYWORDS QT_NO_FOREACH QT_NO_NARROWING_CONVERSIONS_IN_CONNECT QT_DEPRECATED_WARNINGS)
target_compile_options(house_rules INTERFACE
  -Wall -Wextra -Wpedantic $<$<NOT:$<BOOL:$<TARGET_PROPERTY:UNITY_BUILD>>>:-Wshadow>
  $<$<AND:$<CXX_COMPILER_ID:Clang>,$<NOT:$<BOOL:$<TARGET_PROPERTY:UNITY_BUILD>>>>:-Wshadow-all> -Wconversion -Wold-style-cast -Wnon-virtual-dtor -Woverloaded-virtual
  -Wswitch-enum -fpch-preprocess $<$<BOOL:${APLOMB_WARNINGS_AS_ERRORS}>:-Werror>)
# Compiles several files as one where that is asked for. One file's helper is then no
# business of another's names, so -Wshadow is left to the ordinary build.
function(house_unit target)
  if(APLOMB_FILES_AS_ONE)
    set_target_properties(${target} PROPERTIES UNITY_BUILD ON UNITY_BUILD_BATCH_SIZE ${APLOMB_FILES_AS_ONE})
  endif()
endfunction()

# Left out are the checks that watch every single pointer: what they find mostly crashes under the address sanitizer too, and
# they take two fifths of the time to compile.
if(APLOMB_SANITIZE)
  target_compile_options(house_rules INTERFACE -fsanitize=address,undefined -fno-sanitize=null,alignment,object-size,vptr
    -fno-sanitize-recover=undefined -fno-omit-frame-pointer)
  target_link_options(house_rules INTERFACE -fsanitize=address,undefined)
endif()

# Many test programs are linked: a fast linker where there is one.
find_program(MOLD mold)
if(MOLD)
  target_link_options(house_rules INTERFACE -fuse-ld=mold)
endif()

# moc reads every header on its way and needs none of the system's: without them it is forty times as fast.
get_target_property(moc_program Qt6::moc LOCATION)
file(CONFIGURE OUTPUT ${CMAKE_BINARY_DIR}/moc @ONLY CONTENT [[#!/bin/sh
for word do
    shift
    case $word in -I/usr/*) ;; *) set -- "$@" "$word" ;; esac
done
exec @moc_program@ "$@"
]])
file(CHMOD ${CMAKE_BINARY_DIR}/moc PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE)
get_target_property(moc_configurations Qt6::moc IMPORTED_CONFIGURATIONS)
foreach(configuration IN LISTS moc_configurations)
  set_target_properties(Qt6::moc PROPERTIES IMPORTED_LOCATION_${configuration} ${CMAKE_BINARY_DIR}/moc)
endforeach()
