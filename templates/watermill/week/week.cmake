# The mill's week with a ledger: three exports that overlap, a misprint, an interrupted bed, a proof, questions. Included by
# demo.cmake; gives week_monday … week_friday, what each day's part of the page shows.

set(mill ${OUT}/week/mill)
set(week ${CMAKE_CURRENT_LIST_DIR})

# The mill's workshop as it is on Monday morning: nothing is left of an earlier run.
file(REMOVE_RECURSE ${OUT}/week)
file(COPY ${SHOP}/templates ${SHOP}/logo.svg ${SHOP}/blanks.csv DESTINATION ${mill})
file(COPY ${week}/templates ${week}/shop.toml ${week}/monday.csv ${week}/wednesday.csv ${week}/friday.csv
  DESTINATION ${mill})
# One kind of slate, gauged alike: the day above shows what lies apart.
file(READ ${mill}/blanks.csv pieces)
string(REGEX REPLACE "(blue|green) slate,([0-9.]*),([0-9.]*),[0-9.]*," "slate,\\2,\\3,7," pieces "${pieces}")
file(WRITE ${mill}/blanks.csv "${pieces}")

# A word or two between commands. HTML.
function(tell day words)
  set(week_${day} "${week_${day}}<p>${words}</p>\n" PARENT_SCOPE)
endfunction()

# Runs one command in the mill's folder, as if it were that time, and shows it with what it said. expected: the exit code.
function(at day time expected)
  set(dates "monday=2026-11-23" "tuesday=2026-11-24" "wednesday=2026-11-25" "friday=2026-11-27")
  list(FILTER dates INCLUDE REGEX "^${day}=")
  string(REPLACE "${day}=" "" date "${dates}")
  command_line(line ${ARGN})
  message(STATUS "${day} ${time} ordinatio${line}")
  execute_process(COMMAND ${PROGRAM} ${ARGN} --now ${date}T${time}:00Z WORKING_DIRECTORY ${mill}
    RESULT_VARIABLE status OUTPUT_VARIABLE said ERROR_VARIABLE complaint)
  if(NOT status EQUAL expected)
    message(FATAL_ERROR "ended with ${status}, not ${expected}: ${said}${complaint}")
  endif()
  escape_html(said "${time}  $ ordinatio${line}\n\n${said}${complaint}")
  set(week_${day} "${week_${day}}<pre tabindex=\"0\">${said}</pre>\n" PARENT_SCOPE)
endfunction()

# Pictures of these sheets.
function(show_sheets day)
  set(figures "")
  foreach(stem IN LISTS ARGN)
    figure_of(figure week/mill/out/sheets ${stem})
    string(APPEND figures "${figure}")
  endforeach()
  set(week_${day} "${week_${day}}<div class=\"sheets\">\n${figures}</div>\n" PARENT_SCOPE)
endfunction()

tell(monday "The weekend's orders. One has an emoji, which no face draws; two want a keepsake, which is not engraved before
the customer has said yes to a proof. A first look changes nothing; then the orders are taken in and laid on a sheet.")
at(monday 08:30 1 intake monday.csv --dry-run)
at(monday 08:40 1 day monday.csv --png)
show_sheets(monday sheet-001)
at(monday 12:30 0 engraved sheet-001)

tell(tuesday "A slate has lost a flake. The program knows where it lay and what was on it: the piece is written off, and the
words go on a fresh one exactly as they were, in pocket 2.")
at(tuesday 09:00 0 remake 3110-1/2 --reason "a flake came off with the last row" --pocket 2)
show_sheets(tuesday remake-002)
at(tuesday 10:00 0 engraved remake-002)
tell(tuesday "Somebody takes the sheep out of order 3107. Somebody else says that the customer wants to do so herself.")
at(tuesday 11:00 0 correct 3107-1/F --text "Lambs / Pasture Lane")
at(tuesday 11:05 0 undo 3107-1/F)
tell(tuesday "A number that was misread finds no other customer's piece: its check character does not fit.")
at(tuesday 11:10 2 history 3107-2/F)
tell(tuesday "The proof of the keepsake, for the customer: <a href=\"week/mill/out/proofs/proofs.pdf\">proofs.pdf</a>.")
at(tuesday 11:20 0 proof --item 3108-1/P)

tell(wednesday "The export of the last days: it overlaps with Monday's. Order 3104 wants one piece more, the sheep are gone from
3107, 3109 is cancelled. Nothing of that touches what is engraved, so it is done, and told. The keepsake waits for a yes.")
at(wednesday 08:40 1 day wednesday.csv --png)
tell(wednesday "The customer has said yes.")
at(wednesday 10:15 0 approve 3108-1/P)
at(wednesday 10:30 0 loading sheet-003)
tell(wednesday "The bed stops in its sixth pocket. Five slates are done, one is lost; the sheet of the rest has the same marks
and the same pockets. The interrupted sheet's files go aside, so that nobody runs them again.")
at(wednesday 11:40 0 resume sheet-003 --done 1-5 --spoiled 6 --reason "the belt slipped")
show_sheets(wednesday earlier-001/sheet-003 rest-004)
at(wednesday 14:00 0 engraved rest-004)
at(wednesday 14:10 0 list)
at(wednesday 14:15 0 run-sheet)

tell(friday "The last export changes what is engraved already. That is for a person to decide: nothing happens until the
questions are answered. The Fenwickes get a new slate; The Leat House takes hers after all, as she said on the telephone.")
at(friday 08:30 1 intake friday.csv)
at(friday 08:35 1 answer 1 take)
at(friday 08:36 0 answer 2 keep)
tell(friday "What waits: the Fenwickes' slate, the one that was lost on Wednesday, the approved keepsake, and what is new.")
at(friday 08:40 1 day --png)
show_sheets(friday sheet-005)
tell(friday "The heavy slate is to lie at the end of the bed: the two change places, on the bed and in the sheet's files.")
at(friday 08:50 1 move 3117-1/8 --pocket 1)
show_sheets(friday sheet-005)
at(friday 12:30 0 engraved sheet-005)
tell(friday "A stand for every slate that has none, each with its number.")
at(friday 13:00 0 stands --date 2026-11-27 --batch "November")
show_sheets(friday stands-006)
tell(friday "Parcels.")
at(friday 14:00 0 packed --order 3112)
at(friday 14:02 0 packed --order 3110)
at(friday 14:04 0 packed 3102-1/2 3108-1/P)
at(friday 14:06 1 packed 3104-1/M 3104-2/K)
tell(friday "What is not packed yet, on paper too: <a href=\"week/mill/friday-list.csv\">friday-list.csv</a>, in which no cell is
a formula to a spreadsheet.")
at(friday 14:30 0 list --csv friday-list.csv)
tell(friday "What became of the item that was made again, of the piece that lost a flake, and of the sheet that was
interrupted.")
at(friday 14:40 0 history 3110-1)
at(friday 14:41 0 history S-60)
at(friday 14:42 0 history sheet-003)
tell(friday "How much slate is left, and how much of it to reckon with; of the three that are spoiled two went wrong, and the
Fenwicks' has a name that nobody wants. A copy of the ledger, for the stick; and proof that ledger and files agree.")
at(friday 15:00 0 stock)
at(friday 15:10 0 backup friday.ledger)
at(friday 15:11 0 check)
