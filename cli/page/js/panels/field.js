// One key of the sheet: its name, its entry, where its value comes from, how one gets it, what is wrong with it.

import { set, store } from "../store.js";
import { button, capital, Component, h, Picture, words, Wrong } from "../ui.js";
import { findings } from "../drawing/spots.js";
import { Finding } from "./finding.js";

const UNITS = { percent: "%", share: "of 1" };
const ROLL = ["914 mm", "a roll, by its width"];
const SOURCE = { default: "usual", estimated: "estimated", none: "", given: "" };

/** A field's own name in the page. */
export const idOf = (key) => `key-${key.replace(/[^0-9A-Za-z_-]+/g, "-")}`;

/** An entry that keeps what is being typed until it is given. */
class Entry extends Component {
  componentDidUpdate(before) {
    if (before.value !== this.props.value && this.state.typed !== undefined) this.setState({ typed: undefined });
  }

  give(typed) {
    this.setState({ typed: undefined });
    if (typed !== this.props.value) this.props.given(typed.trim() === "" ? null : typed);
  }

  render({ id, value, long, lines, described, wrong }, { typed }) {
    return h(lines ? "textarea" : "input", {
      id,
      type: lines ? undefined : "text",
      class: long ? "long" : undefined,
      value: typed ?? value,
      autocomplete: "off",
      spellcheck: false,
      "aria-describedby": described,
      "aria-invalid": wrong ? "true" : undefined,
      oninput: (event) => this.setState({ typed: event.target.value }),
      onchange: (event) => this.give(event.target.value),
      onkeydown: (event) => {
        if (event.key === "Enter" && !lines) this.give(event.target.value);
        if (event.key === "Escape") this.setState({ typed: undefined });
      },
    });
  }
}

/** One of a few words; the usual one is told where none is written. */
function Choice({ id, value, written, options, usual, otherwise, given, described, wrong }) {
  const without =
    written !== null ? ["as usual", otherwise].filter(Boolean).join(": ") : value ? `${words(value)} (usual)` : "–";
  return h(
    "select",
    {
      id,
      value: written ?? "",
      "aria-describedby": described,
      "aria-invalid": wrong ? "true" : undefined,
      onchange: (event) => given(event.target.value || null),
    },
    usual && h("option", { value: "", selected: written === null }, without),
    options.map(([name, text]) => h("option", { value: name, selected: written === name }, text)),
  );
}

function options(row, written) {
  const all =
    row.takes === "yes_no"
      ? [
          ["yes", "yes"],
          ["no", "no"],
        ]
      : row.words.map((word) => [word, words(word)]);
  if (row.takes === "paper") all.push(ROLL);
  const known = written === null || all.some(([name]) => name === written);
  return known ? all : [...all, [written, written]];
}

/** What is known of the value: where it comes from, and the way back. */
function Source({ row, at, give, chosen }) {
  const source = at.written !== null ? "" : [SOURCE[at.source], at.note].filter(Boolean).join(", ");
  // What is chosen from a list has its way back there.
  const back = at.written !== null && !row.needed && !chosen;
  return [
    source && h("span", { class: "source" }, source),
    back &&
      button("Clear", () => give(null), {
        class: "small",
        "aria-label": `Clear ${row.label}`,
        title: row.otherwise ? `Then: ${row.otherwise}` : undefined,
      }),
  ];
}

/** A value that the sheet or its drawer gives. */
const isThere = ({ written, source }) => written !== null || source === "given";

/** A field for a row of the table of keys; `at` another key of the same kind, as of one elastic. */
export function Field({ row, name = row.key, plain = false }) {
  const { state } = store;
  const at = state.keys[name];
  if (!at) return null;
  const id = idOf(name);
  const give = (value) => set([{ key: name, value }], row.label);
  const { problem } = at;
  // What is not yet filled in is no mistake.
  const missing = row.needed && !isThere(at);
  const wrong = Boolean(problem) && !missing;
  const described = `${id}-about`;
  const chosen =
    row.takes === "word" ||
    row.takes === "yes_no" ||
    (row.takes === "paper" && (!at.written || row.words.includes(at.written)));
  const value = store.preview?.values?.[name] ?? at.value;
  const unit = row.takes === "length" || (row.takes === "paper" && !chosen) ? state.sheet.units : UNITS[row.takes];
  const more = row.has_figure || row.advice || row.typical;
  const told = at.findings.map((i) => findings(state)[i]).filter(Boolean);
  return h(
    "div",
    { class: "field", key: name },
    h(
      "label",
      { for: id },
      capital(row.label),
      row.needed && h("span", { class: missing ? "missing" : "soft" }, " (needed)"),
    ),
    h(
      "div",
      { class: "entry" },
      chosen
        ? h(Choice, {
            id,
            value: at.value,
            written: at.written,
            options: options(row, at.written),
            usual: !row.needed || at.written === null,
            otherwise: row.otherwise,
            given: give,
            described,
            wrong,
          })
        : h(Entry, {
            id,
            value,
            given: give,
            described,
            wrong,
            long: row.takes === "text",
            lines: row.takes === "note",
          }),
      unit && h("span", { class: "unit" }, unit),
      Source({ row, at, give, chosen }),
    ),
    h(
      "div",
      { id: described },
      wrong && h(Wrong, { problem }),
      !plain && row.how && h("p", { class: "hint" }, row.how),
    ),
    !plain &&
      more &&
      h(
        "details",
        null,
        h("summary", null, row.has_figure ? "Where the tape lies" : "More"),
        row.has_figure &&
          h(Picture, {
            class: "figure",
            path: `/api/figure/${row.key}.svg`,
            alt: `Figure: where to measure ${row.label}`,
          }),
        row.advice && h("p", null, row.advice),
        row.typical && h("p", null, typical(row, state)),
        row.range && h("p", { class: "soft" }, `Allowed: ${inUnits(row.range, state)}`),
      ),
    told.map((finding) => h(Finding, { finding, small: true, key: finding.code })),
  );
}

const inUnits = (range, state) => (typeof range === "string" ? range : range[state.sheet.units]);

function typical(row, state) {
  return `On real bodies: ${inUnits(row.typical, state)}`;
}

/** Fields of these rows. */
export const fields = (rows, options = {}) => rows.map((row) => h(Field, { row, key: row.key, ...options }));

/** The rows of a group of the table. */
export const rowsOf = (group) => store.table.keys.filter((row) => row.group === group);
