// Views that are little more than their fields: the cloth, and the base with all that may be set over it.

import { h } from "../ui.js";
import { fields, rowsOf } from "./field.js";

export function Cloth() {
  return [
    h("h2", null, "Cloth"),
    h("p", { class: "soft" }, "Stretch decides the size: do the fold test on the very cloth."),
    fields(rowsOf("fabric")),
    h("details", { class: "group" }, h("summary", null, "Seams: how they are sewn"), fields(rowsOf("seams"))),
  ];
}

export function Base() {
  const [base, ...knobs] = rowsOf("style");
  return [
    h("h2", null, "Base"),
    h("p", { class: "soft" }, "A shape to start from. Then pull its edges in the drawing, or set them here."),
    fields([base]),
    h("details", { class: "group", open: true }, h("summary", null, "Edges, set by number"), fields(knobs)),
    h("details", { class: "group" }, h("summary", null, "Gusset"), fields(rowsOf("gusset"))),
    h("details", { class: "group" }, h("summary", null, "This sheet"), fields(rowsOf("sheet").filter(({ key }) => key !== "sheet.version"))),
  ];
}
