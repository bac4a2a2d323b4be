// A table of the folder over a sheet: chosen, looked over, its odd rows marked, its cells mended in place.

import { get, post } from "../api.js";
import { tell } from "../dom.js";
import { attempt, listen, store } from "../store.js";
import { button, capital, Component, h, sentence } from "../ui.js";

const UNITS = { cm: "centimetres", mm: "millimetres", in: "inches" };
const STATUS = { done: "can be made", refused: "refused", unreadable: "cannot be read" };

/** What is chosen stays while the page is open, also where it is loaded again: the table, the sheet that it is
    laid over, its unit. */
const KEPT = "table";
const chosen = { file: "", base: "", units: "", ...JSON.parse(sessionStorage.getItem(KEPT) ?? "{}") };

export const isOdd = ({ status, reasons }) => status !== "done" || reasons.length > 0;

/** One cell; what is typed is written into the table when it is left. */
class Cell extends Component {
  /** Once, though Enter and leaving the cell both give it. */
  give(typed) {
    this.setState({ typed: undefined });
    if (typed.trim() !== this.props.value.trim()) this.props.given(typed.trim());
  }

  render({ value, label, wrong, described }, { typed }) {
    return h("input", {
      type: "text",
      value: typed ?? value,
      size: Math.min(Math.max(value.length, 4), 24),
      autocomplete: "off",
      spellcheck: false,
      "aria-label": label,
      "aria-invalid": wrong ? "true" : undefined,
      "aria-describedby": wrong ? described : undefined,
      oninput: (event) => this.setState({ typed: event.target.value }),
      onchange: (event) => this.give(event.target.value),
      onkeydown: (event) => {
        if (event.key === "Enter") this.give(event.target.value);
        if (event.key === "Escape") this.setState({ typed: undefined });
      },
    });
  }
}

const headOf = ({ letters, header }) => header || letters;

/** The rows, the odd ones with what is odd under them. */
export function Rows({ table, caption, rows, mend, more }) {
  const columns = table.columns.filter(({ header, means }) => header || means !== "nothing");
  const cell = (one, column) => {
    const text = one.cells[column.index] ?? "";
    if (!table.can_be_mended || column.means === "nothing") return text;
    return h(Cell, {
      value: text,
      label: `${headOf(column)}, row ${one.row}${one.name ? `, ${one.name}` : ""}`,
      wrong: one.reasons.some((reason) => reason.column === column.index),
      described: `odd-${one.row}`,
      given: (now) => mend({ row: one.row, column: column.index, was: text, now }),
    });
  };
  const row = (one) => [
    h(
      "tr",
      { key: one.row, class: isOdd(one) ? `odd ${one.status}` : undefined },
      h("th", { scope: "row" }, one.row),
      h("td", null, h("span", { class: "status" }, isOdd(one) && "! ", STATUS[one.status]), more?.(one)),
      columns.map((column) =>
        h(
          "td",
          {
            key: column.index,
            class: one.reasons.some((reason) => reason.column === column.index) ? "odd-cell" : undefined,
          },
          cell(one, column),
        ),
      ),
    ),
    one.reasons.length > 0 &&
      h(
        "tr",
        { key: `${one.row} odd`, class: "reasons" },
        h("td", null),
        h(
          "td",
          { colspan: columns.length + 1 },
          h(
            "ul",
            { id: `odd-${one.row}` },
            one.reasons.map((reason) =>
              h("li", { key: reason.text }, h("b", null, where(reason, table)), ended(reason.text)),
            ),
          ),
        ),
      ),
  ];
  return h(
    "div",
    { class: "wide people", tabindex: 0, role: "group", "aria-label": caption },
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
          h("th", { scope: "col" }, "row"),
          h("th", { scope: "col" }, "what becomes of it"),
          columns.map((column) => h("th", { scope: "col", key: column.index }, headOf(column))),
        ),
      ),
      h("tbody", null, rows.map(row)),
    ),
  );
}

/** A sentence of the program with its end. */
const ended = (text) => sentence(capital(text.replace(/\.?$/, ".")));

/** What is odd of everybody, told once. */
export const ofAll = ({ of_all: all }) =>
  all.map((text) => h("p", { class: "finding warning", key: text }, "Of everybody who can be made: ", ended(text)));

function where({ column }, { columns }) {
  const found = columns.find(({ index }) => index === column);
  return found ? `${headOf(found)}: ` : "";
}

/** A view of a table: what is chosen on top, then what its kind shows. */
export class TableView extends Component {
  constructor() {
    super();
    this.state = { folder: null, table: null, trouble: "", busy: false, mended: [] };
  }

