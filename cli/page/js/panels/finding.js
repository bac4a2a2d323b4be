// What the checks say, each with what to do about it.

import { attempt, go, missing, set } from "../store.js";
import { button, called, capital, h, sentence } from "../ui.js";

const SIGN = { note: "i", warning: "!", refusal: "×" };

async function remedy({ label, changes, solve, focus }, open) {
  if (changes?.length) return set(changes, label);
  if (solve) return go("/api/remedy", solve);
  return focus ? open(focus) : undefined;
}

const canBeDone = ({ changes, solve, focus }) => changes?.length || solve || focus;

/** Shows the field of a key, and goes there. */
export const toField = (key) => document.dispatchEvent(new CustomEvent("field", { detail: key }));

/** What has to be filled in first, each a way to its field. */
export const stillNeeded = () =>
  h(
    "p",
    { class: "row" },
    "Still needed: ",
    missing().map(({ key, label }) => button(capital(label), () => toField(key), { class: "small", key })),
  );

/** What no button can do: beside buttons, another way out. */
const advised = (advice, remedies) =>
  (advice.length < remedies.length ? "or " : "") + advice.map(({ label }) => label).join("; or ");

/** One finding; `small` beside the field that it is about. */
export function Finding({ finding, small = false, id }) {
  const { level, place, text, next, remedies, variant, effects } = finding;
  const advice = remedies.filter((one) => !canBeDone(one));
  return h(
    "div",
    { class: `finding ${level}`, id, tabindex: id ? -1 : undefined },
    h(
      "p",
      null,
      h("span", { class: "level" }, h("span", { class: "sign", "aria-hidden": "true" }, SIGN[level]), capital(level)),
      small ? "" : ` · ${place.key ? called(place.key) : place.name}${variant ? ` (${variant})` : ""}`,
      h("br"),
      sentence(capital(text)),
    ),
    // Where every way out has words of its own, they stand for the sentence that names them all.
    !remedies.length && next && h("p", { class: "soft" }, sentence(capital(next))),
    remedies.some(canBeDone) &&
      h(
        "div",
        { class: "row" },
        remedies
          .filter(canBeDone)
          .map((one) => button(capital(one.label), () => attempt(() => remedy(one, toField)), { class: "small" })),
      ),
    advice.length > 0 && h("p", { class: "soft" }, sentence(capital(advised(advice, remedies)))),
    !small &&
      effects?.length > 0 &&
      h(
        "details",
        null,
        h("summary", null, `It also causes ${effects.length} more`),
        effects.map((effect) => h("p", { class: "soft" }, effect.text)),
      ),
  );
}
