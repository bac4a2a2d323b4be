// The body: what is needed first, then what makes it better.

import { h } from "../ui.js";
import { store } from "../store.js";
import { fields, rowsOf } from "./field.js";

const UNITS = { in: "inches", cm: "centimetres", mm: "millimetres" };

export function Measures() {
  const rows = rowsOf("body");
  // Where the waist was taken belongs to the waist.
  const first = ({ key, needed }) => needed || key === "body.waist_level";
  const needed = rows.filter(first);
  const more = rows.filter((row) => !first(row));
  const used = more.some(({ key }) => store.state.keys[key]?.written !== null || store.state.keys[key]?.problem);
  return [
    h("h2", null, "Measures"),
    h("p", { class: "soft" }, `All lengths in ${UNITS[store.state.sheet.units]}: ${example()}. Girths go all round.`),
    h("fieldset", null, h("legend", { class: "unseen" }, "Needed"), fields(needed)),
    h(
      "details",
      { class: "group", open: used },
      h("summary", null, "Better with these: without them they are estimated"),
      fields(more),
    ),
  ];
}

const example = () => ({ in: "29 1/2, 29.5 or 29,5", cm: "74.5 or 74,5", mm: "745" })[store.state.sheet.units];
