"""Writes for each character from U+4E00 to U+9FFF which national sets hold it: 'A' plus a bit for each of four."""

import sys


def is_held(character, codec, first_byte):
    try:
        code = character.encode(codec)
    except UnicodeEncodeError:
        return False
    # EUC-JP has JIS X 0212 in three bytes; what stands before the first row of ideographs is none.
    return len(code) == 2 and code[0] >= first_byte


SETS = [("gb2312", 0xB0), ("big5", 0xA4), ("euc_jp", 0xB0), ("euc_kr", 0xCA)]
for code_point in range(0x4E00, 0xA000):
    bits = sum(is_held(chr(code_point), *SETS[i]) << i for i in range(4))
    sys.stdout.write(chr(ord("A") + bits))
