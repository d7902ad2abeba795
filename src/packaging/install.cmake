# Where `cmake --install` puts the program, its pages, and a workshop and the demo to learn from. The catalogue of faces and
# the templates that `ordinatio new` gives out are inside the program.
include(GNUInstallDirs)

set(ORDINATIO_ZSH_FOLDER ${CMAKE_INSTALL_DATADIR}/zsh/site-functions CACHE STRING "where zsh looks for completions")

set(made ${CMAKE_BINARY_DIR}/src/pages/made)
set(documents ${CMAKE_INSTALL_DATADIR}/doc/ordinatio)
install(TARGETS ordinatio RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
install(DIRECTORY ${made}/man/ DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
install(FILES ${made}/completions/ordinatio.bash
        DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions RENAME ordinatio)
install(FILES ${made}/completions/_ordinatio DESTINATION ${ORDINATIO_ZSH_FOLDER})
install(FILES ${made}/completions/ordinatio.fish DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d)
install(DIRECTORY ${made}/workshop DESTINATION ${documents}/examples)
install(DIRECTORY templates/watermill DESTINATION ${documents}/examples PATTERN sheet.png EXCLUDE)
install(FILES README.md src/packaging/copyright DESTINATION ${documents})
