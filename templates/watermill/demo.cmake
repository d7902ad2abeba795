# Runs the program's uses on the watermill's orders and writes one page that shows what came out.
# cmake -D PROGRAM=<ordinatio> -D SHOP=<workshop folder> -D OUT=<folder> -P demo.cmake
cmake_minimum_required(VERSION 3.25)

set(date 2026-11-25)  # an input like any other: the page is the same whenever it is made
set(orders ${SHOP}/orders.csv)

# What is shown says templates/watermill and out, wherever the project lies.
function(shorten_folders text)
  string(REPLACE "${SHOP}" "templates/watermill" short "${${text}}")
  string(REPLACE "${OUT}" "out" short "${short}")
  set(${text} "${short}" PARENT_SCOPE)
endfunction()

# Runs one command. Exit 1 says that something is held, which is expected here.
function(run_command result)
  execute_process(COMMAND ${PROGRAM} ${ARGN} RESULT_VARIABLE status OUTPUT_VARIABLE said ERROR_VARIABLE complaint)
  if(NOT status MATCHES "^[01]$")
    list(JOIN ARGN " " line)
    message(FATAL_ERROR "ordinatio ${line}\nended with ${status}: ${complaint}")
  endif()
  set(${result} "${said}" PARENT_SCOPE)
endfunction()

# The words of a command as a shell takes them.
function(command_line result)
  set(line "")
  foreach(word IN LISTS ARGN)
    shorten_folders(word)
    if(word MATCHES "\n")
      string(REPLACE "\n" "\\n" word "$'${word}'")
    elseif(word MATCHES " ")
      set(word "\"${word}\"")
    endif()
    string(APPEND line " ${word}")
  endforeach()
  set(${result} "${line}" PARENT_SCOPE)
endfunction()

# Runs one command, shows it, and keeps it with what it said in <folder>/account.txt.
function(show_command folder)
  command_line(line ${ARGN})
  message(STATUS "ordinatio${line}")
  run_command(said ${ARGN})
  shorten_folders(said)
  file(WRITE ${OUT}/${folder}/account.txt "$ ordinatio${line}\n\n${said}")
endfunction()

function(escape_html result text)
  string(REPLACE "&" "&amp;" text "${text}")
  string(REPLACE "<" "&lt;" text "${text}")
  string(REPLACE ">" "&gt;" text "${text}")
  string(REPLACE "\"" "&quot;" text "${text}")
  set(${result} "${text}" PARENT_SCOPE)
endfunction()

function(account_of result folder)
  file(READ ${OUT}/${folder}/account.txt said)
  escape_html(said "${said}")
  set(${result} "<pre tabindex=\"0\">${said}</pre>" PARENT_SCOPE)
endfunction()

# The rows of a table: what is held, why, and the mend.
function(held_rows result json)
  set(rows "")
  string(JSON count LENGTH "${json}" held)
  math(EXPR last "${count} - 1")  # the demo's orders always have some
  foreach(i RANGE ${last})
    string(APPEND rows "<tr>")
    foreach(key id where what why mend)
      string(JSON cell GET "${json}" held ${i} ${key})
      escape_html(cell "${cell}")
      if(key STREQUAL "id")
        string(APPEND rows "<th scope=\"row\">${cell}</th>")
      else()
        string(APPEND rows "<td>${cell}</td>")
      endif()
    endforeach()
    string(APPEND rows "</tr>\n")
  endforeach()
  set(${result} "${rows}" PARENT_SCOPE)
endfunction()

# "SVG, DXF, PDF": links to every file of a sheet.
function(links_of result folder stem)
  set(links "")
  foreach(kind svg dxf pdf png json)
    if(EXISTS ${OUT}/${folder}/${stem}.${kind})
      string(TOUPPER ${kind} name)
      list(APPEND links "<a href=\"${folder}/${stem}.${kind}\">${name}<span class=\"quiet\"> of ${stem}</span></a>")
    endif()
  endforeach()
  list(JOIN links ", " links)
  set(${result} "${links}" PARENT_SCOPE)
endfunction()

# A figure of one sheet.
function(figure_of result folder stem)
  file(READ ${OUT}/${folder}/${stem}.json json)
  string(JSON items LENGTH "${json}" items)
  set(picture ${folder}/${stem}.svg)
  if(EXISTS ${OUT}/${folder}/${stem}.png)
    set(picture ${folder}/${stem}.png)
  endif()
  links_of(links ${folder} ${stem})
  string(CONCAT figure
    "<figure><img src=\"${picture}\" alt=\"The bed as it will be engraved: ${stem}, pieces on it: ${items}.\">"
    "<figcaption>${stem}, pieces: ${items}. ${links}</figcaption></figure>\n")
  set(${result} "${figure}" PARENT_SCOPE)
