// A class: everybody in a table of people, made by one sheet.

import { post } from "../api.js";
import { attempt, store, take, trouble } from "../store.js";
import { button, h } from "../ui.js";
import { isOdd, ofAll, Rows, TableView } from "./tables.js";

export class Class extends TableView {
  path = "/api/people";
  title = "Class";
  about =
    "Everybody in a table of people, made by one sheet: its cloth, shape and edges, and each person’s own measures.";
  none =
    "Put one there: CSV, .xlsx or .ods, with a header row such as name, waist, hips, waist to hip, crotch length, and a row for each person.";

  /** Opens the sheet of a person; where one of her name says something else, she is asked. */
  async open(row, where_there = null) {
    const { file, base, units } = this.state.table;
    try {
      take((await post("/api/person", { file, base, units, row, where_there })).state);
      location.hash = "measures";
    } catch (error) {
      if (error.status === 409 && !where_there) this.setState({ asking: { row, text: error.message } });
      else trouble(error);
    }
  }

  asking() {
    const { asking } = this.state;
    return (
      asking &&
      h(
        "div",
        { class: "finding warning", role: "alert" },
        h("p", null, `${asking.text}.`),
        h(
          "div",
          { class: "row" },
          button("Open it as it is", () => this.open(asking.row, "open")),
          button("A new one from the row", () => this.open(asking.row, "anew")),
          button("Leave it", () => this.setState({ asking: null })),
        ),
      )
    );
  }

  of(table) {
    const odd = table.rows.filter(isOdd);
    const { alone } = this.state;
    const rows = alone && odd.length ? odd : table.rows;
    const sheet = (one) =>
      one.status !== "unreadable" &&
      button("Open the sheet", () => attempt(() => this.open(one.row)), {
        class: "small",
        "aria-label": `Open the sheet of ${one.name}`,
      });
    const text = (row) => (row === 1 ? "1 row" : `${row} rows`);
    return [
      h(
        "ul",
        { class: "said" },
        table.said.map((line) => h("li", { key: line }, line)),
      ),
      h(
        "p",
        { role: "status" },
        odd.length ? `${text(odd.length)} to look at, marked with !.` : "Nothing is odd in any row.",
      ),
      ofAll(table),
      odd.length > 0 &&
        odd.length < table.rows.length &&
        h(
          "label",
          null,
          h("input", {
            type: "checkbox",
            checked: Boolean(alone),
            onchange: (event) => this.setState({ alone: event.target.checked }),
          }),
          " Show these alone",
        ),
      this.mending(),
      this.asking(),
      h(Rows, { table, caption: `People in ${table.file}`, rows, mend: (one) => this.mend(one), more: sheet }),
      table.unused.length > 0 && h("p", { class: "soft" }, `Columns that are not used: ${table.unused.join(", ")}.`),
      h(
        "details",
        { class: "group" },
        h("summary", null, "What to buy for all of them"),
        h(
          "ul",
          null,
          table.buy.map(([what, parts]) => h("li", { key: what }, what, parts && h("span", { class: "soft" }, ` ${parts}`))),
        ),
      ),
      h(
        "p",
        { class: "soft" },
        "All files for everybody: ",
        h("code", null, `quarterpin class ${table.file} --sheet ${table.base} -o class`),
      ),
      store.state.sheet.file !== table.base &&
        h("p", { class: "soft" }, `Open now is ${store.state.sheet.file}; the class is made by ${table.base}.`),
    ];
  }
}
