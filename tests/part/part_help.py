"""What the tests of drawings share: new drawings, and another engine's view of our paths."""

import math

import ezdxf
import numpy as np
import shapely

from jawcam.geometry.shapes import Arc
from jawcam.part.formats import read_drawing
from jawcam.tolerance import Tolerance

TOLERANCE = Tolerance()
MM, INCH = 4, 1  # $INSUNITS


def new_drawing(units=MM, version="R2010"):
    return ezdxf.new(version, units=units)


def read(document, folder, *, layer=None, units=None, tolerance=TOLERANCE, form="asc"):
    """The outline of a document, by way of a file."""
    path = folder / "part.dxf"
    document.saveas(path, fmt=form)
    return read_drawing(path, shown="part.dxf", layer=layer, units=units, tolerance=tolerance)


def dots(path, sagitta=1e-5):
    """A dense polyline by trigonometry of its own: it asks arcs for nothing but their data."""
    points = [path.segments[0].start]
    for segment in path.segments:
        if isinstance(segment, Arc):
            (cx, cy), (x0, y0), (x1, y1) = segment.centre, segment.start, segment.end
            radius = math.hypot(x0 - cx, y0 - cy)
            first, last = math.atan2(y0 - cy, x0 - cx), math.atan2(y1 - cy, x1 - cx)
            if segment.ccw and last <= first:
                last += 2 * math.pi
            if not segment.ccw and last >= first:
                last -= 2 * math.pi
            count = math.ceil(abs(last - first) / (2 * math.acos(1 - min(0.5, sagitta / radius))))
            points += [
                (cx + radius * math.cos(a), cy + radius * math.sin(a))
                for a in np.linspace(first, last, count + 1)[1:-1]
            ]
        points.append(segment.end)
    return np.array(points)


def polygon(path):
    """The path for shapely."""
    return shapely.Polygon(dots(path))


def within(path, points, tolerance):
    """Whether a path and a dense polyline lie within tolerance of each other, both ways."""
    mine, other = dots(path), np.asarray(points)
    for some, others in ((mine, other), (other, mine)):
        line = shapely.LineString(others)
        shapely.prepare(line)
        if not shapely.dwithin(line, shapely.points(some), tolerance).all():
            return False
    return True


def arcs(path):
    return [segment for segment in path.segments if isinstance(segment, Arc)]


def continuous(path):
    """Whether each segment begins bit for bit where the one before ends."""
    pairs = zip(path.segments, path.segments[1:], strict=False)
    return all(a.end == b.start for a, b in pairs)


def ellipse_length(a, b):
    """Perimeter by the arithmetic-geometric mean (Gauss; Abramowitz and Stegun 17.6)."""
    x, y, total, power = a, b, (a * a - b * b) / 2, 0.5
    while abs(x - y) > 1e-15 * a:
        x, y, c = (x + y) / 2, math.sqrt(x * y), (x - y) / 2
        power *= 2
        total += power * c * c
    return 2 * math.pi / x * (a * a - total)
