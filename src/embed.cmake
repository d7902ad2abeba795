# Puts shipped text into the program, so that it needs no installed folder.
#
#   embed_text(text text/catalogue_text.h catalogue_text fonts/catalogue.toml)
#
# adds to the target `text` a source that defines `std::string_view catalogue_text()`, which the header declares. The
# file's path is from the project's folder. The same file is the script that writes the source when the text changes.
if(CMAKE_SCRIPT_MODE_FILE)
  file(READ "${TEXT}" text)
  if(text MATCHES "[)]embedded\"")
    message(FATAL_ERROR "${TEXT} holds the end mark of the literal that was to hold it.")
  endif()
  file(WRITE "${SOURCE}" "#include \"${HEADER}\"\n\nstd::string_view ordinatio::${FUNCTION}() {\n"
                         "  return R\"embedded(${text})embedded\";\n}\n")
  return()
endif()

set(EMBED_SCRIPT ${CMAKE_CURRENT_LIST_FILE})
function(embed_text target header function file)
  set(source ${CMAKE_CURRENT_BINARY_DIR}/${function}.cpp)
  set(text ${CMAKE_SOURCE_DIR}/${file})
  add_custom_command(
    OUTPUT ${source}
    COMMAND ${CMAKE_COMMAND} -DTEXT=${text} -DSOURCE=${source} -DHEADER=${header} -DFUNCTION=${function}
            -P ${EMBED_SCRIPT}
    DEPENDS ${text} ${EMBED_SCRIPT}
    VERBATIM)
  target_sources(${target} PRIVATE ${source})
endfunction()
