// Views that are little more than their fields: the cloth, and the base with all that may be set over it.

import { set, store } from "../store.js";
import { capital, h, Wrong } from "../ui.js";
import { Field, fields, idOf, rowsOf } from "./field.js";

export function Cloth() {
  return [
    h("h2", null, "Cloth"),
    h("p", { class: "soft" }, "Stretch decides the size: do the fold test on the very cloth."),
    fields(rowsOf("fabric")),
    h("details", { class: "group" }, h("summary", null, "Seams: how they are sewn"), fields(rowsOf("seams"))),
  ];
}

/** The bases, one to choose; the drawing beside follows at once. */
function Bases({ row }) {
  const at = store.state.keys[row.key];
  return h(
    "fieldset",
    null,
    h("legend", null, "Shape to start from"),
    h(
      "div",
      { class: "cards" },
      row.words.map((base) =>
        h(
          "label",
          { key: base },
          h("input", {
            type: "radio",
            name: idOf(row.key),
            id: base === at.value ? idOf(row.key) : undefined,
            value: base,
            checked: base === at.value,
            onchange: () => set([{ key: row.key, value: base }], base),
          }),
          capital(base),
        ),
      ),
    ),
    at.problem && h(Wrong, { problem: at.problem }),
  );
}

export function Base() {
  const [base, ...knobs] = rowsOf("style");
  return [
    h("h2", null, "Base"),
    h("p", { class: "soft" }, "A shape to start from. Then pull its edges in the drawing, or set them here."),
    base.words?.length ? h(Bases, { row: base }) : h(Field, { row: base }),
    h("details", { class: "group", open: true }, h("summary", null, "Edges, set by number"), fields(knobs)),
    h("details", { class: "group" }, h("summary", null, "Gusset"), fields(rowsOf("gusset"))),
    h(
      "details",
      { class: "group" },
      h("summary", null, "This sheet"),
      fields(rowsOf("sheet").filter(({ key }) => key !== "sheet.version")),
    ),
  ];
}
