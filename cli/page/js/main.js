// The page as a whole: which view stands beside the drawing.

import { Fragment, h, render } from "../vendor/preact.js";
import { Bar, keys } from "./bar.js";
import { tell } from "./dom.js";
import { sight } from "./drawing/sight.js";
import { findings } from "./drawing/spots.js";
import { Class } from "./panels/class.js";
import { Edges } from "./panels/edges.js";
import { idOf } from "./panels/field.js";
import { Lay } from "./panels/lay.js";
import { Look } from "./panels/look.js";
import { Measures } from "./panels/measures.js";
import { Base, Cloth } from "./panels/plain.js";
import { Sizes } from "./panels/sizes.js";
import { Start } from "./panels/start.js";
import { TakeAway } from "./panels/takeaway.js";
import { Trials } from "./panels/trials.js";
import { Warnings } from "./panels/warnings.js";
import { begin, listen, mistakes, store } from "./store.js";
import { button } from "./ui.js";

/**
 * The steps of the first pair, in order; anybody may go to any of them at any time. What stands beside them is no
 * step of it; what is alone has the whole page, without the drawing.
 */
const STEPS = [
  { id: "measures", title: "Measures", view: Measures, groups: ["body"] },
  { id: "cloth", title: "Cloth", view: Cloth, groups: ["fabric", "seams"] },
  { id: "base", title: "Base", view: Base, groups: ["style", "gusset", "sheet"] },
  { id: "edges", title: "Edges", view: Edges, groups: ["finish", "elastic"] },
  { id: "look", title: "Look", view: Look, groups: [] },
  { id: "print", title: "Print", view: TakeAway, groups: ["print"] },
  { id: "trials", title: "Trials", view: Trials, groups: ["trial"], beside: true },
  { id: "lay", title: "Lay", view: Lay, groups: [], beside: true, alone: true },
  { id: "class", title: "Class", view: Class, groups: [], beside: true, alone: true },
  { id: "sizes", title: "Sizes", view: Sizes, groups: [], beside: true },
];

let asked = false;

const here = () => STEPS.find(({ id }) => location.hash === `#${id}`);
const toStart = () => !store.state.sheet || location.hash === "#sheets";
const go = (id) => {
  location.hash = id;
};
const conflict = (is = true) => {
  asked = is;
  draw();
};

/** Is something wrong in a step? */
function isWrong({ id, groups }) {
  const { refusals } = store.state;
  if (id === "look") return refusals.length > 0;
  const refused = refusals.flatMap(({ place }) => (place.key ? [place.key] : []));
  return [...mistakes().map(({ key }) => key), ...refused].some((key) => groups.includes(key.split(".")[0]));
}

function Path() {
  const now = here() ?? STEPS[0];
  return h(
    "ol",
    null,
    STEPS.map((step, i) =>
      h(
        "li",
        { key: step.id, class: step.beside && !STEPS[i - 1].beside ? "beside" : undefined },
        h(
          "a",
          { href: `#${step.id}`, "aria-current": step === now ? "step" : undefined },
          step.beside ? step.title : `${i + 1} ${step.title}`,
          isWrong(step) &&
            h("span", { class: "flag" }, " !", h("span", { class: "unseen" }, " something is wrong here")),
        ),
      ),
    ),
  );
}

function Panel() {
  if (toStart()) return h(Start, { opened: (id) => go(id) });
  const at = Math.max(STEPS.indexOf(here()), 0);
  const [before, now, after] = [STEPS[at - 1], STEPS[at], STEPS[at + 1]];
  return h(
    Fragment,
    null,
    h(Warnings, { asked, ask: conflict }),
    h(now.view, { key: now.id }),
    !now.beside &&
      h(
        "div",
        { class: "row end" },
        before ? button(`‹ ${before.title}`, () => go(before.id)) : h("span"),
        after &&
          !after.beside &&
          button(`Next: ${after.title} ›`, () => go(after.id), { class: "main" }),
      ),
  );
}

const part = (id) => document.getElementById(id);
let drawing = false;

function draw() {
  if (!store.state) return;
  const start = toStart();
  const { sheet } = store.state;
  document.title = sheet ? `${sheet.is_saved ? "" : ""}${sheet.title || sheet.name} – quarterpin` : "quarterpin";
  const step = here() ?? STEPS[0];
  const alone = start || Boolean(step.alone);
  part("main").classList.toggle("alone", alone);
  part("main").classList.toggle("broad", !start && alone);
  part("main").dataset.step = start ? "start" : step.id;
  part("main").dataset.beside = String(start || Boolean(step.beside));
  part("sight").hidden = alone;
  part("path").hidden = start;
  render(h(Bar, { conflict, toSheets: () => go("sheets") }), part("bar"));
  render(start ? null : h(Path), part("path"));
  render(h(Panel), part("panel"));
  if (!alone && !drawing) {
    drawing = true;
    sight(part("sight"), openFinding);
  }
}

/** A new step begins at its head, and is told to who listens. */
function turned() {
  draw();
  part("panel").scrollTop = 0;
  part("panel").focus({ preventScroll: true });
}

function openFinding(i) {
  go("look");
  requestAnimationFrame(() =>
    requestAnimationFrame(() => {
      const found = document.getElementById(`finding-${i}`);
      found?.scrollIntoView({ block: "center" });
      found?.focus({ preventScroll: true });
    }),
  );
  const { level, text } = findings(store.state)[i];
  tell(`${level}: ${text}`);
}

/** Goes to the field of a key, in whatever step it is. */
function toField({ detail: key }) {
  const step = STEPS.find(({ groups }) => groups.includes(key.split(".")[0]));
  if (step) go(step.id);
  requestAnimationFrame(() =>
    requestAnimationFrame(() => {
      const field = document.getElementById(idOf(key));
      for (let group = field?.closest("details"); group; group = group.parentElement.closest("details"))
        group.open = true;
      field?.focus();
    }),
  );
}

// The fragment of the address is the step: skipping must not change it.
for (const skip of document.querySelectorAll(".skip")) {
  skip.addEventListener("click", (event) => {
    event.preventDefault();
    part(skip.hash.slice(1)).focus();
  });
}
addEventListener("hashchange", turned);
addEventListener("keydown", (event) => keys(event, conflict));
document.addEventListener("field", toField);
let later = 0;
listen((what) => {
  clearTimeout(later);
  if (what === "over") return;
  if (what === "state") draw();
  // The picture first: the form follows when it is painted.
  else later = setTimeout(draw, 30);
});
begin().catch((error) => {
  render(h("div", { class: "finding refusal", role: "alert" }, h("p", null, error.message)), part("panel"));
  part("main").classList.add("alone");
});
