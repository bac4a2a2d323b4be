"""What a person does with the page, each journey as short as it can be."""

import subprocess
import time
import zipfile

from page import Keys, wait_for

# Invented measures, inches as read from a tape.
MEASURES = {"Waist girth": "28 1/2", "Hip girth": "39 3/4", "Waist to hip": "8", "Crotch length": "28.25"}


def first_pair_to_print_in_inches(means):
    """From an empty folder to the print on Letter, with bound legs."""
    _, address = means.start()
    page = means.browse(address)
    page.axe("the door")
    page.one("#new-name").send_keys("Saturday pair")
    page.press("inches")
    page.picture("1-door")
    page.press("Begin")
    page.says("Measures", "#panel h2")
    for label, value in MEASURES.items():
        page.fill(label, value)
    wait_for("the measures", lambda: page.key("body.crotch_length")["written"])
    page.picture("2-measures")
    page.press("Next: Cloth")
    page.fill("Stretch across", "50")
    page.fill("Stretch along", "30")
    page.press("Next: Base")
    page.drawn()
    page.picture("3-base")
    page.press("Next: Edges")
    page.press("binding", "#edge-legs")
    wait_for(
        "bound legs", lambda: [o["finish"] for o in page.state()["garment"]["openings"]][1:] == ["binding", "binding"]
    )
    page.picture("4-edges")
    page.press("Next: Look")
    page.says("Edges and elastic")
    page.picture("5-look")
    page.press("Next: Print")
    page.choose(page.label("Paper"), "Letter")
    wait_for("Letter", lambda: page.key("print.paper")["written"] == "Letter")
    page.picture("6-print")
    page.press("Show the pages")
    wait_for("the pages", lambda: page.all("dialog.pages iframe"))
    time.sleep(1)
    page.picture("7-pages")
    page.press("Close", "dialog")
    page.press("Save it as a file")
    print_ = wait_for("the print", lambda: list(page.downloads.glob("*.pdf")))[0]
    assert print_.read_bytes()[:5] == b"%PDF-", print_
    page.press("Save", "#bar")
    wait_for("saved", lambda: page.state()["sheet"]["is_saved"])
    sheet = (means.sheets / "Saturday-pair.toml").read_text(encoding="utf-8")
    assert "28 1/2" in sheet and "binding" in sheet, sheet
    page.quiet()


def pull_five_handles_and_undo_all(means):
    sheet, _, page = means.open_demo()
    before, text = page.state(), sheet.read_bytes()
    page.step("Base")
    labels = [handle["label"] for handle in before["garment"]["handles"] if handle["piece"]]
    pulled = list(dict.fromkeys(labels))[:5]
    assert len(pulled) == 5, labels
    outlines = [page.cut(i) for i in range(3)]
    for i, label in enumerate(pulled):
        handle = next(h for h in page.state()["garment"]["handles"] if h["label"] == label and h["piece"])
        page.pull(label, *(14 * part for part in handle["along"]))
        wait_for(f"a step for {label}", lambda: page.state()["sheet"]["steps"]["undo"] == i + 1)
        was = next(h for h in before["garment"]["handles"] if h["key"] == handle["key"])["value"]
        now = next(h for h in page.state()["garment"]["handles"] if h["key"] == handle["key"])["value"]
        assert now != was, f"{label}: {was} stays"
    page.picture("pulled")
    assert [page.cut(i) for i in range(3)] != outlines
    for i in reversed(range(5)):
        page.press("Undo", "#bar")
        wait_for(f"{i} steps", lambda: page.state()["sheet"]["steps"]["undo"] == i)
    after = page.state()
    assert after["garment"] == before["garment"]
    wait_for("the outlines as before", lambda: [page.cut(i) for i in range(3)] == outlines)
    assert after["sheet"]["is_saved"] and sheet.read_bytes() == text
    page.quiet()


def wrong_number_and_its_remedy(means):
    """A slip of the pen: told beside the field, the last pair stays; then a doubt, mended by its button."""
    _, _, page = means.open_demo()
    outline = page.cut()
    page.fill("Hip girth", "10100")
    page.says("out of range", "#panel .wrong")
    page.says("last pair that could be made", "#sight")
    assert page.cut() == outline
    page.axe("a wrong number")
    page.picture("wrong")
    page.with_control("z")
    page.press("Undo", "#bar") if page.key("body.hip_girth")["written"] == "10100" else None
    wait_for("no problem", lambda: not page.all("#panel .wrong"))
    # A garment that is refused, with a button that mends it.
    page.step("Base")
    page.fill("Side seam", "1.5")
    refused = wait_for(
        "a finding with a remedy",
        lambda: [
            f
            for f in page.state()["refusals"] + (page.state()["garment"] or {}).get("findings", [])
            if any(r.get("changes") or r.get("solve") for r in f["remedies"])
        ],
    )
    page.step("Look")
    page.picture("doubt")
    finding = refused[0]
    remedy = next(r for r in finding["remedies"] if r.get("changes") or r.get("solve"))
    page.press(remedy["label"][1:], "#panel .finding")
    wait_for(
        "the doubt gone",
        lambda: (
            not any(
                f["code"] == finding["code"] and f["place"]["name"] == finding["place"]["name"]
                for f in page.state()["refusals"] + page.state()["garment"]["findings"]
            )
        ),
    )
    page.press("Undo", "#bar")
    wait_for(
        "the doubt again",
        lambda: any(
            f["code"] == finding["code"] for f in page.state()["refusals"] + page.state()["garment"]["findings"]
        ),
    )
    page.quiet()


