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
install(DIRECTORY templates/watermill DESTINATION ${documents}/examples)

# README's links lead to where its neighbours are installed.
set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS README.md)
file(READ README.md readme)
string(REPLACE "](src/manual/" "](manual/" readme "${readme}")
string(REPLACE "](templates/watermill/" "](examples/watermill/" readme "${readme}")
string(REPLACE "([LICENSE](LICENSE))" "([copyright](copyright))" readme "${readme}")
string(REGEX REPLACE "\\[([A-Z]+[.]md)\\]\\([A-Z]+[.]md\\)" "\\1, in the source," readme "${readme}")
file(WRITE ${CMAKE_BINARY_DIR}/packaging/README.md "${readme}")
install(FILES ${CMAKE_BINARY_DIR}/packaging/README.md src/packaging/copyright DESTINATION ${documents})
install(DIRECTORY src/manual/ DESTINATION ${documents}/manual FILES_MATCHING PATTERN "*.md")
