// Small parts of the form, for every view.

import { picture } from "./api.js";
import { store } from "./store.js";
import { Component, h } from "../vendor/preact.js";

export { h, Component };

export const button = (text, onclick, attributes = {}) => h("button", { type: "button", onclick, ...attributes }, text);

/** A table whose first column says what each row is. */
export function table(caption, headings, rows) {
  return h(
    "div",
    { class: "wide", tabindex: 0, role: "group", "aria-label": caption },
    h(
      "table",
      null,
      h("caption", null, caption),
      h(
        "thead",
        null,
        h(
          "tr",
          null,
          headings.map((text) => h("th", { scope: "col" }, text)),
        ),
      ),
      h(
        "tbody",
        null,
        rows.map((row) =>
          h(
            "tr",
            null,
            row.map((cell, i) => (i ? h("td", null, cell) : h("th", { scope: "row" }, cell))),
          ),
        ),
      ),
    ),
  );
}

/** A picture that the program draws; nothing where it has none. */
export class Picture extends Component {
  componentDidMount() {
    this.fetch();
  }

  componentDidUpdate(before) {
    if (before.path !== this.props.path) this.fetch();
  }

  async fetch() {
    const { path } = this.props;
    const address = await picture(path);
    if (path === this.props.path) this.setState({ address });
  }

  render({ alt, ...rest }, { address }) {
    delete rest.path;
    return address ? h("img", { src: address, alt, ...rest }) : null;
  }
}

/** What a key of the sheet is called on the page. */
export function called(key) {
  const { keys, finish_keys: finish, elastic_keys: elastic } = store.table;
  const row = keys.find((one) => one.key === key);
  if (row) return row.label;
  const parts = /^(finish|elastic)\.("[^"]*"|[^.]+)\.(.+)$/.exec(key);
  const last = parts && (parts[1] === "finish" ? finish : elastic).find((one) => one.key === parts[3]);
  return last ? `${words(parts[2].replaceAll('"', ""))}: ${last.label}` : key;
}

const KEYS =
  /`([^`]+)`|\b((?:body|fabric|style|gusset|seams|print|sheet)\.[a-z_]+|(?:finish|elastic)\.(?:"[^"]*"|[a-z_]+)\.[a-z_]+)/;

/** A sentence of the program; keys in it are called as their fields are. */
export function sentence(text) {
  const found = KEYS.exec(text);
  if (!found) return text;
  const key = found[1] ?? found[2];
  const homes = ["", "body.", "fabric.", "style.", "gusset.", "print."];
  const known = homes.map((home) => `${home}${key}`).find((name) => called(name) !== name);
  return [
    text.slice(0, found.index),
    h("b", null, known ? called(known) : key),
    sentence(text.slice(found.index + found[0].length)),
  ];
}

/** What is wrong with an entry: the sentence, what may be there, what to do. */
export function Wrong({ problem }) {
  const said = [problem.text, problem.label, problem.next].filter(Boolean).map(capital).join(". ");
  return h("p", { class: "wrong" }, sentence(/[.!?]$/.test(said) ? said : `${said}.`));
}

/** The text of a length, or a dash. */
export const length = (value) => value?.text ?? "–";

/** A number of percent, or a dash. */
export const percent = (value) => (value === null || value === undefined ? "–" : `${Math.round(value * 10) / 10} %`);

/** A name that a person reads, of one that a file holds. */
export const words = (name) => name.replaceAll("_", " ");

export const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);
