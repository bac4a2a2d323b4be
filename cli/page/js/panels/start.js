// The door: the sheets of the folder, and a new one.

import { get } from "../api.js";
import { attempt, go, store } from "../store.js";
import { button, Component, h } from "../ui.js";

const UNITS = { cm: "centimetres", mm: "millimetres", in: "inches" };

export class Start extends Component {
  constructor() {
    super();
    this.state = { folder: null, name: "", units: navigator.language === "en-US" ? "in" : "cm" };
  }

  componentDidMount() {
    attempt(async () => this.setState({ folder: await get("/api/folder") }));
  }

  async open(file) {
    if (await go("/api/open", { file })) this.props.opened("measures");
  }

  async make(event) {
    event.preventDefault();
    const { name, units } = this.state;
    const title = name.trim() || "my pair";
    const file = `${title.replace(/[^\p{L}\p{N}._-]+/gu, "-").replace(/^[-.]+|-+$/g, "") || "my-pair"}.toml`;
    if (await go("/api/new", { file, units, name: title })) this.props.opened("measures");
  }

  render(_, { folder, name, units }) {
    const sheets = folder?.sheets ?? [];
    return [
      h("h2", null, "A pair of knickers, made to measure"),
      h("p", null, "Everything that you fill in is kept in a sheet: a small file of your own in this folder."),
      h(
        "form",
        { onsubmit: (event) => this.make(event) },
        h("h3", null, "Begin a new one"),
        h(
          "div",
          { class: "field" },
          h("label", { for: "new-name" }, "What is it called?"),
          h("input", {
            type: "text",
            id: "new-name",
            class: "long",
            value: name,
            placeholder: "my pair",
            autocomplete: "off",
            oninput: (event) => this.setState({ name: event.target.value }),
          }),
        ),
        h(
          "fieldset",
          { class: "field" },
          h("legend", null, "Your tape measures in"),
          h(
            "div",
            { class: "row" },
            Object.entries(UNITS).map(([unit, text]) =>
              h(
                "label",
                { key: unit },
                h("input", {
                  type: "radio",
                  name: "units",
                  value: unit,
                  checked: unit === units,
                  onchange: () => this.setState({ units: unit }),
                }),
                ` ${text}`,
              ),
            ),
          ),
        ),
        h("div", { class: "row" }, h("button", { type: "submit", class: "main" }, "Begin")),
      ),
      sheets.length > 0 && [
        h("h3", null, `Or go on with one of “${folder.folder}”`),
        h(
          "ul",
          { class: "sheets" },
          sheets.map((sheet) =>
            h(
              "li",
              { key: sheet.file },
              button(
                [
                  sheet.name || sheet.file,
                  h(
                    "span",
                    null,
                    [sheet.file, sheet.has_unsaved && "has unsaved work", sheet.trouble].filter(Boolean).join(" · "),
                  ),
                ],
                () => this.open(sheet.file),
              ),
            ),
          ),
        ),
      ],
      folder &&
        store.state.sheet &&
        h(
          "p",
          null,
          button("Back to the sheet", () => this.props.opened("measures")),
        ),
    ];
  }
}
