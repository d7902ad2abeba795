"""Check characters by Debian's python3-stdnum.

usage: check_character.py; reads a text of 0-9 A-Z a line from stdin, writes its ISO 7064 MOD 37,36 check character a line.
"""

import sys

from stdnum.iso7064 import mod_37_36

for line in sys.stdin:
    print(mod_37_36.calc_check_digit(line.strip()))