  componentDidMount() {
    this.version = store.state.version;
    this.stop = listen((what) => {
      if (what !== "state" || this.version === store.state.version) return;
      this.version = store.state.version;
      if (store.state.sheet?.file === chosen.base) this.look();
    });
    attempt(async () => {
      const folder = await get("/api/folder");
      if (!folder.sheets.some(({ file }) => file === chosen.base)) chosen.base = store.state.sheet.file;
      if (!folder.tables.includes(chosen.file)) chosen.file = folder.tables.length === 1 ? folder.tables[0] : "";
      this.setState({ folder });
      this.look();
    });
  }

  componentWillUnmount() {
    this.stop();
    this.gone = true;
  }

  async look() {
    if (!chosen.file) {
      this.setState({ table: null, trouble: "" });
      this.shown(null);
      return;
    }
    sessionStorage.setItem(KEPT, JSON.stringify(chosen));
    const asked = `${chosen.file} ${chosen.base} ${chosen.units} ${store.state.version}`;
    this.asked = asked;
    this.setState({ busy: true });
    try {
      const table = await post(this.path, { ...chosen });
      if (this.asked !== asked || this.gone) return;
      this.setState({ table, trouble: "", busy: false });
      this.shown(table);
    } catch (error) {
      if (this.asked !== asked || this.gone) return;
      this.setState({ table: null, trouble: error.message, busy: false });
      this.shown(null);
    }
  }

  /** Hears what was found. */
  shown() {}

  choose(name, value) {
    chosen[name] = value;
    this.setState({ mended: [], asking: null });
    this.look();
  }

  /** Writes one cell after the other; each is shown as it will be before it is. */
  write(mend) {
    const { table } = this.state;
    const row = table.rows.find(({ row }) => row === mend.row);
    row.cells[mend.column] = mend.now;
    this.setState({ table });
    const one = async () => {
      const written = await attempt(() => post("/api/cell", { file: table.file, ...mend }));
      await this.look();
      return written;
    };
    this.writing = (this.writing ?? Promise.resolve()).then(one);
    return this.writing;
  }

  async mend(mend) {
    if (!(await this.write(mend))) return;
    this.setState(({ mended }) => ({ mended: [...mended, mend] }));
    tell(`Written into ${chosen.file}, row ${mend.row}.`);
  }

  async back() {
    const last = this.state.mended.at(-1);
    if (!(await this.write({ ...last, was: last.now, now: last.was }))) return;
    this.setState(({ mended }) => ({ mended: mended.slice(0, -1) }));
  }

  async copy() {
    const copied = await attempt(() => post("/api/copy", { file: chosen.file }));
    if (!copied) return;
    chosen.file = copied.file;
    tell(`${copied.file} is written, and can be mended here.`);
    this.setState({ folder: await get("/api/folder") });
    this.look();
  }

  chooser() {
    const { folder } = this.state;
    const select = (name, label, options, usual) =>
      h(
        "div",
        { class: "field" },
        h("label", { for: `table-${name}` }, label),
        h(
          "select",
          { id: `table-${name}`, value: chosen[name], onchange: (event) => this.choose(name, event.target.value) },
          usual && h("option", { value: "" }, usual),
          options.map(([value, text]) => h("option", { value, key: value, selected: value === chosen[name] }, text)),
        ),
      );
    const same = (name) => [name, name];
    const sheets = folder.sheets.filter(({ trouble }) => !trouble);
    return h(
      "div",
      { class: "chooser" },
      select("file", "Table", folder.tables.map(same), "choose one"),
      select(
        "base",
        "Made by the sheet",
        sheets.map(({ file, name }) => [file, name ? `${name} (${file})` : file]),
      ),
      select("units", "Lengths where the table does not say", Object.entries(UNITS), "in the unit of the sheet"),
    );
  }

  /** What is said of mending, and the way back. */
  mending() {
    const { table, mended } = this.state;
    if (!table.can_be_mended)
      return h(
        "div",
        { class: "row" },
        h("span", null, "A spreadsheet is not written here."),
        button("Go on with a copy as CSV", () => this.copy()),
      );
    const last = mended.at(-1);
    return h(
      "div",
      { class: "row" },
      h("span", { class: "soft" }, `What you change in a cell is written into ${table.file} when you leave it.`),
      last &&
        button(`Take back: row ${last.row}, ${last.was || "empty"}`, () => this.back(), { class: "small" }),
    );
  }

  render() {
    const { folder, table, trouble, busy } = this.state;
    if (!folder) return h("h2", null, this.title);
    return [
      h("h2", null, this.title),
      h("p", { class: "soft" }, this.about),
      folder.tables.length
        ? this.chooser()
        : h("p", null, `There is no table in “${folder.folder}” yet. ${this.none}`),
      !folder.tables.length &&
        button("Look again", () => attempt(async () => this.setState({ folder: await get("/api/folder") }))),
      busy && h("p", { class: "soft" }, "One moment…"),
      trouble && h("p", { class: "wrong", role: "alert" }, trouble),
      table && this.of(table),
    ];
  }
}
