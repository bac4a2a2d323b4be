// A table of sizes, laid over the pieces: each size a line of its own dash, and what it measures.

import { layOver } from "../store.js";
import { button, h, table as numbers } from "../ui.js";
import { isOdd, ofAll, Rows, TableView } from "./tables.js";

export class Sizes extends TableView {
  path = "/api/sizes";
  title = "Sizes";
  about = "One style over the sizes of a table, laid over the pieces. A size is nobody’s body; fit it before you cut many.";
  none =
    "Put one there: CSV, .xlsx or .ods, with a column “size” and at least a waist girth, a row for each size in their order.";

  shown(table) {
    layOver(table && { sizes: table.sizes, bounds: table.bounds, hidden: new Set(), strong: null });
    this.over = table && { hidden: new Set(), strong: null };
  }

  componentWillUnmount() {
    super.componentWillUnmount();
    layOver(null);
  }

  change(table, what) {
    Object.assign(this.over, what);
    layOver({ sizes: table.sizes, bounds: table.bounds, ...this.over });
    this.setState({});
  }

  toggle(table, row, is) {
    const hidden = new Set(this.over.hidden);
    if (is) hidden.delete(row);
    else hidden.add(row);
    this.change(table, { hidden });
  }

  legend(table) {
    const { hidden } = this.over;
    const strong = (row) => () => this.change(table, { strong: row });
    const rows = table.sizes.map(({ row }) => row);
    return [
      h(
        "fieldset",
        { class: "sizes" },
        h("legend", null, "Shown over the pieces"),
        table.sizes.map(({ row, name, dash }) =>
          h(
            "label",
            { key: row, onmouseenter: strong(row), onmouseleave: strong(null) },
            h("input", {
              type: "checkbox",
              checked: !hidden.has(row),
              onfocus: strong(row),
              onblur: strong(null),
              onchange: (event) => this.toggle(table, row, event.target.checked),
            }),
            h(
              "svg",
              { class: "dash", viewBox: "0 0 40 8", "aria-hidden": "true" },
              h("line", { x1: 0, y1: 4, x2: 40, y2: 4, "stroke-dasharray": dash.join(" ") }),
            ),
            name,
          ),
        ),
      ),
      h(
        "div",
        { class: "row" },
        button("All", () => this.change(table, { hidden: new Set() }), { class: "small" }),
        button("None", () => this.change(table, { hidden: new Set(rows) }), { class: "small" }),
      ),
    ];
  }

  of(table) {
    const odd = table.rows.filter(isOdd);
    const made = `${table.sizes.length} of ${table.rows.length} sizes can be made.`;
    return [
      h("p", { role: "status" }, odd.length ? `${made} What is odd is marked with ! in the table.` : made),
      ofAll(table),
      table.estimated && h("p", { class: "soft" }, table.estimated),
      table.sizes.length > 0 && this.over && this.legend(table),
      h(
        "details",
        { class: "group", open: odd.length > 0 },
        h("summary", null, `The table ${table.file}`),
        this.mending(),
        h(Rows, { table, caption: `Sizes in ${table.file}`, rows: table.rows, mend: (one) => this.mend(one) }),
      ),
      table.sizes.length > 0 &&
        table.lengths.map(({ title, heads, rows }) =>
          h("details", { class: "group", key: title }, h("summary", null, title), numbers(title, ["length", ...heads.slice(1)], rows)),
        ),
      h(
        "p",
        { class: "soft" },
        "The nested print and all files: ",
        h("code", null, `quarterpin sizes ${table.file} --sheet ${table.base} -o sizes`),
      ),
    ];
  }
}
