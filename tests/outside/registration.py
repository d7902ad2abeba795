"""Reads models, points as drawn and as measured; prints their transforms as numpy's general least-squares solver has them.

In:  JSON lines {"model": "scale" | "affine", "drawn": [[x, y], ...], "measured": [[x, y], ...]}
Out: a JSON line each: [xx, yx, xy, yy, dx, dy]
"""
import json
import sys

import numpy


def equations(model, x, y):
    """The two rows of one point's equations: for x and for y."""
    if model == "affine":  # unknowns xx, xy, dx, yx, yy, dy
        return [[x, y, 1, 0, 0, 0], [0, 0, 0, x, y, 1]]
    return [[x, -y, 1, 0], [y, x, 0, 1]]  # unknowns c, s, dx, dy


for line in sys.stdin:
    case = json.loads(line)
    rows = [row for x, y in case["drawn"] for row in equations(case["model"], x, y)]
    wanted = [value for point in case["measured"] for value in point]
    u = numpy.linalg.lstsq(numpy.array(rows), numpy.array(wanted), rcond=None)[0]
    if case["model"] == "affine":
        xx, xy, dx, yx, yy, dy = u
    else:
        xx, yx, xy, yy, dx, dy = u[0], u[1], -u[1], u[0], u[2], u[3]
    print(json.dumps([xx, yx, xy, yy, dx, dy]))
