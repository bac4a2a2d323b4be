// The right side: the board with its tools and what is said under it.

import { Fragment, h, render } from "../../vendor/preact.js";
import { isStale, listen, missing, shown, store } from "../store.js";
import { idOf } from "../panels/field.js";
import { button, called, capital, Component, Picture, sentence } from "../ui.js";
import { Board } from "./board.js";
import { measure } from "./measure.js";

const HOW = "Pull a round handle, or choose one with Tab and press the arrow keys.";
const SHOWS = { both: "Both", pieces: "Pieces", body: "On the body" };

class Sight extends Component {
  constructor() {
    super();
    const narrow = window.matchMedia("(max-width: 59.99rem)").matches;
    this.state = { shows: narrow ? "pieces" : "both", measuring: false, ghosts: true, said: "" };
  }

  componentDidMount() {
    this.board = new Board(this.place, { shows: this.state.shows, said: (said) => this.setState({ said }) });
    this.board.svg.addEventListener("click", (event) => {
      const finding = event.target.dataset?.finding;
      if (finding !== undefined) this.props.open(Number(finding));
    });
    // What was said of a pull is old as soon as something else holds.
    this.stop = listen((what) => this.setState(what === "state" ? { said: "" } : {}));
  }

  show(shows) {
    this.setState({ shows });
    this.board.show(shows);
  }

  ghost() {
    this.board.ghosts = !this.state.ghosts;
    this.setState({ ghosts: this.board.ghosts });
    this.board.draw("state");
  }

  measure() {
    const measuring = !this.state.measuring;
    if (measuring) this.end = measure(this.form, this.board);
    else this.end();
    this.setState({ measuring });
  }

  render(_, { shows, measuring, ghosts, said }) {
    const garment = shown();
    const pressed = (is) => ({ "aria-pressed": String(is) });
    return h(
      Fragment,
      null,
      h(
        "div",
        { class: "tools", role: "toolbar", "aria-label": "Drawing" },
        h(
          "span",
          { class: "group-of" },
          Object.entries(SHOWS).map(([name, text]) =>
            button(text, () => this.show(name), { class: "small", ...pressed(shows === name) }),
          ),
        ),
        h(
          "span",
          { class: "group-of" },
          button("+", () => this.board.view.closer(), { class: "small", "aria-label": "Closer" }),
          button("−", () => this.board.view.farther(), { class: "small", "aria-label": "Farther" }),
          button("All", () => this.board.view.fit(), { class: "small", "aria-label": "Show all" }),
        ),
        button("Measure", () => this.measure(), { class: "small", disabled: !garment, ...pressed(measuring) }),
        button("As saved", () => this.ghost(), {
          class: "small",
          title: "The saved outlines, dashed, behind",
          ...pressed(ghosts),
        }),
      ),
      isStale() || !garment || garment.is_partial
        ? h("p", { class: missing().length ? "stale-note soft" : "stale-note" }, sentence(staleWords(garment)))
        : null,
      !garment && h(Tape, null),
      h("div", {
        class: garment ? "board" : "board empty",
        ref: (element) => {
          this.place = element;
        },
      }),
      h("div", {
        ref: (element) => {
          this.form = element;
        },
      }),
      h("p", { class: "caption", "aria-live": "off" }, said || (garment?.handles?.length && !isStale() ? HOW : "")),
      h("p", { class: "unseen", id: "drawn-words" }, store.state.garment?.description ?? "Nothing can be drawn yet."),
    );
  }
}

/** While there is nothing to draw: where the tape lies for the field that is filled in, else the first one. */
class Tape extends Component {
  componentDidMount() {
    this.focused = ({ target }) => {
      const row = store.table.keys.find(({ key, has_figure: has }) => has && idOf(key) === target.id);
      if (row) this.setState({ row });
    };
    document.addEventListener("focusin", this.focused);
  }

  componentWillUnmount() {
    document.removeEventListener("focusin", this.focused);
  }

  render(_, { row }) {
    const shown = row ?? missing().find(({ has_figure: has }) => has);
    if (!shown) return null;
    return h(
      "figure",
      { class: "tape" },
      h(Picture, { path: `/api/figure/${shown.key}.svg`, alt: `Figure: where to measure ${shown.label}` }),
      h("figcaption", null, h("b", null, capital(shown.label)), `: ${shown.how}`),
    );
  }
}

function staleWords(garment) {
  const needed = missing();
  if (needed.length && !store.state.sheet.is_broken)
    return `Still needed: ${needed.map(({ label }) => label).join(", ")}.`;
  const [problem] = store.state.sheet.problems;
  const why =
    (store.preview ? store.preview.refusals : store.state.refusals)[0]?.text ??
    (problem && (problem.key ? `${called(problem.key)}: ${problem.text}` : problem.text)) ??
    "something is still missing";
  const what = !garment?.pieces.length
    ? "Nothing can be drawn yet"
    : garment.is_partial
      ? "Only a part can be drawn"
      : "Shown is the last pair that could be made";
  return `${what}: ${why}`;
}

/** Draws into the right side; `open(finding)` shows a finding in words. */
export function sight(element, open) {
  render(h(Sight, { open }), element);
}
