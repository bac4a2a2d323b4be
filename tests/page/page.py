"""The program and the browser of one journey, and what a person can do there.

What is pressed is found as a person finds it: by the words on it.
"""

import importlib.util
import json
import subprocess
import time
from pathlib import Path

from selenium import webdriver
from selenium.webdriver.chrome.service import Service
from selenium.webdriver.common.action_chains import ActionChains
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys

FLAGS = (
    "--headless=new --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking "
    "--disable-component-update --disable-sync --disable-dev-shm-usage"
).split()
# Seconds that anything may take on a busy machine.
PATIENCE = 40
WAIT = 0.05


def wait_for(what, asked):
    """Asks until the answer is something; fails, and says what was waited for."""
    end = time.monotonic() + PATIENCE
    last = None
    while time.monotonic() < end:
        try:
            found = asked()
            if found:
                return found
            last = found
        except Exception as error:  # an element that was just replaced is asked for again
            last = error
        time.sleep(WAIT)
    raise AssertionError(f"waited for {what}, {PATIENCE} s; last: {last!r}")


class Means:
    """A folder with sheets, programs started on it, browsers looking at them."""

    def __init__(self, program, chromium, driver, pictures, folder, journey):
        self.program, self.chromium, self.driver = program, chromium, driver
        self.pictures, self.folder, self.journey = pictures, folder, journey
        self.sheets = folder / "patterns"
        self.sheets.mkdir()
        self.running, self.pages = [], []

    def start(self, *arguments):
        """Starts the program in the folder of sheets; gives it and its address, which is its first line."""
        command = [self.program, "open", *arguments, "--no-browser"]
        started = subprocess.Popen(
            command, cwd=self.sheets, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True
        )
        self.running.append(started)
        return started, started.stdout.readline().strip()

    def browse(self, address, width=1366, height=768, media=()):
        page = Page(self, address, width, height, dict(media))
        self.pages.append(page)
        return page

    def demo(self, name="first-pair.toml"):
        """A copy of a demo sheet."""
        demo = Path(__file__).parents[2] / "fixtures" / name
        (self.sheets / name).write_text(demo.read_text(encoding="utf-8"), encoding="utf-8")
        return self.sheets / name

    def open_demo(self, *view, name="first-pair.toml"):
        sheet = self.demo(name)
        program, address = self.start(name)
        page = self.browse(address, *view)
        page.drawn()
        return sheet, program, page

    def picture_of_failure(self):
        for i, page in enumerate(self.pages):
            page.picture(f"failed-{i}")

    def end(self):
        for page in self.pages:
            page.browser.quit()
        for program in self.running:
            program.kill()
            program.wait()


# The browser's own pages, such as the one it starts with: none of them is asked for elsewhere.
ITS_OWN = ("chrome:", "chrome-extension:", "chrome-untrusted:")


