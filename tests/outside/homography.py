"""Reads pairs of points; prints the maps between them as numpy's singular value decomposition has them.

In:  JSON lines {"from": [[x, y], ...], "to": [[x, y], ...]}
Out: a JSON line each: the nine entries, row by row, of norm 1

The normalised direct linear transformation of R. Hartley and A. Zisserman, Multiple View Geometry, algorithm 4.2.
"""
import json
import sys

import numpy


def similarity(points):
    """Centroid to the origin, mean distance to the square root of two."""
    middle = points.mean(axis=0)
    scale = numpy.sqrt(2) / numpy.linalg.norm(points - middle, axis=1).mean()
    return numpy.array([[scale, 0, -scale * middle[0]], [0, scale, -scale * middle[1]], [0, 0, 1]])


for line in sys.stdin:
    case = json.loads(line)
    start, end = numpy.array(case["from"]), numpy.array(case["to"])
    t, u = similarity(start), similarity(end)
    rows = []
    for p, q in zip(start, end):
        a = t @ [p[0], p[1], 1]
        b = u @ [q[0], q[1], 1]
        rows.append(numpy.concatenate([numpy.zeros(3), -b[2] * a, b[1] * a]))
        rows.append(numpy.concatenate([b[2] * a, numpy.zeros(3), -b[0] * a]))
    h = numpy.linalg.inv(u) @ numpy.linalg.svd(numpy.array(rows))[2][-1].reshape(3, 3) @ t
    print(json.dumps(list((h / numpy.linalg.norm(h)).flatten())))
