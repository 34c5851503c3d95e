# Where the parts of the program go on a computer (freedesktop.org: base directories, icon themes, shared MIME info, AppStream),
# and the package of them that cpack makes.
include(GNUInstallDirs)
set(APLOMB_RELEASED 2026-12-01)

# The private SQLite is looked for beside the program and at its place, for where /proc is missing $ORIGIN says nothing.
set(private_libraries ${CMAKE_INSTALL_LIBDIR}/aplomb)
install(TARGETS aplomb RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
if(TARGET sqlite)
  install(TARGETS sqlite LIBRARY DESTINATION ${private_libraries} NAMELINK_SKIP)
  set_target_properties(aplomb PROPERTIES INSTALL_RPATH
    "\$ORIGIN/../${private_libraries};${CMAKE_INSTALL_PREFIX}/${private_libraries}")
endif()

# What is made at build time: the icon in every size, the manual and the completion out of the program's own table.
set(made ${CMAKE_BINARY_DIR}/installed)
set(desktop ${CMAKE_SOURCE_DIR}/resources/desktop)
set(sizes 16 22 24 32 48 64 128 256 512)
list(TRANSFORM sizes REPLACE "(.+)" "${made}/\\1.png" OUTPUT_VARIABLE pictures)
file(MAKE_DIRECTORY ${made})
add_executable(draw_icon ${desktop}/draw_icon.cpp)
target_link_libraries(draw_icon PRIVATE Qt6::Svg)
add_custom_command(OUTPUT ${pictures} COMMAND draw_icon ${desktop}/aplomb.svg ${made} ${sizes}
  DEPENDS draw_icon ${desktop}/aplomb.svg)
configure_file(${desktop}/changelog.in ${made}/changelog @ONLY)
add_custom_command(OUTPUT ${made}/aplomb.1.gz ${made}/completion ${made}/changelog.gz
  COMMAND aplomb --man-page > ${made}/aplomb.1
  COMMAND aplomb --bash-completion > ${made}/completion
  COMMAND gzip -9nkf ${made}/aplomb.1 ${made}/changelog
  DEPENDS aplomb ${made}/changelog VERBATIM)
add_custom_target(made_for_installing ALL DEPENDS ${pictures} ${made}/aplomb.1.gz)
configure_file(${desktop}/aplomb.metainfo.xml.in ${made}/aplomb.metainfo.xml @ONLY)

foreach(size ${sizes})
  install(FILES ${made}/${size}.png RENAME aplomb.png
    DESTINATION ${CMAKE_INSTALL_DATADIR}/icons/hicolor/${size}x${size}/apps)
endforeach()
install(FILES ${desktop}/aplomb.svg DESTINATION ${CMAKE_INSTALL_DATADIR}/icons/hicolor/scalable/apps)
install(FILES ${desktop}/aplomb.desktop DESTINATION ${CMAKE_INSTALL_DATADIR}/applications)
install(FILES ${made}/aplomb.metainfo.xml DESTINATION ${CMAKE_INSTALL_DATADIR}/metainfo)
install(FILES ${desktop}/aplomb.mime.xml RENAME aplomb.xml DESTINATION ${CMAKE_INSTALL_DATADIR}/mime/packages)
install(FILES ${made}/aplomb.1.gz DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
install(FILES ${made}/completion RENAME aplomb DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions)
install(FILES ${desktop}/copyright ${made}/changelog.gz DESTINATION ${CMAKE_INSTALL_DOCDIR})

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME aplomb)
set(CPACK_PACKAGE_CONTACT "Aplomb developers <aplomb@example.org>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "records coordination, balance and gait examinations")
set(CPACK_DEBIAN_PACKAGE_DESCRIPTION "For neurologists and neuro-rehabilitation physiotherapists: records
examinations of coordination, balance and gait, says which changes are larger
than measurement error can explain, with the arithmetic and the source, and
writes letters.
.
Aplomb decides nothing: local protocols and licensed practice come first. It is
not a certified medical device.")
set(CPACK_PACKAGING_INSTALL_PREFIX ${CMAKE_INSTALL_PREFIX})
set(CPACK_STRIP_FILES ON)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS
  OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS_PRIVATE_DIRS ${CMAKE_BINARY_DIR}/lib)
# What no library says: the driver and the reader of pictures that are loaded by name (of the latter before and after Debian 13
# divided it), and the letters of the letters.
set(CPACK_DEBIAN_PACKAGE_DEPENDS "libqt6sql6-sqlite, libqt6svg6 (<< 6.6) | qt6-svg-plugins, fonts-dejavu-core, fonts-liberation2 | fonts-liberation")
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS "qt6-wayland, qt6-translations-l10n, shared-mime-info, hicolor-icon-theme")
set(CPACK_DEBIAN_PACKAGE_SUGGESTS "hunspell-en-gb | hunspell-dictionary")
include(CPack)
