"""What is made for many: the lay of some pairs, a class, a table of sizes."""

import subprocess

from page import Keys, wait_for

# Invented, as a teacher would send it: a word, a gap, a slip of the pen.
CLASS = (
    "Name;Waist (cm);Hips (cm);Waist to hip;Crotch length;Thigh;Phone\r\n"
    "Anneke;74,5;101;20;71;57;06\r\n"
    "Birgit;seventy;95;19;69;54;07\r\n"
    "Çiğdem;81;;21;74;61;08\r\n"
    "Dorota;70;950;19;69;55;09\r\n"
)
SIZES = "size;waist (cm);hips (cm)\r\n36;68;92\r\n40;76;100\r\n44;84;108\r\n48;92;116\r\n"


def tables(means):
    (means.sheets / "people.csv").write_text(CLASS, encoding="utf-8", newline="")
    (means.sheets / "sizes.csv").write_text(SIZES, encoding="utf-8", newline="")


def cell(page, label):
    return page.one(f'.people input[aria-label^="{label}"]')


def lay_of_pairs(means):
    """Pairs, width and nap are tried; the picture follows, and the sheet only when that is asked for."""
    sheet, _, page = means.open_demo()
    text = sheet.read_bytes()
    page.step("Lay")
    bought = lambda: page.text(".lay .buy")
    wait_for("a lay", lambda: page.all(".lay img") and page.js("return document.querySelector('.lay img').naturalWidth"))
    wait_for("the search ended", lambda: page.one(".lay").get_attribute("aria-busy") == "false")
    one = bought()
    page.picture("1-one-pair")
    page.fill("How many pairs", "4")
    wait_for("more cloth", lambda: bought() != one and "4 pairs" in page.text(".lay"))
    wait_for("the search ended", lambda: page.one(".lay").get_attribute("aria-busy") == "false")
    page.picture("2-four-pairs")
    four = bought()
    page.fill("How wide the cloth is, selvedge to selvedge", "90")
    wait_for("more cloth still", lambda: bought() != four and "90 cm" in page.text(".lay"))
    wait_for("the search ended", lambda: page.one(".lay").get_attribute("aria-busy") == "false")
    assert sheet.read_bytes() == text and page.state()["sheet"]["is_saved"], "trying keeps nothing"
    page.axe("the lay")
    page.press("Save the picture")
    saved = wait_for("the picture", lambda: list(page.downloads.glob("*-lay.svg")))[0]
    drafted = means.folder / "drafted"
    flags = ["--lay", "--cut-width", "900", "--pairs", "4", "--quiet"]
    subprocess.run([means.program, "draft", sheet, "-o", drafted, *flags], check=True, capture_output=True)
    assert saved.read_bytes() == next(drafted.glob("*-lay.svg")).read_bytes(), "the lay of the command line"
    page.press("nap, or a print")
    wait_for("all the same way", lambda: "all the same way up" in page.text(".lay"))
    page.press("Write this cloth into the sheet")
    wait_for("the width kept", lambda: page.key("fabric.width")["written"] == "90")
    page.fill("How wide the cloth is, selvedge to selvedge", "20")
    page.says("does not go on it", ".lay")
    page.picture("3-too-narrow")
    page.axe("a cloth too narrow")
    page.quiet()


def class_mended_in_place(means):
    """A teacher's table: its odd rows marked, mended where they stand, one person's sheet opened."""
    tables(means)
    sheet, _, page = means.open_demo()
    page.step("Class")
    page.choose(page.one("#table-file"), "people.csv")
    page.says("1 of 4 would be done")
    page.says("3 rows to look at")
    page.picture("1-odd")
    page.axe("a class with odd rows")
    wrong = page.all('.people input[aria-invalid="true"]')
    assert len(wrong) == 3, [field.get_attribute("aria-label") for field in wrong]
    for label, value in [("Waist (cm), row 3", "70"), ("Hips (cm), row 4", "107,5"), ("Hips (cm), row 5", "96")]:
        field = cell(page, label)
        page.js("arguments[0].scrollIntoView({block: 'center'})", field)
        field.send_keys(Keys.CONTROL, "a")
        field.send_keys(value, Keys.ENTER)
        wait_for(f"{label} written", lambda: value in (means.sheets / "people.csv").read_text(encoding="utf-8"))
    page.says("4 of 4 would be done")
    page.picture("2-mended")
    expected = CLASS.replace("seventy", "70").replace("81;;", "81;107,5;").replace("950", "96")
    assert (means.sheets / "people.csv").read_bytes().decode() == expected
    page.press("Take back: row 5")
    wait_for("taken back", lambda: "950" in (means.sheets / "people.csv").read_text(encoding="utf-8"))
    page.press("Show these alone")
    wait_for("one row", lambda: len(page.all(".people tbody th")) == 1)
    page.press("Show these alone")
    page.one('button[aria-label="Open the sheet of Çiğdem"]').click()
    page.drawn()
    page.says("Çiğdem", "#bar h1")
    assert page.key("body.hip_girth")["written"] == "107.5" and page.key("body.crotch_length_front")["written"] is None
    page.picture("3-her-sheet")
    # It is hers from now on: what differs from the row is asked about.
    page.fill("Hip girth", "108")
    wait_for("the value", lambda: page.key("body.hip_girth")["written"] == "108")
    page.press("Save", "#bar")
    wait_for("saved", lambda: page.state()["sheet"]["is_saved"])
    page.step("Class")
    page.says("the class is made by first-pair.toml")
    page.one('button[aria-label="Open the sheet of Çiğdem"]').click()
    page.says("says something else than row 4")
    page.axe("her sheet is there already")
    page.picture("4-there-already")
    page.press("A new one from the row")
    page.says("Çiğdem-2.toml", "#bar")
    page.quiet()


def sizes_over_the_pieces(means):
    """Every size a line of its own dash over the pieces; hidden and shown; gone with the view."""
    tables(means)
    _, _, page = means.open_demo()
    page.step("Sizes")
    page.choose(page.one("#table-file"), "sizes.csv")
    page.says("4 of 4 sizes can be made")
    lines = lambda: page.js(
        "return [...new Set([...document.querySelectorAll('svg.canvas path.size')].map((e) => e.getAttribute('stroke-dasharray')))]"
    )
    wait_for("four dashes", lambda: len(lines()) == 4)
    page.picture("1-laid-over")
    inside = page.js(
        "const all = document.querySelector('svg.canvas').getBoundingClientRect();"
        "return [...document.querySelectorAll('svg.canvas path.size')].map((e) => e.getBoundingClientRect())"
        ".every((b) => b.left >= all.left && b.right <= all.right && b.top >= all.top && b.bottom <= all.bottom)"
    )
    assert inside, "the largest size has room"
    page.axe("sizes over the pieces")
    page.press("40", ".sizes")
    wait_for("three dashes", lambda: len(lines()) == 3)
    page.press("None", "#panel")
    wait_for("none", lambda: not lines())
    page.press("All", "#panel")
    page.press("The garment", "#panel")
    page.says("top edge", "#panel")
    page.picture("2-lengths")
    page.step("Base")
    wait_for("the sizes gone", lambda: not lines())
    page.quiet()