def compare_two_finishes(means):
    _, _, page = means.open_demo()
    page.step("Edges")
    page.choose(page.one("#compare-legs"), "binding")
    page.says("trim beside binding", "#edge-legs")
    page.picture("beside")
    page.press("Take binding", "#edge-legs")
    wait_for("bound legs", lambda: page.key("finish.legs.kind")["written"] == "binding")
    page.choose(page.one("#compare-top"), "encased")
    page.press("Keep it as a variant", "#edge-top")
    kept = wait_for("the variant", lambda: page.state()["variants"])
    assert {"key": "finish.top.kind", "value": "encased"} in kept[0]["changes"], kept
    page.quiet()


def trial_to_convergence(means):
    """Trials told one after the other, each with the settings proposed, until an edge is settled."""
    _, _, page = means.open_demo()
    page.step("Trials")
    width = None
    for turn in range(12):
        # The two legs as the garment now has them; this wearer likes 6 to 10 %.
        settings = {
            leg["name"].split()[0]: leg["elastic"]["reduction"] for leg in page.state()["garment"]["openings"][1:]
        }
        for side, reduction in settings.items():
            verdict = "loose" if reduction < 6 else "tight" if reduction > 10 else "right"
            page.choose(page.one(f"#felt-{side}-all"), verdict)
        noted = len(page.state()["trials"])
        page.press("Note this trial", "#panel")
        wait_for("the trial noted", lambda: len(page.state()["trials"]) > noted)
        lesson = page.browser.execute_async_script(
            "const done = arguments[0]; fetch('/api/lesson', {headers: {'X-Quarterpin-Token': sessionStorage.token}})"
            ".then((r) => r.json()).then(done)"
        )
        legs = [n for n in lesson["next"] if "leg" in n["edge"]]
        if turn == 0:
            width = max(n["high"] - n["low"] for n in legs)
            page.axe("a lesson")
            page.picture("first")
        if all(n["converged"] for n in legs):
            break
        pair = [b for b in page.all("#panel button") if "two settings to try" in b.text]
        page.press("two settings to try" if pair else "Apply what is proposed", "#panel")
        time.sleep(0.3)
    assert all(n["converged"] for n in legs), legs
    assert max(n["high"] - n["low"] for n in legs) < width
    page.picture("settled")
    page.quiet()


def edited_meanwhile(means):
    """An editor writes the file: both states are shown, nothing is overwritten unasked."""
    sheet, _, page = means.open_demo()
    page.fill("Thigh girth" if page.all("#key-body-thigh_girth") else "Hip girth", "60")
    text = sheet.read_text(encoding="utf-8").replace("hip_girth = 101", "hip_girth = 102")
    sheet.write_text(text, encoding="utf-8")
    page.says("changed in another program")
    page.press("Save", "#bar")
    page.says("The file was changed meanwhile", "dialog")
    page.says("102", "dialog")
    page.axe("both states")
    page.picture("both")
    assert sheet.read_text(encoding="utf-8") == text
    page.press("Take the file's", "dialog")
    wait_for("the file's value", lambda: page.key("body.hip_girth")["written"] == "102")
    page.with_control("z")
    page.press("Undo", "#bar") if page.key("body.hip_girth")["written"] == "102" else None
    wait_for("the page's value again", lambda: page.key("body.hip_girth")["written"] == "101")
    page.press("Save", "#bar")
    if page.all("dialog[open]"):
        page.press("Write this page's over it", "dialog")
    wait_for("saved", lambda: page.state()["sheet"]["is_saved"])
    assert "hip_girth = 101" in sheet.read_text(encoding="utf-8")
    page.quiet()