class Page:
    def __init__(self, means, address, width, height, media):
        self.means = means
        options = webdriver.ChromeOptions()
        options.binary_location = means.chromium
        profile = means.folder / f"profile-{len(means.pages)}"
        for flag in (*FLAGS, f"--user-data-dir={profile}", f"--window-size={width},{height}"):
            options.add_argument(flag)
        self.downloads = means.folder / f"downloads-{len(means.pages)}"
        self.downloads.mkdir()
        options.add_experimental_option("prefs", {"download.default_directory": str(self.downloads)})
        options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
        self.browser = webdriver.Chrome(options=options, service=Service(means.driver))
        size = {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 600}
        self.browser.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", size)
        features = [{"name": name, "value": value} for name, value in media.items()]
        self.browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": features})
        self.browser.get(address)

    # What is seen.

    def js(self, script, *arguments):
        return self.browser.execute_script(script, *arguments)

    def all(self, selector):
        return self.browser.find_elements(By.CSS_SELECTOR, selector)

    def one(self, selector):
        return wait_for(selector, lambda: self.all(selector))[0]

    def text(self, selector="body"):
        return self.one(selector).text

    def says(self, words, selector="body"):
        wait_for(f"“{words}” in {selector}", lambda: words in self.text(selector))

    def drawn(self):
        """The drawing is there, and nothing is asked of the program any more."""
        wait_for("pieces", lambda: self.all("svg.canvas path.cut"))

    def state(self):
        """What the program holds, asked with the page's own token."""
        return self.browser.execute_async_script(
            "const done = arguments[0]; fetch('/api/state', {headers: {'X-Quarterpin-Token': sessionStorage.token}})"
            ".then((r) => r.json()).then(done)"
        )

    def key(self, key):
        return self.state()["keys"][key]

    def cut(self, piece=0):
        return self.js("return document.querySelectorAll('svg.canvas path.cut')[arguments[0]].getAttribute('d')", piece)

    def picture(self, name):
        self.browser.save_screenshot(str(self.means.pictures / f"{self.means.journey}-{name}.png"))

    # What is done.

    def step(self, title):
        self.press_element(
            wait_for(f"the step {title}", lambda: [a for a in self.all("#path a") if title in a.text])[0]
        )
        wait_for(f"the view {title}", lambda: title in self.text("#panel h2"))

    def press_element(self, element):
        self.js("arguments[0].scrollIntoView({block: 'center'})", element)
        element.click()

    def press(self, words, within="body"):
        """Presses the button with these words."""
        buttons = lambda: [
            b
            for b in self.all(f"{within} button, {within} summary, {within} label")
            if words in b.text and b.is_displayed()
        ]
        found = wait_for(f"a button “{words}”", buttons)
        self.press_element(min(found, key=lambda button: len(button.text)))

    def label(self, words):
        """The field with this label."""

        def field():
            for label in self.all("#panel label"):
                if label.text.split("\n")[0].removesuffix(" (needed)") == words and label.is_displayed():
                    return self.browser.find_element(By.ID, label.get_attribute("for"))

        return wait_for(f"a field “{words}”", field)

    def fill(self, words, value):
        field = self.label(words)
        if field.tag_name == "select":
            return self.choose(field, value)
        self.js("arguments[0].scrollIntoView({block: 'center'})", field)
        field.send_keys(Keys.CONTROL, "a")
        field.send_keys(value, Keys.TAB)
        wait_for(
            f"{words} taken", lambda: self.js("return document.querySelector('#panel input:focus')?.id") != field.id
        )
        return None

    def choose(self, select, words):
        self.js("arguments[0].scrollIntoView({block: 'center'})", select)
        options = select.find_elements(By.TAG_NAME, "option")
        min((o for o in options if words in o.text), key=lambda option: len(option.text)).click()

    def keys(self, *keys):
        ActionChains(self.browser).send_keys(*keys).perform()

    def with_control(self, key):
        ActionChains(self.browser).key_down(Keys.CONTROL).send_keys(key).key_up(Keys.CONTROL).perform()

    def handle(self, label):
        return self.one(f'svg.canvas [role="slider"][aria-label^="{label}, on the"]')

    def pull(self, label, dx, dy):
        """Pulls a handle by so many pixels, in ten moves, and lets go."""
        dot = self.handle(label).find_element(By.CSS_SELECTOR, ".dot")
        chain = ActionChains(self.browser, duration=20).move_to_element(dot).click_and_hold()
        for _ in range(10):
            chain = chain.move_by_offset(dx / 10, dy / 10)
        chain.perform()
        ActionChains(self.browser).release().perform()

    def touch(self, *moves):
        """Fingers on the screen: each move is the places of all of them, the last one lifts them."""
        kinds = ["touchStart"] + ["touchMove"] * (len(moves) - 1)
        for kind, places in zip(kinds, moves):
            points = [{"x": x, "y": y, "id": i} for i, (x, y) in enumerate(places)]
            self.browser.execute_cdp_cmd("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})
        self.browser.execute_cdp_cmd("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})

    def middle(self, element):
        box = element.rect
        top = self.js("return scrollY")
        return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2 - top

    # What has to hold on every page.

    def axe(self, view):
        folder = importlib.util.find_spec("axe_playwright_python").submodule_search_locations[0]
        if not self.js("return typeof axe !== 'undefined'"):
            # Through the browser's own door for tools: the page's policy lets no foreign script in.
            source = (Path(folder) / "axe.min.js").read_text(encoding="utf-8")
            self.browser.execute_cdp_cmd("Runtime.evaluate", {"expression": source})
        found = self.browser.execute_async_script(
            "const done = arguments[0], runOnly = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];"
            "axe.run(document, {runOnly}).then(done, (error) => done({violations: [{id: String(error), nodes: []}], passes: []}))"
        )
        assert found["passes"], f"axe looked at nothing on {view}"
        told = [
            f"{v['id']}: {v.get('help')}: "
            + "; ".join(f"{n['html'][:160]} {n['failureSummary'][:200]}" for n in v["nodes"][:4])
            for v in found["violations"]
        ]
        assert not told, f"{view}: " + "\n".join(told)

    def quiet(self):
        """No script failed, the policy stopped nothing, and no request left the machine."""
        errors = [
            entry["message"]
            for entry in self.browser.get_log("browser")
            if entry["level"] == "SEVERE" and "status of 4" not in entry["message"]
        ]
        assert not errors, errors
        for entry in self.browser.get_log("performance"):
            message = json.loads(entry["message"])["message"]
            if message["method"] == "Network.requestWillBeSent":
                url = message["params"]["request"]["url"]
                assert url.startswith(("http://127.0.0.1:", "data:", "blob:", "about:", *ITS_OWN)), url

    def fits(self, width):
        """Nothing is wider than the window."""
        wide = self.js("return document.scrollingElement.scrollWidth")
        assert wide <= width, f"{wide} px in a window of {width}"
