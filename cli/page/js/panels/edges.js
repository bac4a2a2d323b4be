// How each edge is finished: the finish as a picture, its elastic, how hard it holds, and what comes of it.

import { go, set, store } from "../store.js";
import { button, capital, Component, h, Picture, words, Wrong } from "../ui.js";
import { Compare } from "./compare.js";
import { Field, idOf } from "./field.js";
import * as numbers from "./numbers.js";

const EDGES = [
  { id: "top", title: "Top edge", openings: ["top edge"] },
  { id: "legs", title: "Both legs", openings: ["left leg", "right leg"] },
  { id: "left_leg", title: "Left leg, where it differs", openings: ["left leg"] },
  { id: "right_leg", title: "Right leg, where it differs", openings: ["right leg"] },
];
const FIRST = ["reduction", "width", "depth"];

const keysOf = (edge) => Object.keys(store.state.keys).filter((key) => key.startsWith(`finish.${edge}.`));
const rowOf = (key) => store.table.finish_keys.find((row) => row.key === key);

const sentenceOf = (does) => does && `${capital(does)}.`;

/** The nine finishes as pictures. */
function Finishes({ edge }) {
  const key = `finish.${edge}.kind`;
  const at = store.state.keys[key];
  return h(
    "fieldset",
    { "aria-describedby": `${idOf(key)}-about` },
    h("legend", { class: "unseen" }, "Finish"),
    h(
      "div",
      { class: "cards" },
      store.table.finishes.map(({ name, does }) =>
        h(
          "label",
          { title: does },
          h("input", {
            type: "radio",
            name: idOf(key),
            value: name,
            checked: at?.value === name,
            onchange: () => set([{ key, value: name }], `${edge} ${name}`),
          }),
          name,
          h(Picture, { path: `/api/finish/${name}.svg`, alt: "" }),
        ),
      ),
    ),
    h(
      "p",
      { class: "hint", id: `${idOf(key)}-about` },
      sentenceOf(store.table.finishes.find(({ name }) => name === at?.value)?.does),
    ),
    at?.value &&
      !at.problem &&
      h(Picture, { class: "across", path: `/api/finish/${at.value}.svg`, alt: `${at.value}, cut across` }),
    at?.problem && h(Wrong, { problem: at.problem }),
  );
}

/** The elastics of the sheet first, then those of its drawer, then usual ones that suit the finish. */
function Elastic({ edge }) {
  const key = `finish.${edge}.elastic`;
  const at = store.state.keys[key];
  const { value: finish } = store.state.keys[`finish.${edge}.kind`] ?? {};
  const names = (of_drawer) =>
    store.state.elastics.filter(({ is_of_drawer: is }) => is === of_drawer).map(({ name }) => name);
  const [own, hers] = [names(false), names(true)];
  const drawer = store.table.drawer.filter(
    ({ name, for: suits }) => !own.includes(name) && !hers.includes(name) && (!suits?.length || suits.includes(finish)),
  );
  const id = idOf(key);
  const option = (name, text) => h("option", { value: name, selected: at.value === name }, text);
  return h(
    "div",
    { class: "field" },
    h("label", { for: id }, "Elastic"),
    h(
      "div",
      { class: "entry" },
      h(
        "select",
        { id, value: at.value, onchange: (event) => set([{ key, value: event.target.value || null }], "elastic") },
        !at.value && option("", "choose one"),
        own.length > 0 &&
          h(
            "optgroup",
            { label: "In this sheet" },
            own.map((name) => option(name, name)),
          ),
        hers.length > 0 &&
          h(
            "optgroup",
            { label: "In its drawer" },
            hers.map((name) => option(name, name)),
          ),
        drawer.length > 0 &&
          h(
            "optgroup",
            { label: "Usual ones" },
            drawer.map(({ name, width }) => option(name, `${name}, ${width[store.state.sheet.units]} wide`)),
          ),
      ),
    ),
    at.problem && h(Wrong, { problem: at.problem }),
  );
}

/** A reduction for each section of the edge. */
function Sections({ edge, openings }) {
  const opening = store.state.garment?.openings?.find(({ name }) => openings.includes(name));
  // The two sides of the top edge are held alike.
  const parts = new Map(
    (opening?.sections ?? []).map((section) => [section.name.replace(/ (left|right)$/, ""), section]),
  );
  const rows = [...parts]
    .map(([name, section]) => ({ section: { ...section, name }, key: `finish.${edge}.sections.${name}` }))
    .filter(({ key }) => store.state.keys[key] || store.state.keys[`finish.${edge}.sections`]);
  if (!rows.length) return null;
  const given = rows.some(({ key }) => store.state.keys[key]?.written);
  return h(
    "details",
    { class: "group", open: given },
    h("summary", null, "Held differently by section"),
    rows.map(({ section, key }) =>
      store.state.keys[key]
        ? h(Field, { key, name: key, plain: true, row: { key, label: `${section.name}, reduction`, takes: "percent" } })
        : h(NewSection, { key, name: key, section }),
    ),
  );
}

