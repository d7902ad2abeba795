# Puts shipped text into the program, so that it needs no installed folder.
#
#   embed_text(text text/catalogue_text.h catalogue_text fonts/catalogue.toml)
#
# adds to the target `text` a source that defines `std::string_view catalogue_text()`, which the header declares. The
# file's path is from the project's folder. The same file is the script that writes the source when the text changes.
#
#   embed_files(desk desk/page_texts.h page_files PageFile page/index.html page/desk.css)
#
# adds one that defines `std::span<const PageFile> page_files()`: each file's name and its text. These paths are from the target's
# own folder.
if(CMAKE_SCRIPT_MODE_FILE AND FILES)
  set(entries "")
  string(REPLACE "|" ";" FILES "${FILES}")
  foreach(path ${FILES})
    file(READ "${path}" text)
    if(text MATCHES "[)]embedded\"")
      message(FATAL_ERROR "${path} holds the end mark of the literal that was to hold it.")
    endif()
    # What a page's readers need is not sent to the page: the spaces that lines begin with, a module's comments.
    if(path MATCHES "[.](js|css|html)$")
      string(REGEX REPLACE "\n[ \n]+" "\n" text "${text}")
    endif()
    if(path MATCHES "[.]js$")
      string(REGEX REPLACE "(^|\n)(//[^\n]*\n)+" "\\1" text "${text}")
    endif()
    get_filename_component(name "${path}" NAME)
    string(APPEND entries "      {\"${name}\", R\"embedded(${text})embedded\"},\n")
  endforeach()
  file(WRITE "${SOURCE}" "#include \"${HEADER}\"\n\nstd::span<const ordinatio::${TYPE}> ordinatio::${FUNCTION}() {\n"
                         "  static constexpr ${TYPE} files[] = {\n${entries}  };\n  return files;\n}\n")
  return()
endif()
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

function(embed_files target header function type)
  set(source ${CMAKE_CURRENT_BINARY_DIR}/${function}.cpp)
  list(TRANSFORM ARGN PREPEND ${CMAKE_CURRENT_SOURCE_DIR}/ OUTPUT_VARIABLE files)
  string(REPLACE ";" "|" listed "${files}")
  add_custom_command(
    OUTPUT ${source}
    COMMAND ${CMAKE_COMMAND} -DFILES=${listed} -DSOURCE=${source} -DHEADER=${header} -DFUNCTION=${function} -DTYPE=${type}
            -P ${EMBED_SCRIPT}
    DEPENDS ${files} ${EMBED_SCRIPT}
    VERBATIM)
  target_sources(${target} PRIVATE ${source})
endfunction()
