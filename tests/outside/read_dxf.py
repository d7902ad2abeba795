"""A DXF file as ezdxf reads it: JSON on standard output.

Source: ezdxf 0.18 (Debian: python3-ezdxf): its strict reader, its auditor, and its reader for damaged files, which lists
what it had to mend.
"""
import json
import sys

import ezdxf
from ezdxf import recover


def contour(entity):
    if entity.dxftype() == "LWPOLYLINE":
        points, bulges = entity.get_points("xy"), entity.get_points("b")
    else:
        points = [(vertex.dxf.location.x, vertex.dxf.location.y) for vertex in entity.vertices]
        bulges = [(vertex.dxf.bulge,) for vertex in entity.vertices]
    return {
        "type": entity.dxftype(),
        "layer": entity.dxf.layer,
        "closed": entity.is_closed,
        "straight": not any(bulge for (bulge,) in bulges),
        "points": [list(point) for point in points],
    }


path = sys.argv[1]
document = ezdxf.readfile(path)
audit = document.audit()
_, mending = recover.readfile(path)
header = document.header
json.dump(
    {
        "version": document.dxfversion,
        "errors": [str(one.message) for log in (audit, mending) for one in log.errors],
        "fixes": [str(one.message) for log in (audit, mending) for one in log.fixes],
        "units": header["$INSUNITS"],
        "metric": header["$MEASUREMENT"],
        "extents": [*header["$EXTMIN"][:2], *header["$EXTMAX"][:2]],
        "layers": {layer.dxf.name: layer.color for layer in document.layers},
        "contours": [contour(entity) for entity in document.modelspace()],
    },
    sys.stdout,
)
