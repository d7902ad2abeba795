"""How ezdxf draws the DXF's colour index: JSON on standard output, [red, green, blue] for each index from 1 on.

Source: ezdxf 0.18 (Debian: python3-ezdxf), ezdxf.colors.aci2rgb.
"""
import json
import sys

from ezdxf import colors

json.dump([list(colors.aci2rgb(index)) for index in range(1, 256)], sys.stdout)
