"""Every view at every size and in every look: nothing hidden, nothing too wide, nothing that axe-core objects to."""

from many import tables
from page import wait_for

VIEWS = ["Measures", "Cloth", "Base", "Edges", "Look", "Print", "Trials", "Lay", "Class", "Sizes"]
# Of a view the table that it shows.
TABLES = {"Class": "people.csv", "Sizes": "sizes.csv"}
# These have the page without the drawing.
ALONE = ["Lay", "Class"]
# CSS px, WCAG 2.2, 2.5.8.
TARGET = 24


def each(page, name, looked):
    for title in VIEWS:
        page.step(title)
        if title in TABLES:
            page.choose(page.one("#table-file"), TABLES[title])
            wait_for(f"the table of {title}", lambda: page.all(".people"))
        if title == "Lay":
            wait_for("the lay", lambda: page.all(".lay img") and page.one(".lay").get_attribute("aria-busy") == "false")
        looked(title)
        page.picture(f"{name}-{title.lower()}")


def names_fit(page, title):
    """What is written on a piece lies within it; at least the two large ones are named."""
    named = page.js(
        "return [...document.querySelectorAll('svg.canvas .live > g')].filter((g) => g.querySelector('path.cut'))"
        ".map((g) => [g.querySelector('path.cut').getBoundingClientRect(), [...g.querySelectorAll('text')]"
        ".map((t) => [t.textContent, t.getBoundingClientRect()])])"
    )
    said = [text for _, texts in named for text, _ in texts]
    assert {"front", "back"} <= set(said), (title, said)
    for piece, texts in named:
        for text, box in texts:
            inside = all(piece[low] - 1 <= box[low] for low in ("left", "top"))
            inside &= all(box[high] <= piece[high] + 1 for high in ("right", "bottom"))
            assert inside, (title, text, box, piece)


def small_laptop(means):
    tables(means)
    _, _, page = means.open_demo(1366, 768)

    def looked(title):
        page.fits(1366)
        assert page.js("return document.scrollingElement.scrollHeight") <= 768, f"{title}: the page scrolls as a whole"
        if title in ALONE:
            return
        names_fit(page, title)
        for selector in ("#bar", "#path", "#sight .board", "#sight .caption"):
            box = page.one(selector).rect
            assert box["y"] >= 0 and box["y"] + box["height"] <= 768, (title, selector, box)

    each(page, "laptop", looked)
    page.quiet()


def phone(means):
    """320 px: one column, nothing to be shoved sideways, everything large enough for a finger."""
    tables(means)
    _, _, page = means.open_demo(320, 640)

    def looked(title):
        page.fits(320)
        small = page.js(
            "return [...document.querySelectorAll('button, select, input, summary, #path a')]"
            ".filter((e) => e.offsetParent && !e.closest('label'))"
            ".map((e) => [e.outerHTML.slice(0, 90), e.getBoundingClientRect()])"
            ".filter(([, box]) => box.height < arguments[0] || box.width < arguments[0]).map(([text]) => text)",
            TARGET,
        )
        assert not small, (title, small)
        if title not in ALONE:
            names_fit(page, title)

    each(page, "phone", looked)
    page.axe("a phone")
    fingers(page)
    page.quiet()


def fingers(page):
    """One finger pulls an edge, two look closer."""
    page.step("Base")
    x, y = page.middle(page.handle("top edge, centre front").find_element("css selector", ".dot"))
    page.touch(*[[(x, y + 2 * i)] for i in range(6)])
    wait_for("a step", lambda: page.state()["sheet"]["steps"]["undo"] == 1)
    x, y = page.middle(page.one("svg.canvas"))
    wide = lambda: page.js("return document.querySelector('svg.canvas').viewBox.baseVal.width")
    before = wide()
    page.touch(*[[(x - 20 - 8 * i, y + 60), (x + 20 + 8 * i, y + 60)] for i in range(6)])
    wait_for("a closer look", lambda: wide() < before * 0.7)


def forced_colours(means):
    tables(means)
    _, _, page = means.open_demo(1366, 768, {"forced-colors": "active", "prefers-reduced-motion": "reduce"})
    assert page.js("return matchMedia('(forced-colors: active)').matches")
    # What is chosen, and what is drawn, is still told apart.
    each(page, "forced", lambda title: None)
    strokes = page.js(
        "return [...document.querySelectorAll('svg.canvas path.cut, svg.canvas path.sewing')]"
        ".map((e) => getComputedStyle(e)).map((s) => [s.stroke, s.fill])"
    )
    assert all(stroke not in ("none", fill) for stroke, fill in strokes), strokes
    page.axe("forced colours")
    page.quiet()


def by_axe(means, scheme):
    tables(means)
    _, _, page = means.open_demo(1366, 768, {"prefers-color-scheme": scheme})

    def looked(title):
        for group in page.all("#panel details:not([open])")[:30]:
            page.js("arguments[0].open = true", group)
        page.axe(f"{title}, {scheme}")

    each(page, scheme, looked)
    page.press("Measure", "#sight")
    page.says("along the edge", "#sight")
    page.axe(f"measuring, {scheme}")
    page.press("Sheets", "#bar")
    page.axe(f"the door, {scheme}")
    page.quiet()


def every_view_by_axe_light(means):
    by_axe(means, "light")


def every_view_by_axe_dark(means):
    by_axe(means, "dark")
