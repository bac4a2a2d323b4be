// What has to be said before anything else: work left unsaved last time, a file that somebody changed meanwhile.

import { get } from "../api.js";
import { attempt, go, store } from "../store.js";
import { button, called, Component, h, table } from "../ui.js";

/** Both states of the sheet, side by side; nothing is overwritten unasked. */
class Both extends Component {
  componentDidMount() {
    this.dialog.showModal();
    attempt(async () => this.setState({ both: await get("/api/theirs") }));
  }

  async choose(path, data) {
    if (await go(path, data)) this.props.done();
  }

  render({ done }, { both }) {
    return h(
      "dialog",
      {
        ref: (element) => {
          this.dialog = element;
        },
        onclose: done,
        "aria-labelledby": "both-title",
      },
      h("h2", { id: "both-title" }, "The file was changed meanwhile"),
      h("p", null, "Here is what you have on this page, and what the file holds now."),
      both && [
        both.differs.length > 0 &&
          table(
            "Where they differ",
            ["what", "this page", "the file"],
            both.differs.map(({ key, ours, theirs }) => [called(key), ours ?? "–", theirs ?? "–"]),
          ),
        h(
          "details",
          null,
          h("summary", null, "Both texts in full"),
          h(
            "div",
            { class: "two" },
            h("div", null, h("h3", null, "This page"), h("pre", { tabindex: 0 }, both.ours)),
            h("div", null, h("h3", null, "The file"), h("pre", { tabindex: 0 }, both.theirs)),
          ),
        ),
      ],
      h(
        "div",
        { class: "row" },
        button("Take the file's", () => this.choose("/api/reload"), { class: "main" }),
        button("Write this page's over it", () => this.choose("/api/save", { force: true })),
        button("Decide later", () => this.dialog.close()),
      ),
      h("p", { class: "soft" }, "Taking the file's is a step that undo takes back."),
    );
  }
}

export class Warnings extends Component {
  render({ asked, ask }) {
    const { sheet } = store.state;
    if (!sheet) return null;
    const changed = sheet.on_disk === "changed";
    return [
      store.problem && h("div", { class: "finding refusal", role: "alert" }, h("p", null, store.problem)),
      sheet.unsaved &&
        h(
          "div",
          { class: "finding warning", role: "alert" },
          h(
            "p",
            null,
            h("b", null, "Work from last time was not saved."),
            sheet.unsaved.is_of_this_file ? "" : " The file has been changed since then.",
          ),
          h(
            "div",
            { class: "row" },
            button("Take it up again", () => go("/api/unsaved", { take: true }), { class: "main" }),
            button("Throw it away", () => go("/api/unsaved", { take: false })),
          ),
        ),
      sheet.is_broken &&
        h(
          "div",
          { class: "finding refusal", role: "alert" },
          h(
            "p",
            null,
            h("b", null, "The file cannot be read. "),
            sheet.problems
              .map(({ line, text, next }) => [line && `Line ${line}`, text, next].filter(Boolean).join(": "))
              .join("; "),
          ),
        ),
      changed &&
        h(
          "div",
          { class: "finding warning", role: "alert" },
          h("p", null, h("b", null, "The file was changed in another program.")),
          h(
            "div",
            { class: "row" },
            button("Look at both", () => ask(true), { class: "small" }),
            sheet.is_saved && button("Take the file's", () => go("/api/reload"), { class: "small" }),
          ),
        ),
      sheet.on_disk === "gone" &&
        h(
          "div",
          { class: "finding warning", role: "alert" },
          h("p", null, "The file is gone from its folder. Saving writes it again."),
        ),
      asked && h(Both, { done: () => ask(false) }),
    ];
  }
}
