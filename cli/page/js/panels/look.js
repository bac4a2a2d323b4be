// The look over everything before printing: doubts, numbers, the order of work.

import { findings } from "../drawing/spots.js";
import { missing, mistakes, store } from "../store.js";
import { button, capital, h, table, Wrong } from "../ui.js";
import { Finding, stillNeeded, toField } from "./finding.js";
import * as numbers from "./numbers.js";

const GRAVE = { refusal: 0, warning: 1, note: 2 };

function heading({ refusals }, all) {
  if (missing().length) return "Not yet filled in";
  if (refusals.length || mistakes().length) return "Why it cannot be made";
  return all.length ? "What the checks say" : "The checks have nothing to say";
}

export function Look() {
  const { state } = store;
  const { garment, saved } = state;
  const all = findings(state)
    .map((finding, i) => ({ finding, i }))
    .sort((a, b) => GRAVE[a.finding.level] - GRAVE[b.finding.level]);
  const whole = garment && !garment.is_partial;
  return [
    h("h2", null, "Look"),
    whole && garment.description && h("p", null, garment.description),
    h("h3", null, heading(state, all)),
    missing().length > 0 && stillNeeded(),
    mistakes().map((problem) =>
      h(
        "div",
        { class: "finding refusal", key: problem.text },
        h("p", null, h("span", { class: "level" }, "In the sheet"), problem.key && ` · ${problem.key}`),
        h(Wrong, { problem }),
        problem.key && button("Go to the field", () => toField(problem.key), { class: "small" }),
      ),
    ),
    all.map(({ finding, i }) =>
      h(Finding, { finding, id: `finding-${i}`, key: `${finding.code} ${finding.place.name}` }),
    ),
    whole && [
      h("h3", null, "Numbers"),
      state.is_stale && h("p", { class: "soft" }, "Of the last pair that could be made."),
      numbers.openings(garment.openings, saved),
      numbers.worn(garment.openings, saved),
      numbers.marks(garment.openings),
      numbers.elastics(garment.elastics),
      numbers.seams(garment.seams),
      h(
        "details",
        { class: "group" },
        h("summary", null, `Order of work, ${garment.steps.length} steps`),
        table(
          "Order of work",
          ["step", "what", "how"],
          garment.steps.map((step) => [
            step.step,
            step.title,
            [step.does, step.caution && `Care: ${step.caution}`]
              .filter(Boolean)
              .map((text) => h("p", null, capital(text))),
          ]),
        ),
      ),
    ],
  ];
}
