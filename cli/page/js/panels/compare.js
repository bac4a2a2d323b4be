// Two finishes of one edge side by side, before one is chosen.

import { post } from "../api.js";
import { attempt, go, set, store } from "../store.js";
import { button, Component, h, length, percent, table } from "../ui.js";

/** What two sides say of one opening, as rows. */
function rows([one, other], names) {
  const both = (name) => [one, other].map((side) => side.find((opening) => opening.name === name));
  return names.flatMap((name) => {
    const [a, b] = both(name);
    if (!a || !b) return [];
    const row = (what, value) => [`${name}: ${what}`, value(a), value(b)];
    return [
      row("finish", ({ finish }) => finish),
      row("finished edge", ({ finished }) => length(finished)),
      row("elastic", ({ elastic, band }) => elastic?.name ?? (band ? "band" : "none")),
      row("to cut", ({ elastic, band }) => length(elastic?.cut_length ?? band?.cut_length)),
      row("reduction", ({ elastic, band }) => percent(elastic?.reduction ?? band?.reduction)),
      row("worn stretch", ({ worn }) => percent(worn?.stretch)),
    ];
  });
}

export class Compare extends Component {
  constructor() {
    super();
    this.state = { other: null, found: null };
  }

  changes(other) {
    return [{ key: `finish.${this.props.edge}.kind`, value: other }];
  }

  async compare(other) {
    if (!other) return this.setState({ other: null, found: null });
    const found = await attempt(() => post("/api/compare", { changes: this.changes(other) }));
    return this.setState({ other: found ? other : null, found: found ?? null });
  }

  render({ edge, title }, { other, found }) {
    const now = store.state.keys[`finish.${edge}.kind`].value;
    const id = `compare-${edge}`;
    const names =
      edge === "top" ? ["top edge"] : edge === "legs" ? ["left leg", "right leg"] : [edge.replace("_", " ")];
    const new_doubts =
      found?.findings?.[1]?.filter(({ text }) => !found.findings[0].some((one) => one.text === text)) ?? [];
    const done = () => this.setState({ other: null, found: null });
    return h(
      "div",
      { class: "row" },
      h("label", { for: id }, "Compare with"),
      h(
        "select",
        { id, value: other ?? "", onchange: (event) => this.compare(event.target.value) },
        h("option", { value: "" }, "another finish"),
        store.table.finishes
          .filter(({ name }) => name !== now)
          .map(({ name }) => h("option", { value: name, selected: other === name }, name)),
      ),
      found &&
        h(
          "div",
          null,
          table(`${title}: ${now} beside ${other}`, ["", "now", other], rows(found.openings, names)),
          new_doubts.map(({ text }) => h("p", { class: "finding warning" }, `With ${other}: ${text}`)),
          h(
            "div",
            { class: "row" },
            button(
              `Take ${other}`,
              async () => {
                await set(this.changes(other), `${title} ${other}`);
                done();
              },
              { class: "main" },
            ),
            button("Keep it as a variant", async () => {
              if (await go("/api/variant", { name: `${other}, ${title.toLowerCase()}`, changes: this.changes(other) }))
                done();
            }),
            button("Leave it", done),
          ),
        ),
    );
  }
}
