"""One named check: many measurements, the worst of them held against a limit."""


class Tally:
    """Counts measurements; a check that measured nothing fails."""

    def __init__(self, name, limit, unit="mm"):
        self.name, self.limit, self.unit = name, limit, unit
        self.count, self.worst, self.where = 0, -1.0, ""

    def add(self, deviation, where):
        self.count += 1
        deviation = abs(float(deviation))
        # What could not be measured is worse than anything.
        if not deviation < float("inf"):
            deviation = float("inf")
        if deviation > self.worst:
            self.worst, self.where = deviation, where

    def result(self):
        if self.count == 0:
            return {"name": self.name, "ok": False, "detail": "nothing was measured"}
        detail = f"{self.count} measured, worst {self.worst:.6f} {self.unit} (limit {self.limit:g}) at {self.where}"
        return {"name": self.name, "ok": bool(self.worst <= self.limit), "detail": detail}


class Facts:
    """Counts statements that are true or false; one that says nothing fails."""

    def __init__(self, name):
        self.name, self.count, self.wrong = name, 0, []

    def add(self, true, what):
        self.count += 1
        if not true:
            self.wrong.append(what)

    def result(self):
        if self.count == 0:
            return {"name": self.name, "ok": False, "detail": "nothing was looked at"}
        if self.wrong:
            return {"name": self.name, "ok": False, "detail": f"{len(self.wrong)} of {self.count}: " + "; ".join(self.wrong[:4])}
        return {"name": self.name, "ok": True, "detail": f"{self.count} looked at"}
