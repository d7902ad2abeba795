"""Dates in the long form of many locales, by Debian's python3-babel, which carries CLDR data of its own.

usage: dates.py LOCALE...; prints a line a date: the locale's tag, the ISO 8601 date and the long form, parted by tabs.
"""

import datetime
import sys

from babel import Locale
from babel.dates import format_date

for tag in sys.argv[1:]:
    locale = Locale.parse(tag, sep="-")
    for month in range(1, 13):
        for year, day in ((2026, 1), (2024, 28), (1985, 12)):
            date = datetime.date(year, month, day)
            print(tag, date.isoformat(), format_date(date, "long", locale), sep="\t")
