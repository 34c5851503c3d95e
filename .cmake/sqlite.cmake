# The SQLite of the program: SQLite3 Multiple Ciphers (MIT), which can seal records. Its source is fetched by name and checksum
# from the npm registry, kept in the user's cache, and built as the shared library that Qt's driver asks for. Where it cannot
# be had, the system's SQLite serves; records are plain then, and the build says so.
option(APLOMB_SEALING "Build with the SQLite that can seal records" ON)
set(sqlite_package better-sqlite3-multiple-ciphers-13.0.3.tgz)
set(sqlite_address https://registry.npmjs.org/better-sqlite3-multiple-ciphers/-/${sqlite_package})
set(sqlite_sha512 51869b33cdabd49f384cb59cfd2b33a07b3a5e8a56a65ff61c283736e8b52546855e0fd52ecc3390fa306224612bfe027ed23c760b62930c9941e70c95dac6c5)
set(sqlite_cache "$ENV{XDG_CACHE_HOME}")
if(NOT sqlite_cache)
  set(sqlite_cache "$ENV{HOME}/.cache")
endif()
set(sqlite_archive ${sqlite_cache}/aplomb/${sqlite_package})
set(sqlite_folder ${CMAKE_BINARY_DIR}/sqlite/package/deps/sqlite3)

# Whether a file is the very one that is pinned.
function(is_pinned file result)
  set(${result} FALSE PARENT_SCOPE)
  if(EXISTS ${file})
    file(SHA512 ${file} sum)
    if(sum STREQUAL sqlite_sha512)
      set(${result} TRUE PARENT_SCOPE)
    endif()
  endif()
endfunction()

add_library(house_sqlite INTERFACE)
is_pinned(${sqlite_archive} sqlite_is_there)
if(APLOMB_SEALING AND NOT sqlite_is_there)
  file(DOWNLOAD ${sqlite_address} ${sqlite_archive}.part TIMEOUT 120 STATUS sqlite_status)
  is_pinned(${sqlite_archive}.part sqlite_is_there)
  if(sqlite_is_there)
    file(RENAME ${sqlite_archive}.part ${sqlite_archive})
  else()
    file(REMOVE ${sqlite_archive}.part)
    message(NOTICE "Note: the SQLite that can seal records could not be fetched (${sqlite_status}); this build takes the system's.")
  endif()
endif()

if(APLOMB_SEALING AND sqlite_is_there)
  if(NOT EXISTS ${sqlite_folder}/sqlite3.c)
    file(ARCHIVE_EXTRACT INPUT ${sqlite_archive} DESTINATION ${CMAKE_BINARY_DIR}/sqlite PATTERNS package/deps/sqlite3/*)
  endif()
  # A page that could not be read was taken for one that could, whatever lay in memory (mcIoRead; test_failing_calls).
  file(STRINGS ${sqlite_folder}/sqlite3.c sqlite_unmended REGEX "if [(]rc == SQLITE_IOERR_SHORT_READ[)]")
  if(sqlite_unmended)
    execute_process(COMMAND_ERROR_IS_FATAL ANY COMMAND
      sed -i "s/if (rc == SQLITE_IOERR_SHORT_READ)/if (rc != SQLITE_OK)/" ${sqlite_folder}/sqlite3.c)
  endif()
  add_library(sqlite SHARED ${sqlite_folder}/sqlite3.c)
  set_target_properties(sqlite PROPERTIES OUTPUT_NAME sqlite3 SOVERSION 0 LIBRARY_OUTPUT_DIRECTORY ${CMAKE_BINARY_DIR}/lib
                        AUTOMOC OFF)
  target_compile_options(sqlite PRIVATE -O2 -g0 -w)
  # What the system's has, without what would read a file's name as an address; no lock within a connection, which one thread
  # uses at a time; tables in memory for what is temporary, and a way to read every page.
  target_compile_definitions(sqlite PRIVATE
    SQLITE_THREADSAFE=2 SQLITE_DEFAULT_MEMSTATUS=0 SQLITE_ENABLE_COLUMN_METADATA SQLITE_ENABLE_FTS5 SQLITE_ENABLE_MATH_FUNCTIONS SQLITE_SECURE_DELETE
    SQLITE_TEMP_STORE=2 SQLITE_ENABLE_DBPAGE_VTAB SQLITE_DQS=0)
  target_link_libraries(sqlite PRIVATE m ${CMAKE_DL_LIBS})
  target_include_directories(house_sqlite SYSTEM INTERFACE ${sqlite_folder})
  target_link_libraries(house_sqlite INTERFACE sqlite)
  target_compile_definitions(house_sqlite INTERFACE APLOMB_SEALING)
else()
  pkg_check_modules(SQLITE REQUIRED IMPORTED_TARGET sqlite3) # the one behind Qt Sql
  target_link_libraries(house_sqlite INTERFACE PkgConfig::SQLITE)
endif()
