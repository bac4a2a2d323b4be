// The head of the page: which sheet, whether it is saved, undo, redo, save, and the way out.

import { post } from "./api.js";
import { tell } from "./dom.js";
import { attempt, go, store, take } from "./store.js";
import { button, h } from "./ui.js";

export const undo = () => store.state.sheet?.undo && go("/api/undo");
export const redo = () => store.state.sheet?.redo && go("/api/redo");

/** Saves; where the file was changed meanwhile, `conflict` is asked first. */
export async function save(conflict) {
  if (store.state.sheet.on_disk === "changed") return conflict();
  const saved = await attempt(() =>
    post("/api/save", { force: false }).catch((error) => {
      if (error.status !== 409) throw error;
      conflict();
    }),
  );
  if (!saved) return undefined;
  take(saved);
  return tell("Saved.");
}

async function stop() {
  const { sheet } = store.state;
  const unsaved = sheet && !sheet.is_saved;
  if (unsaved && !window.confirm("There is unsaved work. It is kept, and offered again next time. Stop all the same?"))
    return;
  await attempt(() => post("/api/stop"));
  document.body.replaceChildren(
    Object.assign(document.createElement("p"), {
      className: "ended",
      textContent: "quarterpin has stopped. This page can be closed.",
    }),
  );
}

export function Bar({ conflict, toSheets }) {
  const { sheet } = store.state;
  if (!sheet) {
    return [
      h("div", { class: "name" }, h("h1", null, "quarterpin")),
      h("div", { class: "row" }, button("Stop", stop, { class: "small" })),
    ];
  }
  const saved = sheet.is_saved ? "saved" : "not saved";
  return [
    h(
      "div",
      { class: "name" },
      h("h1", null, sheet.title || sheet.name),
      h("p", null, `${sheet.file} · ${saved}${sheet.is_read_only ? " · read only" : ""}`),
    ),
    h(
      "div",
      { class: "row" },
      button("Undo", undo, {
        class: "small",
        disabled: !sheet.undo,
        title: sheet.undo ? `Undo: ${sheet.undo} (Ctrl+Z)` : undefined,
        "aria-label": sheet.undo ? `Undo: ${sheet.undo}` : "Undo",
      }),
      button("Redo", redo, {
        class: "small",
        disabled: !sheet.redo,
        title: sheet.redo ? `Redo: ${sheet.redo} (Ctrl+Y)` : undefined,
        "aria-label": sheet.redo ? `Redo: ${sheet.redo}` : "Redo",
      }),
      button("Save", () => save(conflict), {
        class: `small${sheet.is_saved ? "" : " main"}`,
        disabled: sheet.is_saved && sheet.on_disk === "same",
        title: "Ctrl+S",
      }),
      button("Sheets", toSheets, { class: "small" }),
      button("Stop", stop, { class: "small", title: "Ends the program" }),
    ),
  ];
}

/** Keys for the whole page; in a field, undo is the field's own. */
export function keys(event, conflict) {
  if (!(event.ctrlKey || event.metaKey) || event.altKey || !store.state?.sheet) return;
  const typing = event.target.matches?.("input[type=text], textarea");
  const key = event.key.toLowerCase();
  const does =
    key === "s"
      ? () => save(conflict)
      : typing
        ? null
        : key === "z"
          ? event.shiftKey
            ? redo
            : undo
          : key === "y"
            ? redo
            : null;
  if (!does) return;
  event.preventDefault();
  does();
}
