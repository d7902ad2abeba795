# bash completions.bash COMPLETION FOLDER: what the shell offers, asked as the shell asks. FOLDER holds workshop and watermill.
source "$1"
cd "$2" || exit 2
failures=0

# expect "what is offered, sorted" word …: the last word is the one that is being typed
expect() {
  local wanted=$1
  shift
  COMP_WORDS=(ordinatio "$@")
  COMP_CWORD=$#
  _ordinatio
  local offered
  offered=$(printf '%s\n' "${COMPREPLY[@]}" | LC_ALL=C sort | paste -sd ' ')  # the shell sorts them before it shows them
  if [[ "$offered" != "$wanted" ]]; then
    echo "ordinatio $*: offered \"$offered\", wanted \"$wanted\""
    failures=1
  fi
}

expect "stands" sta
expect "--date --dry-run --dxf" day --d
expect "R12 R2000" day --dxf ""
expect "turn" align sheet.json --measured 1,2 --allow t
expect "keep new take" answer 3 ""
expect "watermill workshop" day --shop w
expect "workshop/orders.csv" day workshop/o
expect "" day --date ""
expect "--help" check --h
exit $failures
