"""Paths of a record: read from their own text, integrated and sampled by scipy and numpy."""

import re
from functools import cached_property, lru_cache
from math import hypot

import numpy as np
from scipy.integrate import quad
from scipy.optimize import brentq

# SVG 1.1, section 8.3 (path data); the design narrows it to absolute M, L and C.
TOKEN = re.compile(r"[A-Za-z]|[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?")
TAKES = {"M": 1, "L": 1, "C": 3}


class Malformed(Exception):
    """The text is no path of the agreed kind."""


class Segment:
    """A cubic; a straight line is the cubic with its handles at thirds."""

    def __init__(self, points):
        if len(points) == 2:
            a, b = points
            points = [a, a + (b - a) / 3, a + (b - a) * 2 / 3, b]
        self.p = np.array(points, dtype=float)
        # The same cubic in powers of t, for single values: plain floats are ten times faster.
        a, b, c, d = self.p
        self.powers = [tuple(map(float, v)) for v in (a, 3 * (b - a), 3 * (c - 2 * b + a), d - 3 * c + 3 * b - a)]

    def at1(self, t):
        (ax, ay), (bx, by), (cx, cy), (dx, dy) = self.powers
        return ax + t * (bx + t * (cx + t * dx)), ay + t * (by + t * (cy + t * dy))

    def slope1(self, t):
        _, (bx, by), (cx, cy), (dx, dy) = self.powers
        return bx + t * (2 * cx + 3 * t * dx), by + t * (2 * cy + 3 * t * dy)

    def at(self, t):
        t = np.asarray(t, dtype=float)[..., None]
        s = 1 - t
        p = self.p
        return s**3 * p[0] + 3 * s * s * t * p[1] + 3 * s * t * t * p[2] + t**3 * p[3]

    def slope(self, t):
        t = np.asarray(t, dtype=float)[..., None]
        s = 1 - t
        d = 3 * np.diff(self.p, axis=0)
        return s * s * d[0] + 2 * s * t * d[1] + t * t * d[2]

    def length(self, to=1.0):
        # scipy.integrate.quad: adaptive Gauss-Kronrod (QUADPACK), asked for 1e-9 mm.
        value, _ = quad(lambda t: hypot(*self.slope1(t)), 0.0, to, epsabs=1e-9, epsrel=1e-12, limit=200)
        return value

    def nearest(self, point, number):
        """How far the nearest place is, the segment's own number, and t."""
        ts = np.linspace(0.0, 1.0, 65)
        i = int(((self.at(ts) - point) ** 2).sum(axis=1).argmin())
        lo, hi, t = ts[max(i - 1, 0)], ts[min(i + 1, 64)], ts[i]
        f = lambda t: dot(self.at1(t), point, self.slope1(t))
        if f(lo) < 0 < f(hi):
            t = brentq(f, lo, hi, xtol=1e-13)
        return float(np.hypot(*(self.at(t) - point))), number, t

    def direction(self, t):
        d = self.slope(t)
        if np.hypot(*d) < 1e-9:
            # A handle of no length: the chord to a place just beside it.
            d = self.at(min(t + 1e-4, 1.0)) - self.at(max(t - 1e-4, 0.0))
        return d / np.hypot(*d)


def arc_on(start, along, curvature, by, most_turn):
    """Points along an arc from a start, then straight: `by` mm in all."""
    arc = min(by, most_turn / abs(curvature)) if abs(curvature) > 1e-9 else 0.0
    across, points = np.array([-along[1], along[0]]), [np.array(start, dtype=float)]
    for s in np.linspace(0.0, arc, 241)[1:] if arc > 0 else []:
        a = curvature * s
        points.append(start + (along * np.sin(a) + across * (1 - np.cos(a))) / curvature)
    on = along * np.cos(curvature * arc) + across * np.sin(curvature * arc)
    return points + [points[-1] + on * (by - arc + 1.0)]


def dot(a, origin, direction):
    return float((a[0] - origin[0]) * direction[0] + (a[1] - origin[1]) * direction[1])