def killed_and_gone_on_with(means):
    sheet, program, page = means.open_demo()
    text = sheet.read_bytes()
    page.fill("Hip girth", "103")
    wait_for("the value", lambda: page.key("body.hip_girth")["written"] == "103")
    program.kill()
    program.wait()
    page.says("has stopped")
    assert sheet.read_bytes() == text
    _, address = means.start(sheet.name)
    again = means.browse(address)
    again.says("was not saved")
    again.axe("work from last time")
    again.picture("offered")
    again.press("Take it up again")
    wait_for("the value again", lambda: again.key("body.hip_girth")["written"] == "103")
    assert sheet.read_bytes() == text
    again.press("Save", "#bar")
    wait_for("saved", lambda: b"hip_girth = 103" in sheet.read_bytes())


def two_tabs_in_step(means):
    _, _, page = means.open_demo()
    address = page.js("return location.origin + '/#' + sessionStorage.token")
    other = means.browse(address)
    other.drawn()
    outline = other.cut()
    page.fill("Hip girth", "104")
    wait_for("the other tab", lambda: other.cut() != outline)
    assert other.label("Hip girth").get_attribute("value") == "104"
    page.quiet()


def names_are_only_text(means):
    """What could be a script in a name is shown as it is written."""
    evil = '<img src=x onerror="document.title=1"><script>document.title=2</script>'
    sheet = means.demo()
    sheet.write_text(
        sheet.read_text(encoding="utf-8")
        .replace('name = "Mirela, first pair"', f"name = '{evil}'")
        .replace('name = "cotton jersey, grey"', f"name = '{evil}'"),
        encoding="utf-8",
    )
    _, address = means.start(sheet.name)
    page = means.browse(address)
    page.drawn()
    page.says("<img src=x onerror", "#bar h1")
    for title in ("Cloth", "Look", "Print"):
        page.step(title)
    assert not page.all("body img[src=x], body script") and "onerror" in page.browser.title, page.browser.title
    page.press("Sheets", "#bar")
    page.says("<img src=x", "#panel")
    page.quiet()


def files_as_the_command_line_makes_them(means):
    """After pulling and saving: the zip of the page and `draft` are the same bytes."""
    sheet, _, page = means.open_demo()
    page.step("Base")
    page.fill("Side seam", "8.5")
    page.press("Save", "#bar")
    wait_for("saved", lambda: "8.5" in sheet.read_text(encoding="utf-8"))
    page.step("Print")
    page.press("Save all as one zip")
    packed = wait_for("the zip", lambda: list(page.downloads.glob("*.zip")))[0]
    out = means.folder / "out"
    subprocess.run([means.program, "draft", sheet, "-o", out, "--quiet"], check=True, capture_output=True)
    with zipfile.ZipFile(packed) as all_:
        names = {name.split("/")[-1]: all_.read(name) for name in all_.namelist()}
    written = {file.name: file.read_bytes() for file in out.iterdir()}
    assert names.keys() == written.keys(), (names.keys(), written.keys())
    other = [name for name in names if names[name] != written[name]]
    assert not other, other
    page.press("Write", "#panel")
    folder = means.sheets / "first-pair-pattern"
    wait_for("the folder", lambda: folder.is_dir() and len(list(folder.iterdir())) == len(written))
    page.quiet()


def keyboard_only(means):
    """From the first key to a pulled edge and its way back, without a pointer."""
    _, _, page = means.open_demo()
    page.keys(Keys.TAB)
    focused = lambda script="": page.js(f"return document.activeElement{script}")
    assert "Skip" in focused().text
    page.step("Base")
    page.js("document.activeElement.blur()")
    page.js("document.querySelectorAll('.skip')[1].focus()")
    page.keys(Keys.ENTER)
    assert focused(".id") == "sight" and page.text("#panel h2") == "Base"
    for _ in range(20):
        page.keys(Keys.TAB)
        if focused(".getAttribute('role')") == "slider":
            break
    label = focused(".getAttribute('aria-label')")
    assert label, "no handle is reached by Tab"
    wait_for("its range", lambda: focused(".getAttribute('aria-valuemax')"))
    before = float(focused(".getAttribute('aria-valuenow')"))
    page.keys(Keys.ARROW_DOWN, Keys.ARROW_DOWN)
    page.picture("pulled")
    wait_for("a step", lambda: page.state()["sheet"]["steps"]["undo"] == 1)
    after = float(focused(".getAttribute('aria-valuenow')"))
    assert abs(abs(after - before) - 2) < 0.6, (before, after)
    assert focused(".getAttribute('aria-label')") == label
    page.with_control("z")
    wait_for("undone", lambda: page.state()["sheet"]["steps"]["undo"] == 0)
    page.keys(Keys.ARROW_DOWN, Keys.ESCAPE)
    time.sleep(1)
    assert page.state()["sheet"]["steps"]["undo"] == 0, "Escape keeps nothing"
    page.quiet()
