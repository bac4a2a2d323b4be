// Measuring along an edge: which edge, from where to where. The program measures; here is only pointed.

import { h, render } from "../../vendor/preact.js";
import { post } from "../api.js";
import { s } from "../dom.js";
import { Component, words } from "../ui.js";
import { attempt, listen, shown } from "../store.js";

const WHICH = { finished: "finished edge", sewing: "sewing line", cut: "cut line" };

/** Every edge of every piece that can be measured. */
function edges(garment) {
  return garment.pieces.flatMap((piece) =>
    piece.outlines.flatMap(({ role, edges: all }) =>
      all
        .filter(({ name }) => name !== "centre")
        .map(({ name, d }) => ({
          id: `${piece.name}/${role}/${name}`,
          piece: piece.name,
          role,
          edge: name,
          d,
          label: `${piece.name}: ${words(name)}, ${WHICH[role]}`,
        })),
    ),
  );
}

class Measure extends Component {
  constructor() {
    super();
    this.state = { id: null, from: 0, to: 1, told: "" };
  }

  componentDidMount() {
    const { board } = this.props;
    this.stop = listen((what) => {
      if (what === "state") this.ask();
    });
    this.clicked = (event) => this.point(event);
    board.svg.addEventListener("click", this.clicked);
    board.svg.classList.add("measuring");
    board.zoomed = () => this.mark();
    this.group = s("g", { "aria-hidden": "true" });
    board.svg.append(this.group);
    this.choose(edges(shown()).find(({ role }) => role === "finished").id);
  }

  componentWillUnmount() {
    const { board } = this.props;
    this.stop();
    board.svg.removeEventListener("click", this.clicked);
    board.svg.classList.remove("measuring");
    board.zoomed = null;
    this.group.remove();
  }

  choose(id) {
    this.setState({ id, from: 0, to: 1 }, () => this.ask());
  }

  edge() {
    return edges(shown()).find(({ id }) => id === this.state.id);
  }

  /** The edge as the browser draws it, to find points on it. */
  curve() {
    const edge = this.edge();
    return edge && s("path", { d: edge.d });
  }

  async ask() {
    const [edge, curve] = [this.edge(), this.curve()];
    if (!edge) return;
    const far = curve.getTotalLength();
    const [a, b] = [this.state.from, this.state.to]
      .map((share) => curve.getPointAtLength(share * far))
      .map(({ x, y }) => [x, y]);
    const answer = await attempt(() =>
      post("/api/measure", { piece: edge.piece, role: edge.role, edge: edge.edge, a, b }),
    );
    if (!answer) return;
    this.found = { ...answer, edge };
    this.setState({ told: `${answer.along.text} along the edge, ${answer.straight.text} straight` });
    this.mark();
  }

  mark() {
    if (!this.found) return;
    const { board } = this.props;
    const frame = board.frames.get(`piece ${this.found.edge.piece}`)?.frame;
    this.group.replaceChildren();
    if (!frame) return;
    const curve = s("path", { class: "measured", d: part(this.curve(), this.state.from, this.state.to) });
    const px = board.view.scale() / frame.scale;
    const ends = [this.found.a, this.found.b].map(([x, y]) =>
      s("circle", { class: "measured-end", cx: x, cy: y, r: 6 * px }),
    );
    this.group.setAttribute("transform", `translate(${frame.x} ${frame.y}) scale(${frame.scale})`);
    this.group.append(curve, ...ends);
  }

  /** A click takes the nearest edge, and moves the nearer end to it. */
  point(event) {
    const { board } = this.props;
    const at = board.view.point(event);
    const near = edges(shown())
      .map((edge) => {
        const frame = board.frames.get(`piece ${edge.piece}`)?.frame;
        if (!frame) return null;
        const local = [(at[0] - frame.x) / frame.scale, (at[1] - frame.y) / frame.scale];
        return { id: edge.id, ...nearest(s("path", { d: edge.d }), local) };
      })
      .filter(Boolean)
      .reduce((a, b) => (b.distance < a.distance ? b : a));
    if (near.distance > 30 * board.view.scale()) return;
    const { id, from, second } = this.state;
    if (id !== near.id || !second) {
      this.setState({ id: near.id, from: near.share, to: near.share, second: true }, () => this.ask());
    } else {
      this.setState({ from, to: near.share, second: false }, () => this.ask());
    }
  }

  render(_, { id, from, to, told }) {
    const end = (name, label, value) =>
      h(
        "label",
        null,
        label,
        h("input", {
          type: "range",
          min: 0,
          max: 100,
          step: 0.5,
          value: value * 100,
          "aria-valuetext": `${Math.round(value * 100)} % of the edge`,
          oninput: (event) => this.setState({ [name]: event.target.value / 100 }, () => this.ask()),
        }),
      );
    return h(
      "div",
      { class: "measure-form" },
      h(
        "label",
        null,
        "Edge ",
        h(
          "select",
          { value: id, onchange: (event) => this.choose(event.target.value) },
          edges(shown()).map((edge) => h("option", { value: edge.id, selected: edge.id === id }, edge.label)),
        ),
      ),
      end("from", "from", from),
      end("to", "to", to),
      h("output", null, told || "Click two points on an edge, or choose one here."),
    );
  }
}

/** The nearest place on a curve: its share of the length, and how far off it is. */
function nearest(curve, [x, y]) {
  const far = curve.getTotalLength();
  const off = (share) => {
    const p = curve.getPointAtLength(share * far);
    return Math.hypot(p.x - x, p.y - y);
  };
  let [best, reach] = [0, 0.5];
  for (let share = 0; share <= 1; share += 0.02) if (off(share) < off(best)) best = share;
  for (reach = 0.02; reach > 1e-4; reach /= 2) {
    for (const share of [best - reach, best + reach])
      if (share >= 0 && share <= 1 && off(share) < off(best)) best = share;
  }
  return { share: best, distance: off(best) };
}

/** A part of a curve, as a line of many short ones, to be shown. */
function part(curve, from, to) {
  const far = curve.getTotalLength();
  const points = Array.from({ length: 65 }, (_, i) => curve.getPointAtLength((from + ((to - from) * i) / 64) * far));
  return `M ${points.map(({ x, y }) => `${x} ${y}`).join(" L ")}`;
}

/** Shows the form for measuring under a board; gives what ends it. */
export function measure(element, board) {
  render(h(Measure, { board }), element);
  return () => render(null, element);
}
