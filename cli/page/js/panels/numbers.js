// Numbers in tables: elastics, seams, marks, how it is worn; against saved where something changed.

import { capital, h, length, percent, table } from "../ui.js";

/** How a length differs from the saved one; empty where it does not. */
function against(now, saved) {
  if (!now || !saved || Math.abs(now.mm - saved.mm) < 0.05) return "";
  return ` (was ${saved.text})`;
}

const was = (saved, name) => saved?.openings?.find((opening) => opening.name === name);
const cutOf = (opening) => opening?.elastic?.cut_length ?? opening?.band?.cut_length;
const pressure = ({ pressure_kpa: kpa }) =>
  kpa === null || kpa === undefined ? "–" : `${Math.round(kpa * 10) / 10} kPa`;

/** Each opening: its line, its elastic, what to cut. */
export function openings(all, saved) {
  return table(
    "Edges and elastic",
    ["edge", "finish", "finished", "elastic", "reduction", "cut"],
    all.map((opening) => {
      const before = was(saved, opening.name);
      const { elastic, band } = opening;
      const cut = cutOf(opening);
      return [
        opening.name,
        opening.finish,
        length(opening.finished) + against(opening.finished, before?.finished),
        elastic?.name ?? (band ? "band" : "–"),
        percent(elastic?.reduction ?? band?.reduction),
        length(cut) + against(cut, cutOf(before)),
      ];
    }),
  );
}

/** One edge in a line: what it measures, what to cut, how it is worn. */
export function inShort(opening, saved) {
  const before = was(saved, opening.name);
  const { elastic, band, worn: now } = opening;
  const cut = cutOf(opening);
  const told = [
    `${length(opening.finished)} finished${against(opening.finished, before?.finished)}`,
    cut && `cut ${length(cut)} of ${elastic?.name ?? "band"}${against(cut, cutOf(before))}`,
    now && `stretched ${percent(now.stretch)} when worn`,
    now?.pressure_kpa != null && `presses ${pressure(now)}, indicative only`,
  ];
  return h(
    "p",
    { class: "short", key: opening.name },
    h("b", null, `${capital(opening.name)}: `),
    told.filter(Boolean).join("; "),
    ".",
  );
}

/** How each edge is worn. */
export function worn(all, saved) {
  const said = [...new Set(all.map((opening) => opening.worn?.said).filter(Boolean))];
  return [
    table(
      "Worn",
      ["edge", "body there", "at rest", "stretch", "pressure"],
      all
        .filter((opening) => opening.worn)
        .map((opening) => {
          const { worn: now, name } = opening;
          const before = was(saved, name)?.worn;
          const changed = before && Math.abs((before.stretch ?? 0) - (now.stretch ?? 0)) >= 0.05;
          return [
            name,
            length(now.girth),
            length(now.relaxed),
            percent(now.stretch) + (changed ? ` (was ${percent(before.stretch)})` : ""),
            pressure(now),
          ];
        }),
    ),
    said.map((text) => h("p", { class: "soft" }, text)),
  ];
}

/** Section by section. */
export function sections(all) {
  const rows = all.flatMap((opening) =>
    opening.sections.map((section) => [
      `${opening.name}, ${section.name}`,
      length(section.sewing),
      percent(section.reduction),
      length(section.elastic_length),
      percent(section.stretch),
    ]),
  );
  return table("By section", ["section", "sewing line", "reduction", "elastic", "stretch"], rows);
}

/** Where to pin. */
export function marks(all) {
  const rows = all.flatMap(
    (opening) =>
      (opening.elastic ?? opening.band)?.marks?.map((mark) => [
        `${opening.name}, ${mark.number ?? mark.label}`,
        mark.place,
        length(mark.from_cut_end?.[0] ?? mark.along_elastic),
        length(mark.along_edge),
      ]) ?? [],
  );
  return rows.length
    ? table("Marks to pin at", ["mark", "on the edge", "from the cut end", "along the edge"], rows)
    : null;
}

/** Both sides of every seam. */
export function seams(all) {
  return table(
    "Seams walked",
    ["seam", "one side", "other side", "fits"],
    all.map((seam) => [
      seam.name,
      length(seam.length_a),
      length(seam.length_b),
      seam.fits ? "yes" : `off by ${Math.round(seam.difference_mm * 1000) / 1000} mm`,
    ]),
  );
}

/** What to buy or have. */
export function elastics(all) {
  return table(
    "Elastic in all",
    ["elastic", "wide", "for one pair"],
    all.map((elastic) => [elastic.name, length(elastic.width), length(elastic.cut_length)]),
  );
}
