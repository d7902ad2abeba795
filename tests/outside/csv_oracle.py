"""The second reader: Python's csv module, strict.

Standard input: JSON, a list of {"text", "delimiter"}. Standard output: JSON, for each its rows as lists of fields.
"""
import csv
import io
import json
import sys


def rows(text, delimiter):
    # newline="" keeps the line ends inside quotes as they are. An empty line is an empty row to Python, and none to us.
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    return [row for row in reader if row]


csv.field_size_limit(1 << 30)
json.dump([rows(**case) for case in json.load(sys.stdin)], sys.stdout)
