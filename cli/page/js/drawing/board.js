// The board: all pictures in one, with what can be pulled, doubted and measured on them.

import { isStale, listen, shown, store } from "../store.js";
import { put, s } from "../dom.js";
import { Handles } from "./handles.js";
import { Layer } from "./layer.js";
import { layout } from "./layout.js";
import { ofPiece, ofSize, ofView } from "./shapes.js";
import { spotsOf } from "./spots.js";
import { View } from "./view.js";

/** The garment, each piece with room for the sizes that are laid over it. */
function roomy(garment) {
  const all = store.over?.bounds;
  if (!all) return garment;
  const both = ([a, b, c, d], [e, f, g, i]) => [Math.min(a, e), Math.min(b, f), Math.max(c, g), Math.max(d, i)];
  const one = (piece) => (all[piece.name] ? { ...piece, bounds: both(piece.bounds, all[piece.name]) } : piece);
  return { ...garment, pieces: garment.pieces.map(one) };
}

/** The lines of the sizes that are laid over a piece. */
function sizesOf(piece) {
  const { sizes, hidden, strong } = store.over ?? { sizes: [] };
  return sizes
    .filter(({ row }) => !hidden.has(row))
    .flatMap(({ row, dash, outlines }) => ofSize(outlines[piece], row, dash, row === strong));
}

/** Draws what the store shows into an element, and keeps it so. */
export class Board {
  /** `shows` is "both", "pieces" or "body"; `said(text)` hears what is under the pointer. */
  constructor(element, { shows, said }) {
    this.shows = shows;
    this.said = said;
    this.ghosts = true;
    this.svg = s("svg", {
      class: "canvas",
      role: "group",
      tabindex: 0,
      "aria-describedby": "drawn-words",
      "aria-label": "Drawing. Arrow keys move it, plus and minus zoom, 0 shows all",
    });
    this.live = s("g", { class: "live" });
    this.over = new Layer({ class: "over" });
    this.frames = new Map();
    this.handles = new Handles({
      frame: (handle) => this.frames.get(handle.piece ? `piece ${handle.piece}` : `view ${handle.view}`)?.frame,
      mm: (event) => this.view.point(event),
      scale: () => this.view.scale(),
      within: (point) => this.view.within(point),
      say: (text) => this.said(text),
    });
    this.svg.append(this.live, this.over.group, this.handles.group);
    element.append(this.svg);
    this.view = new View(this.svg, () => this.rescale());
    this.heard = listen((what) => this.draw(what));
    new ResizeObserver(() => this.arrange()).observe(this.svg);
    this.draw("state");
  }

  show(shows) {
    this.shows = shows;
    this.view.box = null;
    this.arrange();
  }

  /** Places the pictures anew, as after a change of size; while pulling they stay where they are. */
  arrange() {
    const garment = shown();
    if (!garment) {
      this.frames.forEach(({ layer }) => layer.group.remove());
      this.frames.clear();
      return;
    }
    const { width, height } = this.svg.getBoundingClientRect();
    if (!width || !height) return;
    const { frames, bounds } = layout(roomy(garment), this.shows, width / height);
    const before = this.frames;
    this.frames = new Map();
    for (const frame of frames) {
      const layer = before.get(frame.id)?.layer ?? new Layer();
      before.delete(frame.id);
      put(layer.group, { transform: `translate(${frame.x} ${frame.y}) scale(${frame.scale})` });
      this.live.append(layer.group);
      this.frames.set(frame.id, { frame, layer });
    }
    for (const { layer } of before.values()) layer.group.remove();
    this.fill(garment);
    this.view.show(bounds);
  }

  /** Keeps what has a size on the screen at that size. */
  rescale() {
    const garment = shown();
    if (garment) this.fill(garment);
    this.handles.rescale();
    this.zoomed?.();
  }

  draw(what) {
    const garment = shown();
    this.svg.classList.toggle("stale", Boolean(isStale()));
    if (what === "state") this.handles.forget();
    if ((what === "state" || what === "over") && !this.handles.held) return this.arrange();
    if (garment) this.fill(garment);
    return this.handles.sayHeld();
  }

  fill(garment) {
    const { saved, sheet } = store.state;
    const ghosts = this.ghosts && !isStale() && (store.preview || !sheet.is_saved) ? saved : null;
    const px = this.view.scale();
    const each = (kind, { name, description }, draw) => {
      const stands = this.frames.get(`${kind} ${name}`);
      if (!stands) return;
      stands.layer.draw(draw(px / stands.frame.scale));
      // A picture to who looks, its description to who listens.
      if (description) put(stands.layer.group, { role: "img", "aria-label": description });
    };
    // A preview says what moves; what is written on a piece stays as it is.
    const kept = Object.fromEntries((store.state.garment?.pieces ?? []).map((piece) => [piece.name, piece]));
    const whole = garment.pieces.map((piece) => ({ ...kept[piece.name], ...piece }));
    for (const piece of whole) each("piece", piece, (mm) => [...ofPiece(piece, ghosts?.outlines?.[piece.name], mm), ...sizesOf(piece.name)]);
    for (const view of garment.on_body ?? [])
      each("view", view, (mm) => ofView(view, ghosts?.on_body?.[view.name], mm));
    this.handles.draw(isStale() ? [] : (garment.handles ?? []));
    this.drawOver();
  }

  /** Doubts at their places, of a size that stays. */
  drawOver() {
    if (!store.state) return;
    const px = this.view.scale();
    this.over.draw(
      this.handles.held ? [] : spotsOf(store.state, (piece) => this.frames.get(`piece ${piece}`)?.frame, px),
    );
  }
}
