// What is taken away: the print with its pages shown first, the card, files for cutters, all in one.

import { file, get, post, saveAs } from "../api.js";
import { tell } from "../dom.js";
import { attempt, listen, missing, store } from "../store.js";
import { button, capital, Component, h } from "../ui.js";
import { fields, rowsOf } from "./field.js";
import { stillNeeded } from "./finding.js";

/** The print as it will come out of the printer, in the browser's own reader. */
class Pages extends Component {
  componentDidMount() {
    this.dialog.showModal();
    attempt(async () => this.setState({ address: URL.createObjectURL(await file(this.props.path)) }));
  }

  componentWillUnmount() {
    if (this.state.address) URL.revokeObjectURL(this.state.address);
  }

  render({ done }, { address }) {
    return h(
      "dialog",
      {
        class: "pages",
        ref: (element) => {
          this.dialog = element;
        },
        onclose: done,
        "aria-labelledby": "pages-title",
      },
      h(
        "div",
        { class: "row end" },
        h("h2", { id: "pages-title" }, "The pages, as they will print"),
        button("Close", () => this.dialog.close()),
      ),
      navigator.pdfViewerEnabled === false
        ? h("p", null, "This browser shows no PDF by itself: save it as a file, and open that.")
        : address ? h("iframe", { src: address, title: "The pages, as they will print" }) : h("p", null, "One moment…"),
    );
  }
}

/** The choices as a query; those left alone stay out. */
function query(chosen) {
  return Object.entries(chosen)
    .filter(([, value]) => value !== "" && value !== false && value !== undefined)
    .map(([name, value]) => (value === true ? name : `${name}=${encodeURIComponent(value)}`))
    .join("&");
}

const withQuery = (path, asked) => (asked ? `${path}?${asked}` : path);

export class TakeAway extends Component {
  constructor() {
    super();
    this.state = { files: [], choices: [], cautions: [], chosen: {}, showing: false, folder: "", busy: "" };
  }

  componentDidMount() {
    this.load();
    this.stop = listen((what) => {
      if (what === "state") this.load();
    });
  }

  componentWillUnmount() {
    this.stop();
  }

  async load() {
    if (store.state.refusals.length || store.state.is_stale || !store.state.garment) return;
    const answer = await attempt(() => get("/api/files"));
    if (answer) this.setState(answer);
  }

  /** The choices that a file follows; all where none is named. */
  chosenFor(name) {
    const one = this.state.files.find((each) => each.name === name);
    return Object.fromEntries(Object.entries(this.state.chosen).filter(([name]) => !one || one.follows.includes(name)));
  }

  choose(name, value) {
    this.setState(({ chosen }) => ({ chosen: { ...chosen, [name]: value } }));
  }

  async busy(what, doing) {
    this.setState({ busy: what });
    await attempt(doing);
    this.setState({ busy: "" });
  }

  path({ name }) {
    return withQuery(`/api/file/${encodeURIComponent(name)}`, query(this.chosenFor(name)));
  }

  fetch(one) {
    return this.busy(one.name, async () => {
      saveAs(await file(this.path(one)), one.name);
      tell(`${one.name} is saved where your browser saves files.`);
    });
  }

  /** Opens the print in the browser's own reader; from there it goes to the printer. */
  print(one) {
    const tab = window.open("", "_blank");
    return this.busy(one.name, async () => {
      const blob = await file(this.path(one));
      if (tab) tab.location = URL.createObjectURL(blob);
      else saveAs(blob, one.name);
    });
  }

  zip() {
    return this.busy("zip", async () => {
      saveAs(
        await file(withQuery("/api/zip", query(this.state.chosen))),
        `${store.state.sheet.file.replace(/\.toml$/, "")}.zip`,
      );
    });
  }

  write(force = false) {
    return this.busy("folder", async () => {
      const folder = this.state.folder.trim() || this.usualFolder();
      const written = await post("/api/write", { folder, query: query(this.state.chosen), force });
      tell(`${written.files.length} files are in the folder ${written.folder}.`);
    });
  }

  usualFolder() {
    return `${store.state.sheet.file.replace(/\.toml$/, "")}-pattern`;
  }

