"""A sheet read by Python's own TOML reader, in millimetres, with the design's own defaults.

Everything here is worked out from the sheet and from the design's text, so that the record can be
compared with it; nothing is read from the record.
"""

import tomllib
from fractions import Fraction

# ISO 31-1 / the international inch: 25.4 mm.
UNIT = {"mm": Fraction(1), "cm": Fraction(10), "in": Fraction(254, 10)}

# The design's table of bases: shares of the vertical scale, knobs, widths at a hip of 1000 mm.
BASES = {
    #               front  side  back   seam  widths          back_share
    "full brief": (0.04, 0.00, -0.04, 0.62, (78, 66, 124), 0.52),
    "brief": (0.14, 0.09, 0.03, 0.44, (76, 64, 118), 0.52),
    "hipster": (0.33, 0.27, 0.21, 0.36, (76, 64, 114), 0.52),
    "high leg": (0.14, 0.03, 0.00, 0.24, (74, 62, 108), 0.52),
    "small brief": (0.38, 0.29, 0.24, 0.20, (72, 61, 100), 0.51),
    "tanga": (0.40, 0.29, 0.25, 0.13, (68, 57, 74), 0.50),
}
OVER_NAVEL = {"navel": 0.0, "midway": 0.10, "natural": 0.19}
BULGE = {"natural": 1.0, "midway": 0.6, "navel": 0.2}


class Sheet:
    def __init__(self, path):
        with open(path, "rb") as f:
            self.data = tomllib.load(f)
        self.unit = UNIT[self.data["sheet"].get("units", "cm")]
        self.name = self.data["sheet"]["name"]

    def get(self, section, key, default=None):
        return self.data.get(section, {}).get(key, default)

    def mm(self, section, key, default=None):
        value = self.get(section, key)
        return default if value is None else self.length(value)

    def length(self, value):
        """`29.5`, `"29 1/2"` or `"1/2"` in the sheet's unit."""
        if isinstance(value, str):
            amount = sum(Fraction(part) for part in value.split())
        else:
            amount = Fraction(repr(value))
        return float(amount * self.unit)

    def finish(self, opening):
        """The keys of `top`, `left_leg` or `right_leg`; a leg overrides `legs` key by key."""
        finish = self.data.get("finish", {})
        if opening == "top":
            return dict(finish.get("top", {}))
        return {**finish.get("legs", {}), **finish.get(opening, {})}

    def elastic(self, name):
        return self.data.get("elastic", {}).get(name, {})

    # Shrinkage still to come, as fractions.
    @property
    def shrink(self):
        return (self.get("fabric", "shrink_across", 0) / 100, self.get("fabric", "shrink_along", 0) / 100)

    @property
    def ease(self):
        """Across and along, as fractions (the design's sheet section, by stretch)."""
        across = self.get("fabric", "ease_across")
        if across is None:
            stretch = self.get("fabric", "stretch_across", 0)
            across = 0 if stretch < 25 else -4 if stretch <= 50 else -8 if stretch <= 75 else -10
            if self.get("fabric", "kind", "knit") == "woven":
                across = 4
        return across / 100, self.get("fabric", "ease_along", 0) / 100

    @property
    def level(self):
        return self.get("body", "waist_level", "natural")

    @property
    def crotch(self):
        return self.mm("body", "crotch_length")

    @property
    def crotch_front(self):
        return self.mm("body", "crotch_length_front", 0.45 * self.crotch)

    @property
    def gusset_length(self):
        share = 0.09 if self.level == "natural" else 0.105
        return self.mm("gusset", "length", 70 + share * self.crotch)

    @property
    def forward(self):
        return self.get("gusset", "forward", 0.4)

    def drops(self):
        """Front, side and back drop: as written, else the base's share of the vertical scale."""
        name = self.get("style", "base")
        front, side, back, *_ = BASES[name]
        f = self.crotch_front - self.forward * self.gusset_length
        o = f * OVER_NAVEL[self.level]
        v = 0.5 * ((f - o) + 0.37 * (self.crotch - 2 * o))
        over = 0 if name == "full brief" else o
        keys = ("top_drop_front", "top_drop_side", "top_drop_back")
        return tuple(self.mm("style", key, over + share * v) for key, share in zip(keys, (front, side, back)))

    def girth(self, depth):
        """Of the body at a depth under the waist level (the design's girth rule)."""
        waist, hip = self.mm("body", "waist_girth"), self.mm("body", "hip_girth")
        t = min(max(depth / self.mm("body", "waist_to_hip"), 0.0), 1.0)
        return waist + (hip - waist) * t * (1 + BULGE[self.level] * (1 - t))

    def top_ring(self):
        """Whole ring of the top edge, washed: the girth there with its ease; woven, at least the hip."""
        front, side, back = self.drops()
        girth = self.mm("body", "top_edge_girth", self.girth((front + 2 * side + back) / 4))
        ring = girth * (1 + self.ease[0])
        return max(ring, self.mm("body", "hip_girth")) if self.get("fabric", "kind") == "woven" else ring
