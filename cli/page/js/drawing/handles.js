// Points that can be pulled: each stands for one key, by pointer, touch and keyboard.

import { post } from "../api.js";
import { put, s } from "../dom.js";
import { attempt, preview, settle } from "../store.js";

const DOT = 7; // CSS px
const HIT = 16; // CSS px: a target of more than 24 across
const IDLE = 700; // ms after the last key until a change by keyboard is kept

/**
 * The handles of a board. `board` gives `frame(handle)`, `mm(event)`, `scale()`,
 * `within(point)` and `say(text)`.
 */
export class Handles {
  constructor(board) {
    this.board = board;
    this.group = s("g", { class: "handles" });
    this.span = s("g", { class: "span-of", "aria-hidden": "true" });
    this.group.append(this.span);
    this.drawn = new Map();
    this.ranges = new Map();
    this.held = null;
  }

  /** New places and values; the same handle keeps its element, and the focus. */
  draw(handles) {
    const seen = new Set();
    for (const handle of handles) {
      if (!this.board.frame(handle)) continue;
      const id = idOf(handle);
      seen.add(id);
      let entry = this.drawn.get(id);
      if (!entry) {
        entry = { element: this.make(id) };
        this.drawn.set(id, entry);
        this.group.append(entry.element);
      }
      // A preview says what moves alone.
      entry.handle = { ...entry.handle, ...handle };
      this.place(entry);
    }
    for (const [id, { element }] of this.drawn) {
      if (seen.has(id) || this.held?.id === id) continue;
      element.remove();
      this.drawn.delete(id);
    }
  }

  /** After a step that is kept, ranges may be others. */
  forget() {
    if (!this.held) this.ranges.clear();
  }

  make(id) {
    const element = s(
      "g",
      { class: "handle", role: "slider", tabindex: 0 },
      s("circle", { class: "hit" }),
      s("path", { class: "arrow" }),
      s("circle", { class: "dot" }),
    );
    const of = () => this.drawn.get(id);
    element.addEventListener("pointerdown", (event) => this.down(event, of()));
    element.addEventListener("pointermove", (event) => this.move(event));
    // Where a browser tells of a move at once and not only before its next picture, that one shows it already.
    element.addEventListener("pointerrawupdate", (event) => this.move(event));
    element.addEventListener("pointerup", (event) => this.up(event));
    element.addEventListener("pointercancel", () => this.letGo(null));
    element.addEventListener("keydown", (event) => this.key(event, of()));
    element.addEventListener("focus", () => {
      this.reach(of().handle.key);
      this.describe(of().handle);
    });
    element.addEventListener("pointerenter", () => {
      if (!this.held) this.describe(of().handle);
    });
    element.addEventListener("blur", () => this.keepKeys());
    return element;
  }

  place({ element, handle }) {
    const frame = this.board.frame(handle);
    const [x, y] = [frame.x + handle.at[0] * frame.scale, frame.y + handle.at[1] * frame.scale];
    const px = this.board.scale();
    const [hit, way, dot] = element.children;
    put(hit, { cx: x, cy: y, r: HIT * px });
    put(dot, { cx: x, cy: y, r: DOT * px });
    const [u, v] = handle.along.map((part) => part * px);
    const head = (by) =>
      `M ${x + by * (u * 19 - v * 4)} ${y + by * (v * 19 + u * 4)} L ${x + by * u * 24} ${
        y + by * v * 24
      } L ${x + by * (u * 19 + v * 4)} ${y + by * (v * 19 - u * 4)}`;
    put(way, { d: `${head(1)} ${head(-1)}` });
    const range = this.ranges.get(handle.key);
    const number = amount(handle.value);
    put(element, {
      "aria-label": `${handle.label}, ${handle.piece ? `on the ${handle.piece}` : `on the body, ${handle.view}`}`,
      "data-key": handle.key,
      "aria-valuenow": round(number),
      "aria-valuetext": handle.value.text,
      "aria-valuemin": round(range ? amount(range.low) : Math.min(number, 0)),
      "aria-valuemax": round(range ? amount(range.high) : Math.max(number * 2, 1)),
      "aria-orientation": Math.abs(handle.along[1]) > Math.abs(handle.along[0]) ? "vertical" : "horizontal",
    });
  }

  /** After zooming: the same size on the screen. */
  rescale() {
    for (const entry of this.drawn.values()) this.place(entry);
    this.drawSpan();
  }

  async reach(key) {
    if (!this.ranges.has(key)) {
      this.ranges.set(key, null);
      const range = await attempt(() => post("/api/reach", { key }));
      if (range) this.ranges.set(key, range);
      else this.ranges.delete(key);
    }
    for (const entry of this.drawn.values()) {
      if (entry.handle.key === key) this.place(entry);
    }
    this.drawSpan();
  }

  describe(handle) {
    const range = this.ranges.get(handle.key);
    const reach = range ? `, between ${range.low.text} and ${range.high.text}` : "";
    this.board.say(`${handle.label}: ${handle.value.text}${reach}`);
  }

  hold(entry) {
    const { handle } = entry;
    this.held = {
      id: idOf(handle),
      handle,
      from: amount(handle.value),
      now: amount(handle.value),
      frame: this.board.frame(handle),
    };
    entry.element.classList.add("held");
    this.reach(handle.key);
    this.drawSpan();
  }

