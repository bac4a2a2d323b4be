// Looking closer and elsewhere: a picture's viewBox, moved by wheel, touch, buttons and keys.

const CLOSEST = 20; // mm across: closer is nothing to be seen.
const STEP = 1.25;

/** Keeps the viewBox of a picture; calls `changed` with mm per pixel when it moves. */
export class View {
  constructor(svg, changed) {
    this.svg = svg;
    this.changed = changed;
    this.bounds = { x: 0, y: 0, width: 100, height: 100 };
    this.box = null;
    this.fingers = new Map();
    svg.addEventListener("wheel", (event) => this.wheel(event), { passive: false });
    svg.addEventListener("pointerdown", (event) => this.down(event));
    svg.addEventListener("pointermove", (event) => this.move(event));
    for (const end of ["pointerup", "pointercancel"]) svg.addEventListener(end, (event) => this.up(event));
    svg.addEventListener("keydown", (event) => this.key(event));
    this.size = svg.getBoundingClientRect();
    // Asked once for each change: asking again would lay the page out anew at every move.
    new ResizeObserver(() => {
      this.size = svg.getBoundingClientRect();
      this.apply();
    }).observe(svg);
  }

  /** What is there to be seen. Stays as it is looked at, unless it was never moved. */
  show(bounds) {
    const same = ["x", "y", "width", "height"].every((k) => Math.abs(this.bounds[k] - bounds[k]) < 0.01);
    this.bounds = bounds;
    if (!this.box && !same) this.apply();
  }

  /** All of it. */
  fit() {
    this.box = null;
    this.apply();
  }

  whole() {
    const { x, y, width, height } = this.bounds;
    const margin = Math.max(width, height) * 0.04;
    return { x: x - margin, y: y - margin, width: width + 2 * margin, height: height + 2 * margin };
  }

  current() {
    return this.box ?? this.whole();
  }

  /** mm per CSS pixel. */
  scale() {
    const box = this.current();
    const { width, height } = this.size;
    return width && height ? Math.max(box.width / width, box.height / height) : 1;
  }

  /** The same place, or the nearest that is seen. */
  within([x, y]) {
    const box = this.current();
    const margin = 12 * this.scale();
    const hold = (v, low, size) => Math.min(Math.max(v, low + margin), low + size - margin);
    return [hold(x, box.x, box.width), hold(y, box.y, box.height)];
  }

  apply() {
    const { x, y, width, height } = this.current();
    this.svg.setAttribute("viewBox", `${x} ${y} ${width} ${height}`);
    this.changed(this.scale());
  }

  /** Where a pointer is, mm. */
  point(event) {
    const matrix = this.svg.getScreenCTM();
    const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
    return [at.x, at.y];
  }

  zoom(factor, about) {
    const box = this.current();
    const whole = this.whole();
    const width = Math.min(Math.max(box.width * factor, CLOSEST), whole.width * 3);
    const by = width / box.width;
    const [cx, cy] = about ?? [box.x + box.width / 2, box.y + box.height / 2];
    this.box = { x: cx - (cx - box.x) * by, y: cy - (cy - box.y) * by, width, height: box.height * by };
    this.apply();
  }

  pan(dx, dy) {
    const box = this.current();
    this.box = { ...box, x: box.x + dx, y: box.y + dy };
    this.apply();
  }

  wheel(event) {
    event.preventDefault();
    const lines = event.deltaMode === 1 ? 16 : 1;
    this.zoom(Math.exp(event.deltaY * lines * 0.0015), this.point(event));
  }

  down(event) {
    if (event.button > 0) return;
    this.svg.setPointerCapture(event.pointerId);
    this.fingers.set(event.pointerId, [event.clientX, event.clientY]);
    this.svg.classList.add("pulling");
  }

  move(event) {
    const before = this.fingers.get(event.pointerId);
    if (!before) return;
    const now = [event.clientX, event.clientY];
    const scale = this.scale();
    if (this.fingers.size === 1) this.pan((before[0] - now[0]) * scale, (before[1] - now[1]) * scale);
    else {
      const [other] = [...this.fingers].filter(([id]) => id !== event.pointerId).map(([, at]) => at);
      const far = (at) => Math.max(Math.hypot(at[0] - other[0], at[1] - other[1]), 1);
      this.zoom(far(before) / far(now), this.point(event));
    }
    this.fingers.set(event.pointerId, now);
  }

  up(event) {
    this.fingers.delete(event.pointerId);
    if (!this.fingers.size) this.svg.classList.remove("pulling");
  }

  key(event) {
    if (event.target !== this.svg || event.ctrlKey || event.metaKey || event.altKey) return;
    const far = this.current().width * 0.1;
    const does = {
      ArrowLeft: () => this.pan(-far, 0),
      ArrowRight: () => this.pan(far, 0),
      ArrowUp: () => this.pan(0, -far),
      ArrowDown: () => this.pan(0, far),
      "+": () => this.zoom(1 / STEP),
      "=": () => this.zoom(1 / STEP),
      "-": () => this.zoom(STEP),
      0: () => this.fit(),
    }[event.key];
    if (!does) return;
    event.preventDefault();
    does();
  }

  closer() {
    this.zoom(1 / STEP);
  }
  farther() {
    this.zoom(STEP);
  }
}