endfunction()

# A figure for every sheet that has a manifest in the folder.
function(figures_of result folder)
  set(figures "")
  file(GLOB manifests ${OUT}/${folder}/*-*.json)
  list(SORT manifests COMPARE NATURAL)
  foreach(manifest IN LISTS manifests)
    get_filename_component(stem ${manifest} NAME_WE)
    figure_of(figure ${folder} ${stem})
    string(APPEND figures "${figure}")
  endforeach()
  set(${result} "${figures}" PARENT_SCOPE)
endfunction()

# Links to every PDF of a folder.
function(pdf_links result folder)
  set(links "")
  file(GLOB pages RELATIVE ${OUT} ${OUT}/${folder}/*.pdf)
  list(SORT pages COMPARE NATURAL)
  foreach(page IN LISTS pages)
    list(APPEND links "<a href=\"${page}\">${page}</a>")
  endforeach()
  list(JOIN links ", " links)
  set(${result} "${links}" PARENT_SCOPE)
endfunction()

# The manifest of the day's sheet that an item lies on.
function(sheet_of result item)
  file(GLOB manifests ${OUT}/day/sheet-*.json)
  foreach(manifest IN LISTS manifests)
    file(READ ${manifest} json)
    if(json MATCHES "\"id\": *\"${item}\"")
      set(${result} ${manifest} PARENT_SCOPE)
      return()
    endif()
  endforeach()
  message(FATAL_ERROR "No sheet of the day has item ${item}.")
endfunction()

foreach(folder day proofs remake stands specimen designs blanks jig align panes time plan settings)
  file(REMOVE_RECURSE ${OUT}/${folder})
endforeach()

show_command(day day ${orders} --shop ${SHOP} --out ${OUT}/day --png)
# The same day once more, as data: the files come out the same to the byte and stay as they are.
run_command(day_data day ${orders} --shop ${SHOP} --out ${OUT}/day --png --json)
held_rows(held_rows "${day_data}")
show_command(proofs proof ${orders} --shop ${SHOP} --out ${OUT}/proofs)
sheet_of(exact 2605-1)
show_command(remake/exact remake 2605-1 --sheet ${exact} --pocket 2 --shop ${SHOP} --out ${OUT}/remake/exact)
sheet_of(corrected 2602-1)
show_command(remake/corrected remake 2602-1 --sheet ${corrected} --shop ${SHOP}
  --text "The Fenwickes\nFord End" --out ${OUT}/remake/corrected)
foreach(design stand-words stand-logo)
  show_command(stands/${design} stands --count 24 --date ${date} --design ${design} --shop ${SHOP}
    --out ${OUT}/stands/${design})
endforeach()

show_command(specimen specimen --shop ${SHOP} --out ${OUT}/specimen)
show_command(designs specimen --designs --shop ${SHOP} --out ${OUT}/designs)
show_command(blanks blanks --shop ${SHOP} --out ${OUT}/blanks)
show_command(jig jig --shop ${SHOP} --out ${OUT}/jig)
# The board as it was found on the machine (invented): a little turned and moved.
show_command(align align ${OUT}/day/sheet-002.json --measured 10.4,9.8 890.4,11.3 9.4,589.8 874.4,591.3 --shop ${SHOP}
  --out ${OUT}/align)
# The machine's speeds and the stations are invented, too.
show_command(time time --orders ${orders} --pitch 0.08,0.1,0.12 --hours 6 --from ${date} --shop ${SHOP})
show_command(plan plan --plaques 300 --from 2026-12-01 --shop ${SHOP} --out ${OUT}/plan)
# Values as a person would give them: none of them is a proposal.
show_command(settings settings-card --size 80x60 --speed "100, 200, 400 mm/s" --power "20 to 80 by 20 %" --shop ${SHOP}
  --out ${OUT}/settings)
show_command(panes panes --breakage 0.05 --shop ${SHOP} --out ${OUT}/panes)
include(${CMAKE_CURRENT_LIST_DIR}/week/week.cmake)

foreach(folder day proofs specimen designs blanks jig align panes time plan settings remake/exact remake/corrected stands/stand-words stands/stand-logo)
  string(MAKE_C_IDENTIFIER ${folder} name)
  account_of(${name}_account ${folder})
  figures_of(${name}_figures ${folder})
endforeach()
pdf_links(proofs_links proofs)
pdf_links(specimen_links specimen)
pdf_links(designs_links designs)
pdf_links(blanks_links blanks)
pdf_links(panes_links panes)
pdf_links(plan_links plan)
pdf_links(settings_links settings)
links_of(jig_links jig jig)
configure_file(${CMAKE_CURRENT_LIST_DIR}/page.html.in ${OUT}/index.html @ONLY)
message(STATUS "Done. Open ${OUT}/index.html")
