// Trials: how a test garment felt, what that says, and what to sew next.

import { get, post } from "../api.js";
import { tell } from "../dom.js";
import { attempt, set, store, take } from "../store.js";
import { button, called, capital, Component, h, percent, table, words } from "../ui.js";

const EDGES = [
  ["left", "Left leg"],
  ["right", "Right leg"],
  ["top", "Top edge"],
];
const number = (value) => (typeof value === "number" ? Math.round(value * 100) / 100 : value);

/** The reduction that an edge, or a section of one, has now; "legs" are both, alike. */
function reductionNow(edge) {
  const [name, section] = edge.split(", ");
  const opening = store.state.garment?.openings?.find((one) => one.name === (name === "legs" ? "left leg" : name));
  const at = section ? opening?.sections.find((one) => one.name === section) : (opening?.elastic ?? opening?.band);
  return at?.reduction ?? undefined;
}

/** Between which settings comfort lies, as a picture and in words. */
function Interval({ next }) {
  const { edge, low, high, proposal, converged, why } = next;
  const now = reductionNow(edge);
  const [from, to] = [Math.min(low, now ?? low, -2), Math.max(high, now ?? high, 15) + 1];
  const x = (value) => ((value - from) / (to - from)) * 300 + 10;
  const apart = x(high) - x(low) > 50;
  const words_ = `Comfort lies between ${percent(low)} and ${percent(high)}; best is ${percent(proposal)}`;
  return h(
    "div",
    { class: "field" },
    h("h3", null, capital(edge), converged && " · settled"),
    h(
      "svg",
      { class: "band", viewBox: "0 0 320 46", role: "img", "aria-label": words_ },
      h("line", { class: "line", x1: 10, x2: 310, y1: 26, y2: 26 }),
      h("rect", { class: "held", x: x(low), width: Math.max(x(high) - x(low), 2), y: 17, height: 18, rx: 3 }),
      now !== undefined && h("line", { class: "now", x1: x(now), x2: x(now), y1: 12, y2: 40 }),
      h("circle", { class: "wanted", cx: x(proposal), cy: 26, r: 6 }),
      h("text", { x: x(low), y: 12, "text-anchor": apart ? "middle" : "end" }, percent(low)),
      h("text", { x: x(high), y: 12, "text-anchor": apart ? "middle" : "start" }, percent(high)),
    ),
    h("p", null, words_, now !== undefined && `; now ${percent(now)}`, "."),
    next.try_left !== null &&
      next.try_left !== undefined &&
      h(
        "p",
        null,
        `Sew the next trial with the left leg at ${percent(next.try_left)}`,
        next.try_right !== null && ` and the right at ${percent(next.try_right)}`,
        ".",
      ),
    why && h("p", { class: "soft" }, capital(why)),
  );
}

/** Old against new. */
function changesOf({ next, remedies }) {
  const settings = next.map(({ edge, proposal }) => [
    `${edge}: reduction`,
    percent(reductionNow(edge)),
    percent(proposal),
  ]);
  const told = (value, unit) =>
    unit === "word" ? words(String(value)) : `${number(value)} ${unit === "share" ? "" : unit}`;
  const knobs = remedies
    .flatMap(({ changes }) => changes)
    .map(({ key, from, to, unit }) => [called(key), told(from, unit), told(to, unit)]);
  return [...settings.filter(([, now, then]) => now !== then), ...knobs];
}

const unknown = () =>
  h(
    "p",
    { class: "soft" },
    "Nothing is known yet. Sew a trial with two settings on the two legs, and tell how they felt.",
  );

function Lesson({ lesson, fit, apply }) {
  // Before anything was worn only what is usual could be said, and that stands under Edges.
  if (!store.state.trials.length && !fit.length) return unknown();
  const changes = changesOf(lesson);
  const pair = lesson.next.some(({ try_left: left, try_right: right }) => left != null && right != null);
  if (!lesson.next.length && !lesson.remedies.length && !lesson.conflicts.length) return unknown();
  return h(
    "section",
    { "aria-label": "What the trials say" },
    lesson.next.map((next) => h(Interval, { next, key: next.edge })),
    lesson.remedies.map(({ remark, why }) =>
      h("div", { class: "finding", key: remark }, h("p", null, h("b", null, capital(remark))), h("p", null, why)),
    ),
    lesson.conflicts.map(({ text }) => h("p", { class: "finding warning", key: text }, text)),
    changes.length > 0 && table("Old against new", ["what", "now", "new"], changes),
    h(
      "div",
      { class: "row" },
      changes.length > 0 && button("Apply what is proposed", () => apply(fit, false), { class: "main" }),
      pair && button("Apply the two settings to try", () => apply(fit, true)),
    ),
  );
}

export class Trials extends Component {
  constructor() {
    super();
    this.state = { said: {}, fit: {}, note: "", lesson: null };
  }

  componentDidMount() {
    this.lesson();
  }

  async lesson() {
    const remarks = this.remarks();
    const lesson = await attempt(() => (remarks.length ? post("/api/fit", { fit: remarks }) : get("/api/lesson")));
    if (lesson) this.setState({ lesson });
  }