  down(event, entry) {
    if (event.button > 0) return;
    event.stopPropagation();
    event.preventDefault();
    this.keepKeys();
    entry.element.focus({ preventScroll: true });
    entry.element.setPointerCapture(event.pointerId);
    this.hold(entry);
    this.held.pointer = { id: event.pointerId, at: this.board.mm(event) };
  }

  move(event) {
    const pointer = this.held?.pointer;
    if (pointer?.id !== event.pointerId) return;
    event.stopPropagation();
    const [x, y] = this.board.mm(event);
    const { handle, frame, from } = this.held;
    const along = ((x - pointer.at[0]) * handle.along[0] + (y - pointer.at[1]) * handle.along[1]) / frame.scale;
    this.pull(from + along * handle.per_mm);
  }

  up(event) {
    if (this.held?.pointer?.id !== event.pointerId) return;
    event.stopPropagation();
    this.letGo();
  }

  /** To a value, as far as the garment can be made. */
  pull(value) {
    const { held } = this;
    const range = this.ranges.get(held.handle.key);
    const [low, high] = range ? [amount(range.low), amount(range.high)] : [-Infinity, Infinity];
    const to = Math.min(Math.max(value, low), high);
    held.stopped = to !== value ? (to === low ? range.why_low : range.why_high) : "";
    if (to === held.now) return this.sayHeld();
    held.now = to;
    return preview([change(held)]);
  }

  /** What the held handle says now, as the preview tells it. */
  sayHeld() {
    if (!this.held) return;
    const { handle } = this.drawn.get(this.held.id) ?? this.held;
    this.describe(handle);
    if (this.held.stopped) this.board.say(`${handle.label}: ${handle.value.text}. It ends here: ${this.held.stopped}`);
  }

  /** Keeps what was pulled; `null` takes it back. */
  async letGo(how = "keep") {
    const { held } = this;
    if (!held) return;
    this.held = null;
    clearTimeout(this.idle);
    this.drawn.get(held.id)?.element.classList.remove("held");
    this.drawSpan();
    const pulled = how && Math.abs(held.now - held.from) > 1e-9;
    await settle(pulled ? [change(held)] : null, held.handle.label);
  }

  key(event, entry) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const { handle } = entry;
    if (event.key === "Escape" && this.held) {
      event.preventDefault();
      this.letGo(null);
      return;
    }
    if (event.key === "Enter" && this.held) {
      event.preventDefault();
      this.letGo();
      return;
    }
    const range = this.ranges.get(handle.key);
    const steps = stepsOf(event, handle);
    const to = { Home: range && amount(range.low), End: range && amount(range.high) }[event.key];
    if (steps === 0 && to === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    if (!this.held) this.hold(entry);
    this.pull(to ?? this.held.now + steps * handle.step);
    clearTimeout(this.idle);
    this.idle = setTimeout(() => this.keepKeys(), IDLE);
  }

  keepKeys() {
    if (this.held && !this.held.pointer) this.letGo();
  }

  /** The range in which it can be pulled, drawn where it is pulled. */
  drawSpan() {
    this.span.replaceChildren();
    const { held } = this;
    const range = held && this.ranges.get(held.handle.key);
    if (!range) return;
    const {
      handle: { at, along, per_mm: per },
      frame,
      from,
    } = held;
    const px = this.board.scale();
    const place = (value) =>
      [0, 1].map((i) => [frame.x, frame.y][i] + (at[i] + along[i] * ((value - from) / per)) * frame.scale);
    const ends = [range.low, range.high].map((end) => ({ at: this.board.within(place(amount(end))), text: end.text }));
    const [a, b] = ends.map((end) => end.at);
    this.span.append(s("line", { class: "span", x1: a[0], y1: a[1], x2: b[0], y2: b[1] }));
    for (const {
      at: [x, y],
      text,
    } of ends) {
      const [u, v] = along.map((part) => part * px * 8);
      this.span.append(s("line", { class: "span-end", x1: x - v, y1: y + u, x2: x + v, y2: y - u }));
      const label = s("text", {
        class: "span-text",
        x: x + Math.abs(v) * 1.6 + 4 * px,
        y: y + 4 * px,
        "font-size": 13 * px,
      });
      label.textContent = text;
      this.span.append(label);
    }
  }
}

/** The same point may be pulled on a piece and on the body. */
const idOf = ({ id, piece, view }) => `${id} ${piece ?? `body ${view}`}`;

const amount = (value) => value.mm ?? value.number;
const round = (number) => Math.round(number * 1000) / 1000;
const change = ({ handle, now }) => ({ key: handle.key, [handle.unit === "mm" ? "mm" : "number"]: round(now) });

/** Steps of a press of a key: an arrow pulls the point its own way, or up and right make the value larger. */
function stepsOf(event, { along: [x, y], per_mm: per }) {
  const way = { ArrowRight: [1, 0], ArrowLeft: [-1, 0], ArrowDown: [0, 1], ArrowUp: [0, -1] }[event.key];
  const far = event.shiftKey ? 5 : 1;
  if (event.key === "PageUp") return 10;
  if (event.key === "PageDown") return -10;
  if (!way) return 0;
  const straight = way[0] * x + way[1] * y;
  if (Math.abs(straight) > 0.38) return Math.sign(straight) * Math.sign(per) * far;
  return (way[0] - way[1]) * far;
}