class Curve:
    """Segments head to tail."""

    def __init__(self, segments):
        self.segments = segments
        self._lengths = None

    @property
    def start(self):
        return self.segments[0].p[0]

    @property
    def end(self):
        return self.segments[-1].p[3]

    @property
    def lengths(self):
        if self._lengths is None:
            self._lengths = [s.length() for s in self.segments]
        return self._lengths

    def length(self):
        return float(sum(self.lengths))

    def start_direction(self):
        return self.segments[0].direction(0.0)

    def end_direction(self):
        return self.segments[-1].direction(1.0)

    def reversed(self):
        return Curve([Segment(s.p[::-1]) for s in reversed(self.segments)])

    def mapped(self, f):
        return Curve([Segment(np.array([f(p) for p in s.p])) for s in self.segments])

    def mirrored(self):
        return self.mapped(lambda p: np.array([-p[0], p[1]]))

    def extended(self, by):
        """With straight ends of this length along both end tangents."""
        a, b = self.start - self.start_direction() * by, self.end + self.end_direction() * by
        return Curve([Segment([a, self.start]), *self.segments, Segment([self.end, b])])

    def carried_on(self, by, most_turn):
        """With ends of this length that bend as the curve does there, turning by so much at most (rad)."""
        before = arc_on(self.start, -self.start_direction(), -self.end_curvature(0), by, most_turn)
        after = arc_on(self.end, self.end_direction(), self.end_curvature(-1), by, most_turn)
        chords = lambda points: [Segment([a, b]) for a, b in zip(points, points[1:])]
        return Curve([*chords(before[::-1]), *self.segments, *chords(after)])

    def end_curvature(self, segment):
        """Signed, 1/mm, at the start (0) or the end (-1); positive where y turns towards -x."""
        a, b, c, d = self.segments[segment].p
        first, second = (3 * (b - a), 6 * (a - 2 * b + c)) if segment == 0 else (3 * (d - c), 6 * (b - 2 * c + d))
        speed = np.hypot(*first)
        return float(first[0] * second[1] - first[1] * second[0]) / speed**3 if speed > 1e-9 else 0.0

    def samples(self, step):
        """Points no further apart than a step, and (segment, t) of each."""
        points, places = [], []
        for i, (s, length) in enumerate(zip(self.segments, self.lengths)):
            n = max(int(np.ceil(2 * length / step)), 4)
            ts = np.linspace(0.0, 1.0, n + 1)
            if i:
                ts = ts[1:]
            points.append(s.at(ts))
            places += [(i, t) for t in ts]
        return np.concatenate(points), places

    def place(self, along):
        """Point and unit direction at an arc length."""
        for s, length in zip(self.segments, self.lengths):
            if along <= length or s is self.segments[-1]:
                along = min(max(along, 0.0), length)
                if along <= 0.0 or along >= length:
                    t = 0.0 if along <= 0.0 else 1.0
                else:
                    t = brentq(lambda t: s.length(t) - along, 0.0, 1.0, xtol=1e-10)
                return s.at(t), s.direction(t)
            along -= length
        raise AssertionError("no segment")

    def crossings_with_normal(self, point, direction):
        """Signed distances, along the normal at a point, to where this curve crosses that normal.

        The normal is (d.y, -d.x): outward for a loop that runs clockwise as seen, y down.
        """
        normal = np.array([direction[1], -direction[0]])
        found = []
        for s in self.segments:
            f = lambda t: dot(s.at1(t), point, direction)
            ts = [i / 32 for i in range(33)]
            values = [f(t) for t in ts]
            roots = [t for t, v in zip(ts, values) if abs(v) < 1e-9]
            for a, b, u, v in zip(ts, ts[1:], values, values[1:]):
                if u * v < 0:
                    roots.append(brentq(f, a, b, xtol=1e-13))
            found += [dot(s.at1(t), point, normal) for t in roots]
        return found

    @cached_property
    def boxes(self):
        """Corners of the box round each segment's handles, which the segment does not leave."""
        points = np.array([s.p for s in self.segments])
        return points.min(axis=1), points.max(axis=1)

    def nearest(self, point):
        """The nearest place: (point, unit direction)."""
        low, high = self.boxes
        at_least = np.hypot(*np.maximum(np.maximum(low - point, point - high), 0.0).T)
        best = (float("inf"), len(self.segments), 0.0)
        for i in np.argsort(at_least):
            # What lies in the boxes from here on is further away; of equals the first one counts.
            if at_least[i] > best[0] + 1e-9:
                break
            best = min(best, self.segments[i].nearest(point, int(i)))
        _, i, t = best
        return self.segments[i].at(t), self.segments[i].direction(t)


@lru_cache(maxsize=None)
def parse(d):
    """A path from its text."""
    tokens = TOKEN.findall(d)
    if TOKEN.sub("", d).strip(" ,\n\t"):
        raise Malformed(f"stray characters in {d[:60]!r}")
    segments, here, i = [], None, 0
    while i < len(tokens):
        command = tokens[i]
        if command not in TAKES:
            raise Malformed(f"{command!r} in {d[:60]!r}: only M, L and C are agreed")
        n = TAKES[command]
        numbers = tokens[i + 1 : i + 1 + 2 * n]
        points = [np.array([float(x), float(y)]) for x, y in zip(numbers[::2], numbers[1::2])]
        if len(points) != n or (command == "M") != (here is None):
            raise Malformed(f"{command} at token {i} in {d[:60]!r}")
        if command != "M":
            segments.append(Segment([here, *points]))
        here = points[-1]
        i += 1 + 2 * n
    if not segments:
        raise Malformed("an empty path")
    return Curve(segments)