  /** Remarks as they are said, each with its amount. */
  remarks() {
    return Object.entries(this.state.fit)
      .filter(([, { on }]) => on)
      .map(([said, { by }]) => (by?.trim() ? `${said} by ${by.trim()}` : said));
  }

  async note() {
    const { said, note } = this.state;
    const verdicts = Object.fromEntries(
      EDGES.map(([edge]) => [
        edge,
        Object.entries(said[edge] ?? {})
          .filter(([, verdict]) => verdict)
          .map(([part, verdict]) => (part === "all" ? verdict : `${part}=${verdict}`)),
      ]),
    );
    const answer = await attempt(() => post("/api/trial", { ...verdicts, fit: this.remarks(), note }));
    if (!answer) return;
    take(answer.state);
    this.setState({ lesson: answer.lesson, said: {}, note: "" });
  }

  async apply(fit, pair) {
    const answer = await attempt(() => post("/api/apply", { fit, pair }));
    if (!answer) return;
    take(answer.state);
    tell("It is written into the sheet; Undo takes it back.");
    this.setState({ lesson: answer.lesson, fit: {} });
  }

  verdict(edge, part, label) {
    const value = this.state.said[edge]?.[part] ?? "";
    const id = `felt-${edge}-${part}`;
    const give = (verdict) =>
      this.setState(({ said }) => ({ said: { ...said, [edge]: { ...said[edge], [part]: verdict } } }));
    return h(
      "div",
      { class: "row", key: id },
      h("label", { for: id }, label),
      h(
        "select",
        { id, value, onchange: (event) => give(event.target.value) },
        h("option", { value: "" }, "not told"),
        store.table.verdicts.map((verdict) => h("option", { value: verdict, selected: verdict === value }, verdict)),
      ),
    );
  }

  render(_, { fit, note, lesson, said }) {
    const { state, table: keys } = store;
    const sections = (name) => state.garment?.openings?.find((opening) => opening.name === name)?.sections ?? [];
    const told = Object.values(said).some((parts) => Object.values(parts).some(Boolean)) || this.remarks().length > 0;
    const mark = (remark, change) =>
      this.setState(
        ({ fit: all }) => ({ fit: { ...all, [remark]: { ...all[remark], ...change } } }),
        () => this.lesson(),
      );
    return [
      h("h2", null, "Trials"),
      h("p", { class: "soft" }, "Wear the test garment for a while, then tell how each edge felt."),
      h(
        "fieldset",
        null,
        h("legend", null, "How did it feel?"),
        EDGES.map(([edge, title]) =>
          h(
            "div",
            { class: "field", key: edge },
            this.verdict(edge, "all", title),
            h(
              "details",
              null,
              h("summary", null, "Only a part of it"),
              sections(edge === "top" ? "top edge" : `${edge} leg`).map(({ name }) =>
                this.verdict(edge, name, `${title}, ${words(name)}`),
              ),
            ),
          ),
        ),
      ),
      h(
        "details",
        { class: "group", open: this.remarks().length > 0 },
        h("summary", null, "What else was seen"),
        keys.remarks.map(({ words: said_ }) =>
          h(
            "div",
            { class: "row", key: said_ },
            h(
              "label",
              null,
              h("input", {
                type: "checkbox",
                checked: Boolean(fit[said_]?.on),
                onchange: (event) => mark(said_, { on: event.target.checked }),
              }),
              ` ${said_}`,
            ),
            fit[said_]?.on &&
              h(
                "label",
                null,
                "by ",
                h("input", {
                  type: "text",
                  size: 5,
                  value: fit[said_]?.by ?? "",
                  onchange: (event) => mark(said_, { by: event.target.value }),
                }),
                ` ${state.sheet.units}, if you know`,
              ),
          ),
        ),
      ),
      h(
        "div",
        { class: "field" },
        h("label", { for: "trial-note" }, "Anything worth remembering"),
        h("textarea", {
          id: "trial-note",
          value: note,
          oninput: (event) => this.setState({ note: event.target.value }),
        }),
      ),
      h(
        "div",
        { class: "row" },
        button("Note this trial", () => this.note(), { class: "main", disabled: !told }),
      ),
      Object.values(said).some((parts) => Object.values(parts).includes("tight")) &&
        h("p", { class: "finding warning" }, keys.too_tight),
      lesson && h(Lesson, { lesson, fit: this.remarks(), apply: (...all) => this.apply(...all) }),
      state.trials.length > 0 && [
        h("h3", null, "Noted so far"),
        h(
          "ul",
          { class: "files" },
          state.trials.map(({ number: n, text, note: noted }) =>
            h(
              "li",
              { key: n },
              h("span", { class: "what" }, text, noted && h("span", null, noted)),
              button(
                "Take out",
                async () => {
                  await set([{ key: `trial.${n}`, value: null }], "trial");
                  this.lesson();
                },
                { class: "small", "aria-label": `Take out trial ${n}` },
              ),
            ),
          ),
        ),
      ],
    ];
  }
}
