"""From pointer to paint: how soon the pulled pair is seen, and whether memory stays flat.

    python tests/extra/page_speed.py PROGRAM [MOVES]     (by default 500 moves)

The program should be a release build. A real Chromium (on Debian: apt install chromium chromium-driver; selenium
as in tests/page/requirements.txt) pulls a handle of the first pair, each move sent by the browser's own input
and timed by its own clock: from the event's time stamp to the task after the frame that shows the new outlines.
The naive way is timed in the same run: each move kept, and both pictures fetched and shown whole.
Of every answer to a move the server says itself how long it took over it, from the whole request on (the header
Server-Timing). The aims: p95 under 33 ms, of the server under 8 ms, memory flat. Exit code 1 where one is missed.
"""

import shutil
import statistics
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "page"))

from page import Means, wait_for

AIM = 33.0  # ms
SERVER = 8.0  # ms
MANY = 10_000
GROWTH = 4.0  # MB of the page's own objects after a collection
WATCH = """
window.times = [];
window.server = [];
new PerformanceObserver((list) => {
  for (const entry of list.getEntries()) {
    if (entry.name.endsWith('/api/set')) server.push(...entry.serverTiming.map(({ duration }) => duration));
  }
}).observe({ type: 'resource' });
let moved = 0;
const told = 'onpointerrawupdate' in window ? 'pointerrawupdate' : 'pointermove';
addEventListener(told, (event) => { moved = event.timeStamp; }, true);
const painted = new MessageChannel();
painted.port1.onmessage = ({ data }) => times.push(performance.now() - data);
new MutationObserver(() => {
  if (!moved) return;
  const from = moved;
  moved = 0;
  requestAnimationFrame(() => painted.port2.postMessage(from));
}).observe(document.querySelector('svg.canvas .live'), { subtree: true, attributes: true, attributeFilter: ['d'] });
"""
NAIVE = """
const [moves, done] = arguments;
const headers = { 'X-Quarterpin-Token': sessionStorage.token, 'Content-Type': 'application/json' };
const pictures = [0, 1].map(() => document.body.appendChild(new Image()));
(async () => {
  const { files } = await (await fetch('/api/files', { headers })).json();
  const names = ['.svg', '-on-body.svg'].map((ending) => files.find((file) => file.ending === ending).name);
  const took = [];
  for (let i = 0; i < moves; i++) {
    const began = performance.now();
    const changes = [{ key: 'style.side_seam', mm: 80 + (i % 20) }];
    await fetch('/api/set', { method: 'POST', headers, body: JSON.stringify({ keep: true, changes }) });
    await Promise.all(names.map(async (name, k) => {
      const whole = await (await fetch(`/api/file/${encodeURIComponent(name)}`, { headers })).blob();
      pictures[k].src = URL.createObjectURL(whole);
      await pictures[k].decode();
      URL.revokeObjectURL(pictures[k].src);
    }));
    await new Promise((next) => requestAnimationFrame(() => setTimeout(next)));
    took.push(performance.now() - began);
  }
  pictures.forEach((picture) => picture.remove());
  return took;
})().then(done, (error) => done(String(error)));
"""


def p95(times):
    return statistics.quantiles(times, n=20)[-1]


def memory(page):
    """MB that the page's own objects take, after a collection."""
    page.browser.execute_cdp_cmd("HeapProfiler.collectGarbage", {})
    return page.browser.execute_cdp_cmd("Runtime.getHeapUsage", {})["usedSize"] / 1e6


def grip(page):
    page.step("Base")
    handle = next(h for h in page.state()["garment"]["handles"] if h["key"] == "style.side_seam" and h["piece"])
    box = page.handle(handle["label"]).find_element("css selector", ".dot").rect
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    mouse(page, "mousePressed", x, y)
    time.sleep(1)
    return x, y


def mouse(page, kind, x, y):
    page.browser.execute_cdp_cmd(
        "Input.dispatchMouseEvent", {"type": kind, "x": x, "y": y, "button": "left", "buttons": 1, "clickCount": 1}
    )


def pull(page, moves, x, y, pause):
    for i in range(moves):
        # Up and down over 16 px, and never twice the same.
        mouse(page, "mouseMoved", x, y - 8 + abs(i % 32 - 16) + (i % 7) / 7)
        if pause:
            time.sleep(pause)


def main(program, moves="500"):
    moves = int(moves)
    with tempfile.TemporaryDirectory() as folder:
        programs = [Path(program).resolve(), shutil.which("chromium"), shutil.which("chromedriver")]
        means = Means(*programs, Path(folder), Path(folder), "speed")
        began = time.monotonic()
        _, _, page = means.open_demo()
        print(f"browser and program started, pair drawn: {time.monotonic() - began:.2f} s")
        painted = "return performance.getEntriesByName('first-contentful-paint')[0]?.startTime"
        paint = wait_for("the first paint", lambda: page.js(painted))
        print(f"first contentful paint {paint:.0f} ms after the address was opened")
        x, y = grip(page)
        page.js(WATCH)
        pull(page, moves, x, y, 0.02)
        time.sleep(0.5)
        times = page.js("return window.times")
        print(f"pulled: {len(times)} of {moves} moves painted, median {statistics.median(times):.1f} ms,")
        print(f"    p95 {p95(times):.1f} ms (aim {AIM})")
        server = page.js("return window.server")
        print(f"server: {len(server)} answers, median {statistics.median(server):.1f} ms,")
        print(f"    p95 {p95(server):.1f} ms (aim {SERVER}), longest {max(server):.1f} ms")
        before = memory(page)
        pull(page, MANY, x, y, 0)
        time.sleep(1)
        after = memory(page)
        print(f"memory: {before:.1f} MB before, {after:.1f} MB after {MANY} moves more")
        mouse(page, "mouseReleased", x, y)
        time.sleep(1)
        page.browser.set_script_timeout(300)
        naive = page.browser.execute_async_script(NAIVE, 60)
        if isinstance(naive, str):
            sys.exit(naive)
        print(f"whole pictures each time: median {statistics.median(naive):.1f} ms, p95 {p95(naive):.1f} ms")
        means.end()
    return int(p95(times) > AIM or p95(server) > SERVER or after - before > GROWTH)


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