function NewSection({ name, section }) {
  return h(
    "div",
    { class: "field" },
    h("label", { for: idOf(name) }, `${capital(section.name)}, reduction`),
    h(
      "div",
      { class: "entry" },
      h("input", {
        type: "text",
        id: idOf(name),
        value: "",
        autocomplete: "off",
        onchange: (event) =>
          event.target.value.trim() && set([{ key: name, value: event.target.value }], `${section.name} reduction`),
      }),
      h("span", { class: "unit" }, "%"),
      section.reduction !== null && h("span", { class: "source" }, `now ${Math.round(section.reduction * 10) / 10} %`),
    ),
  );
}

/** The elastic's own measures, and its pull test. */
function OfElastic({ name }) {
  const quoted = /^[0-9A-Za-z_-]+$/.test(name) ? name : `"${name}"`;
  const rows = store.table.elastic_keys
    .map((row) => ({
      row,
      key: [`elastic.${quoted}.${row.key}`, `elastic."${name}".${row.key}`].find((key) => store.state.keys[key]),
    }))
    .filter(({ key }) => key);
  return (
    rows.length > 0 &&
    h(
      "details",
      { class: "group" },
      h("summary", null, `Elastic: ${name}`),
      rows.map(({ row, key }) => h(Field, { key, name: key, row })),
    )
  );
}

class Edge extends Component {
  render({ edge: { id, title, openings }, open }) {
    const { state } = store;
    const at = (key) => state.keys[`finish.${id}.${key}`];
    const shown = keysOf(id)
      .map((key) => key.slice(`finish.${id}.`.length))
      .filter((key) => !key.includes(".") && rowOf(key) && !["kind", "elastic", "sections"].includes(key));
    const [first, more] = [shown.filter((key) => FIRST.includes(key)), shown.filter((key) => !FIRST.includes(key))];
    const field = (key) =>
      h(Field, { key, name: `finish.${id}.${key}`, row: { ...rowOf(key), key: `finish.${id}.${key}` } });
    const mine = state.garment?.openings?.filter(({ name }) => openings.includes(name)) ?? [];
    const saved = state.saved;
    const differs = id.endsWith("_leg");
    return h(
      "details",
      { class: "group", open, id: `edge-${id}` },
      h("summary", null, `${title}: ${at("kind")?.value || "not yet chosen"}`),
      h(Finishes, { edge: id }),
      at("elastic") && h(Elastic, { edge: id }),
      first.map(field),
      mine.map((opening) => numbers.inShort(opening, saved)),
      h(Sections, { edge: id, openings }),
      more.length > 0 &&
        h("details", { class: "group" }, h("summary", null, "How it is put on, marks and more"), more.map(field)),
      mine.length > 0 &&
        h(
          "details",
          { class: "group" },
          h("summary", null, "Numbers in full"),
          numbers.openings(mine, saved),
          numbers.worn(mine, saved),
          numbers.sections(mine.slice(0, 1)),
        ),
      differs && button("As the other leg", () => set([{ key: `finish.${id}`, value: null }], title)),
      at("kind") && h(Compare, { edge: id, title }),
    );
  }
}

/** A leg of its own: begun with what both legs have. */
function differ(leg) {
  const { value } = store.state.keys["finish.legs.kind"] ?? {};
  return set([{ key: `finish.${leg}.kind`, value: value || "trim" }], `${words(leg)} of its own`);
}

export function Edges() {
  const there = EDGES.filter(({ id }) => !id.endsWith("_leg") || keysOf(id).length);
  const alone = ["left_leg", "right_leg"].filter((leg) => !keysOf(leg).length);
  const { variants } = store.state;
  return [
    h("h2", null, "Edges"),
    h("p", { class: "soft" }, "How the top and the legs are completed. Each picture is the edge cut across."),
    there.map((edge) => h(Edge, { edge, key: edge.id, open: true })),
    h(
      "div",
      { class: "row" },
      alone.map((leg) => button(`The ${words(leg)} differs`, () => differ(leg), { class: "small" })),
    ),
    store.state.elastics.map(({ name }) => h(OfElastic, { name, key: name })),
    variants.length > 0 &&
      h(
        "details",
        { class: "group" },
        h("summary", null, `Variants kept: ${variants.length}`),
        variants.map(({ name, number, changes }) =>
          h(
            "div",
            { class: "row", key: number },
            h("span", null, `${name}: ${changes.map(({ key, value }) => `${key} ${value}`).join(", ")}`),
            button(
              "Take out",
              () => go("/api/set", { changes: [{ key: `variant.${number}`, value: null }], keep: true, label: name }),
              { class: "small", "aria-label": `Take out the variant ${name}` },
            ),
          ),
        ),
      ),
  ];
}
