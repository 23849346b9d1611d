# What `cmake --install` puts where, and the Debian package that `cpack` makes of it.
include(GNUInstallDirs)

# The manual page and the completions come from the tables of commands and options.
add_executable(settee_manual src/tools/manual/main.c src/tools/manual/page.c
  src/tools/manual/complete.c)
target_link_libraries(settee_manual PRIVATE settee_cli)
settee_checked(settee_manual)
set(made ${CMAKE_BINARY_DIR}/manual)
find_program(GZIP gzip REQUIRED)
add_custom_command(
  OUTPUT ${made}/settee.1 ${made}/settee.1.gz ${made}/settee.bash ${made}/_settee ${made}/settee.fish
    ${made}/changelog.gz
  COMMAND ${CMAKE_COMMAND} -E make_directory ${made}
  COMMAND settee_manual man ${PROJECT_VERSION} > ${made}/settee.1
  COMMAND settee_manual bash > ${made}/settee.bash
  COMMAND settee_manual zsh > ${made}/_settee
  COMMAND settee_manual fish > ${made}/settee.fish
  COMMAND ${GZIP} -9nc ${made}/settee.1 > ${made}/settee.1.gz
  COMMAND ${GZIP} -9nc ${CMAKE_SOURCE_DIR}/src/install/changelog > ${made}/changelog.gz
  DEPENDS settee_manual ${CMAKE_SOURCE_DIR}/src/install/changelog VERBATIM)
add_custom_target(settee_manual_made ALL DEPENDS ${made}/settee.1)

set(CMAKE_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ
  GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
install(TARGETS settee)
install(FILES ${made}/settee.1.gz DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
install(FILES ${made}/settee.bash RENAME settee
  DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions)
install(FILES ${made}/_settee DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions)
install(FILES ${made}/settee.fish DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d)
install(FILES README.md src/install/copyright ${made}/changelog.gz
  DESTINATION ${CMAKE_INSTALL_DOCDIR})
install(DIRECTORY docs DESTINATION ${CMAKE_INSTALL_DOCDIR})

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME settee)
set(CPACK_PACKAGE_VENDOR "the settee developers")
set(CPACK_PACKAGE_CONTACT "The settee developers <settee@lists.example.org>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "advice for tournament bowlers between shots")
set(CPACK_PACKAGE_DESCRIPTION "settee helps a tournament bowler decide, between shots, what to change
next. You type what you saw in three keys; it answers with the three things
it thinks best to do: which ball, how far to move feet and target, and why.
.
It runs full-screen in a terminal of 80 by 24 or larger and needs no network.
Commands give the same answers to scripts, as text or JSON.")
set(CPACK_STRIP_FILES ON)
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION utils)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
set(CPACK_VERBATIM_VARIABLES ON)
include(CPack)