  choice({ name, takes, words: few, default: usual, help }) {
    const id = `choice-${name}`;
    const value = this.state.chosen[name];
    const about = h("p", { class: "hint", id: `${id}-about` }, help);
    if (takes === null) {
      return h(
        "div",
        { class: "field", key: name },
        h(
          "label",
          null,
          h("input", {
            type: "checkbox",
            id,
            checked: Boolean(value),
            "aria-describedby": `${id}-about`,
            onchange: (event) => this.choose(name, event.target.checked),
          }),
          ` ${capital(name.replaceAll("-", " "))}`,
        ),
        about,
      );
    }
    return h(
      "div",
      { class: "field", key: name },
      h("label", { for: id }, capital(name.replaceAll("-", " "))),
      h(
        "div",
        { class: "entry" },
        few?.length
          ? h(
              "select",
              {
                id,
                value: value ?? "",
                "aria-describedby": `${id}-about`,
                onchange: (event) => this.choose(name, event.target.value),
              },
              h("option", { value: "" }, usual ? `${usual} (usual)` : "as usual"),
              few
                .filter((word) => word !== usual)
                .map((word) => h("option", { value: word, selected: word === value }, word)),
            )
          : h("input", {
              type: "text",
              id,
              value: value ?? "",
              placeholder: usual ?? "",
              "aria-describedby": `${id}-about`,
              onchange: (event) => this.choose(name, event.target.value.trim()),
            }),
        takes === "MM" && h("span", { class: "unit" }, "mm"),
      ),
      about,
    );
  }

  render(_, { files, choices, cautions, showing, folder, busy }) {
    const { state } = store;
    if (state.refusals.length || state.is_stale || !state.garment) {
      return [
        h("h2", null, "Print"),
        missing().length ? stillNeeded() : h("p", null, "There is nothing to print yet: first mend what stands under Look."),
      ];
    }
    const groups = [...new Set(choices.map(({ group }) => group))];
    const print = files.find(({ ending }) => ending === ".pdf");
    const rest = files.filter((one) => one !== print && (one.always || this.state.chosen[one.with]));
    const [first, ...others] = groups;
    return [
      h("h2", null, "Print"),
      h("p", null, "Print one page first, at 100 %, and measure its test square. Then print the rest."),
      h(
        "fieldset",
        null,
        h("legend", { class: "unseen" }, "Paper"),
        fields(
          rowsOf("print").filter(({ key }) => key === "print.paper"),
          { plain: true },
        ),
      ),
      first &&
        h(
          "details",
          { class: "group" },
          h("summary", null, `Choices: ${first}`),
          choices.filter(({ group, name }) => group === first && name !== "paper").map((one) => this.choice(one)),
        ),
      print &&
        h(
          "div",
          { class: "row" },
          button(busy === print.name ? "One moment…" : "Open to print", () => this.print(print), { class: "main" }),
          button("Show the pages", () => this.setState({ showing: true })),
          button("Save it as a file", () => this.fetch(print)),
        ),
      showing && h(Pages, { path: this.path(print), done: () => this.setState({ showing: false }) }),
      h("h3", null, "Files"),
      h(
        "ul",
        { class: "files" },
        rest.map((one) =>
          h(
            "li",
            { key: one.name },
            h("span", { class: "what" }, one.name, h("span", null, capital(one.purpose))),
            button("Save", () => this.fetch(one), { class: "small", "aria-label": `Save ${one.name}` }),
          ),
        ),
      ),
      others.map((group) =>
        h(
          "details",
          { class: "group", key: group },
          h("summary", null, `Choices: ${group}`),
          choices.filter((one) => one.group === group).map((one) => this.choice(one)),
        ),
      ),
      h(
        "ul",
        { class: "soft" },
        cautions.map((text) => h("li", { key: text }, text)),
      ),
      h("h3", null, "All of them"),
      h(
        "div",
        { class: "row" },
        button("Save all as one zip", () => this.zip()),
      ),
      h(
        "div",
        { class: "row" },
        h("label", { for: "write-folder" }, "Or into the folder"),
        h("input", {
          type: "text",
          id: "write-folder",
          value: folder,
          placeholder: this.usualFolder(),
          oninput: (event) => this.setState({ folder: event.target.value }),
        }),
        button("Write", () => this.write()),
      ),
    ];
  }
}
