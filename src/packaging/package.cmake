# The Debian package, by the preset `package`.
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME ordinatio)
set(CPACK_PACKAGE_VENDOR "Ordinatio")
set(CPACK_PACKAGE_CONTACT "The Ordinatio makers <makers@ordinatio.invalid>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "lay out engraved plaques and the sheets they are made on")
set(CPACK_PACKAGE_DESCRIPTION
    "For a small workshop that engraves to order: a day's orders become bed files\n\
(SVG, DXF) at true size with registration marks, every text as large as it\n\
legibly fits on its own piece of glass, slate, wood or metal. What cannot be\n\
engraved is held with its reason, and holds nobody else up. Proofs, remakes,\n\
stock and a ledger belong to it.")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_RELEASE 1)
set(CPACK_DEBIAN_PACKAGE_SECTION graphics)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
# What the shipped designs name, and the numbers on jig and marks: without them no new workshop's day is set. The rest only
# asks for more: a face that a design names is said to be missing, by its package, and words in a script that no face here
# draws are held. Whoever engraves names in Latin letters alone may leave the 150 MB of the others out.
set(CPACK_DEBIAN_PACKAGE_DEPENDS "fonts-vollkorn, fonts-cabin, fonts-roboto-slab, fonts-dancingscript")
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS
    "fonts-noto-core, fonts-noto-cjk, fonts-yanone-kaffeesatz, fonts-bebas-neue, fonts-allerta, fonts-blankenburg, \
fonts-routed-gothic, fonts-inter-variable")

# Debian's names for the two accounts of changes, packed as its policy asks (12.7), without a time in them.
set(packed ${CMAKE_BINARY_DIR}/packaging)
execute_process(COMMAND date -u -R -d ${ORDINATIO_DATE} OUTPUT_VARIABLE ORDINATIO_DEBIAN_DATE
                OUTPUT_STRIP_TRAILING_WHITESPACE COMMAND_ERROR_IS_FATAL ANY)
configure_file(src/packaging/changelog.in ${packed}/changelog.Debian @ONLY)
configure_file(CHANGELOG.md ${packed}/changelog COPYONLY)
execute_process(COMMAND gzip -9nkf ${packed}/changelog.Debian ${packed}/changelog COMMAND_ERROR_IS_FATAL ANY)
install(FILES ${packed}/changelog.gz ${packed}/changelog.Debian.gz DESTINATION ${documents})
include(CPack)
