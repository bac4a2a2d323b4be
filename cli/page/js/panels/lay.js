// How the pieces of some pairs lie on the cloth, and how much of it they take.

import { file, get, post, saveAs } from "../api.js";
import { attempt, listen, set, store } from "../store.js";
import { button, Component, h, sentence } from "../ui.js";

/** What is tried here stays while the page is open; the sheet changes only when that is asked for. */
const tried = { pairs: "1", width: null, nap: null, cloth: "" };
let seq = 0;

/** What differs from the sheet, as changes of it. */
function changes() {
  const { keys } = store.state;
  const differs = (key, value) => value !== null && value !== (keys[key]?.value ?? "");
  return [
    differs("fabric.width", tried.width) && { key: "fabric.width", value: tried.width || null },
    differs("fabric.nap", tried.nap) && { key: "fabric.nap", value: tried.nap },
  ].filter(Boolean);
}

export class Lay extends Component {
  constructor() {
    super();
    this.state = { found: null, address: null, trouble: "", busy: false };
  }

  componentDidMount() {
    this.version = store.state.version;
    this.stop = listen((what) => {
      if (what !== "state" || this.version === store.state.version) return;
      this.version = store.state.version;
      this.ask();
    });
    this.ask();
  }

  componentWillUnmount() {
    this.stop();
    this.gone = true;
    if (this.state.address) URL.revokeObjectURL(this.state.address);
  }

  /** A first look at once, then the lay as the program finds it. */
  async ask() {
    const asked = { pairs: tried.pairs, cloth: tried.cloth || null, changes: changes() };
    seq = Math.max(seq + 1, Date.now());
    const mine = seq;
    this.setState({ busy: true });
    for (const is_quick of [true, false]) {
      try {
        const query = `pairs=${encodeURIComponent(asked.pairs)}`;
        const found = await post("/api/lay", { ...asked, query, is_quick, seq: mine });
        if (mine !== seq || this.gone) return;
        if (!found.dropped) this.take(found);
      } catch (error) {
        if (mine !== seq || this.gone) return;
        this.setState({ trouble: error.message, busy: false });
        return;
      }
    }
    this.setState({ busy: false });
  }

  take(found) {
    if (this.state.address) URL.revokeObjectURL(this.state.address);
    const address = URL.createObjectURL(new Blob([found.picture], { type: "image/svg+xml" }));
    this.setState({ found, address, trouble: "" });
  }

  try(name, value) {
    tried[name] = value;
    this.ask();
  }

  async keep() {
    const { found } = this.state;
    if (!(await set(found.changes, "the cloth of the lay"))) return;
    [tried.width, tried.nap, tried.cloth] = [null, null, ""];
    this.setState({});
  }

  async save(ending) {
    await attempt(async () => {
      const { files } = await get("/api/files");
      const { name } = files.find((one) => one.ending === ending);
      saveAs(await file(`/api/file/${encodeURIComponent(name)}?${this.state.found.query}`), name);
    });
  }

  fields() {
    const { keys, sheet } = store.state;
    const { found } = this.state;
    const width = tried.width ?? keys["fabric.width"]?.value ?? "";
    const nap = (tried.nap ?? keys["fabric.nap"]?.value) === "yes";
    const cloths = found?.cloths ?? [];
    const entry = (id, label, value, name, unit) =>
      h(
        "div",
        { class: "field" },
        h("label", { for: id }, label),
        h(
          "div",
          { class: "entry" },
          h("input", {
            type: "text",
            id,
            value,
            autocomplete: "off",
            onchange: (event) => this.try(name, event.target.value.trim()),
          }),
          unit && h("span", { class: "unit" }, unit),
        ),
      );
    return [
      entry("lay-pairs", "How many pairs", tried.pairs, "pairs"),
      cloths.length > 0 &&
        h(
          "div",
          { class: "field" },
          h("label", { for: "lay-cloth" }, "On which cloth"),
          h(
            "select",
            { id: "lay-cloth", value: tried.cloth, onchange: (event) => this.try("cloth", event.target.value) },
            h("option", { value: "" }, `${keys["fabric.name"]?.value || "cloth"}, of the sheet`),
            cloths
              .filter((name) => name !== keys["fabric.name"]?.written)
              .map((name) => h("option", { value: name, key: name }, name)),
          ),
        ),
      entry("lay-width", "How wide the cloth is, selvedge to selvedge", width, "width", sheet.units),
      h(
        "div",
        { class: "field" },
        h(
          "label",
          null,
          h("input", {
            type: "checkbox",
            checked: nap,
            onchange: (event) => this.try("nap", event.target.checked ? "yes" : "no"),
          }),
          " It has a nap, or a print with an upper end",
        ),
        h("p", { class: "hint" }, "Then all pieces lie the same way up, and take more."),
      ),
    ];
  }

  render(_, { found, address, trouble, busy }) {
    const differs = found && !trouble && (found.changes.length > 0 || tried.cloth);
    const other = found?.changes.some(({ key }) => key !== "fabric.width");
    return h(
      "div",
      { class: "side-by-side" },
      h(
        "div",
        null,
        h("h2", null, "Lay"),
        h("p", { class: "soft" }, "How the pieces lie on the cloth, and how much of it to buy."),
        this.fields(),
        differs &&
          h(
            "div",
            { class: "row" },
            button("Write this cloth into the sheet", () => this.keep()),
            h("span", { class: "soft" }, "Until then the sheet stays as it is."),
          ),
        found &&
          !trouble &&
          !other &&
          h(
            "div",
            { class: "row" },
            button("Save it to print", () => this.save("-lay.pdf")),
            button("Save the picture", () => this.save("-lay.svg")),
          ),
      ),
      h(
        "div",
        { class: "lay", "aria-busy": String(busy) },
        trouble && h("p", { class: "wrong", role: "alert" }, sentence(`${trouble}.`)),
        found &&
          !trouble &&
          found.lays.map((lay) =>
            h(
              "p",
              { key: lay.cloth, role: "status" },
              h("b", { class: "buy" }, `To buy: ${lay.to_buy}`),
              h("br"),
              `${lay.text}.`,
            ),
          ),
        busy && h("p", { class: "soft" }, "Looking for a shorter lay…"),
        address && !trouble && h("img", { src: address, alt: found.lays.map(({ text }) => `Lay: ${text}`).join(". ") }),
      ),
    );
  }
}
