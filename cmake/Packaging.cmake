include(GNUInstallDirs)
install(TARGETS quillbench quillbench-cli RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
