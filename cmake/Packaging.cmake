# What is installed, and the Debian package: cmake --build --preset release --target package, or, as it is published,
# cmake --workflow --preset package. With SOURCE_DATE_EPOCH set two builds give the same bytes.
include(GNUInstallDirs)
set(resources ${PROJECT_SOURCE_DIR}/resources)
install(TARGETS quillbench quillbench-cli RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
install(FILES ${resources}/quillbench.desktop DESTINATION ${CMAKE_INSTALL_DATADIR}/applications)
install(FILES ${resources}/quillbench.metainfo.xml DESTINATION ${CMAKE_INSTALL_DATADIR}/metainfo)
install(FILES ${resources}/quillbench.mime.xml RENAME quillbench.xml
        DESTINATION ${CMAKE_INSTALL_DATADIR}/mime/packages)
install(FILES ${resources}/icons/quillbench.svg
        DESTINATION ${CMAKE_INSTALL_DATADIR}/icons/hicolor/scalable/apps)
install(FILES ${resources}/package/copyright DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/quillbench)

# Policy wants changelog and manual pages compressed as far as gzip goes, without a time of day.
find_program(QUILLBENCH_GZIP gzip REQUIRED)
# quillbench_compressed(OUT IN): OUT is IN compressed, made with everything else.
function(quillbench_compressed out in)
    add_custom_command(OUTPUT ${out} DEPENDS ${in} VERBATIM
                       COMMAND ${CMAKE_COMMAND} -E copy ${in} ${out}.whole
                       COMMAND sh -c "${QUILLBENCH_GZIP} -9nc '${out}.whole' > '${out}'")
endfunction()
set(made ${PROJECT_BINARY_DIR}/reference)
set(man ${resources}/man)
file(MAKE_DIRECTORY ${made})
set(VERSION ${PROJECT_VERSION})
configure_file(${man}/quillbench.1.in ${made}/quillbench.1 @ONLY)
set(COMMANDS "@COMMANDS@") # which the program itself fills in
configure_file(${man}/quillbench-cli.1.in ${made}/quillbench-cli.1.in @ONLY)
add_custom_command(
    OUTPUT ${made}/quillbench-cli.1 ${made}/bash ${made}/zsh ${made}/fish
    DEPENDS quillbench-cli-reference ${made}/quillbench-cli.1.in VERBATIM
    COMMAND quillbench-cli-reference manual ${made}/quillbench-cli.1.in > ${made}/quillbench-cli.1
    COMMAND quillbench-cli-reference bash > ${made}/bash
    COMMAND quillbench-cli-reference zsh > ${made}/zsh
    COMMAND quillbench-cli-reference fish > ${made}/fish)
quillbench_compressed(${made}/quillbench.1.gz ${made}/quillbench.1)
quillbench_compressed(${made}/quillbench-cli.1.gz ${made}/quillbench-cli.1)
quillbench_compressed(${made}/changelog.gz ${resources}/package/changelog)
add_custom_target(quillbench_reference ALL
    DEPENDS ${made}/quillbench.1.gz ${made}/quillbench-cli.1.gz ${made}/changelog.gz)
install(FILES ${made}/changelog.gz DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/quillbench)
install(FILES ${made}/quillbench.1.gz ${made}/quillbench-cli.1.gz DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
install(FILES ${made}/bash RENAME quillbench-cli
        DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions)
install(FILES ${made}/zsh RENAME _quillbench-cli
        DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions)
install(FILES ${made}/fish RENAME quillbench-cli.fish
        DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME quillbench)
set(CPACK_PACKAGE_VENDOR "The Quillbench authors")
set(CPACK_PACKAGE_CONTACT "The Quillbench authors <authors@quillbench.invalid>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "tuning and regulation of harpsichords, spinets and virginals")
set(CPACK_DEBIAN_PACKAGE_DESCRIPTION
"Quillbench hears which string was plucked, says how it stands with its
uncertainty and what to do with the pin, and asks for the next one: one hand on
the hammer, the other at the keys, the screen two metres away.
.
It leads through an octave or the whole instrument, by meter or by ear, counts
beats, says weeks later what moved, looks after plectra and dampers, keeps a
logbook, holds the historical temperaments and teaches to hear beats. The same
engine measures recordings on the command line (quillbench-cli).")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION sound)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
# What no symbol tells: Qt's plug-in that draws the icons, and the type that the window is set in.
set(CPACK_DEBIAN_PACKAGE_DEPENDS "libqt6svg6, fonts-dejavu-core")
# The sound server, Qt's own words in other languages, desktops without X, what to do said aloud.
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS
    "libasound2-plugins, qt6-translations-l10n, qt6-wayland, speech-dispatcher")
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
include(CPack)
