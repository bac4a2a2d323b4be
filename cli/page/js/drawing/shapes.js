// From what the program drew to shapes for a layer: pieces, views of the body, ghosts. Nothing is computed here
// but where a picture stands beside the others.

const LINE = { cut: "cut", sewing: "sewing", "second row": "second", finished: "finished" };
const INK = {
  skin: "skin",
  cloth: "cloth-tone",
  contour: "contour",
  crease: "fine",
  "top edge": "edge-line",
  "leg edge": "edge-line",
  seam: "seam-line",
};
const TITLE = [9, 13]; // mm on the cloth, but at least so many CSS px
const SMALL = 5.5; // mm; left out where it is too small to be read
const READABLE = 9; // CSS px

const path = (key, name, d) => ({ key, tag: "path", attributes: { class: name, d } });

/** One `d` of parts that run head to tail, so that the whole can be filled. */
export const joined = (parts) =>
  parts.map((d, i) => (i ? d.replace(/^\s*M\s*-?[\d.e-]+[\s,]+-?[\d.e-]+/, "") : d)).join(" ");

function arrow(key, [x0, y0, x1, y1]) {
  const far = Math.hypot(x1 - x0, y1 - y0) || 1;
  const [u, v] = [(x1 - x0) / far, (y1 - y0) / far];
  const head = (x, y, way) =>
    `M ${x + way * (u * 5 + v * 2.5)} ${y + way * (v * 5 - u * 2.5)} L ${x} ${y} L ${
      x + way * (u * 5 - v * 2.5)
    } ${y + way * (v * 5 + u * 2.5)}`;
  return path(key, "grain", `M ${x0} ${y0} L ${x1} ${y1} ${head(x0, y0, 1)} ${head(x1, y1, -1)}`);
}

function writing(piece, px) {
  if (!piece.text_box) return [];
  const [x0, y0, x1, y1] = piece.text_box;
  const title = Math.max(TITLE[0], TITLE[1] * px);
  const lines = (piece.text ?? []).filter(
    ({ style }) => style === "title" || (style === "cutting" && SMALL > READABLE * px),
  );
  return lines.map(({ style, text }, i) => ({
    key: `text ${i}`,
    tag: "text",
    text,
    attributes: {
      x: (x0 + x1) / 2,
      y: (y0 + y1) / 2 + i * title - lines.length * 2,
      "text-anchor": "middle",
      "font-size": style === "title" ? title : SMALL,
      "font-weight": style === "title" ? 600 : 400,
    },
  }));
}

/** A piece, its outlines first, then what is marked and written on it; `px` is mm for a CSS pixel. */
export function ofPiece(piece, ghost, px) {
  const shapes = [];
  for (const { role, edges } of piece.outlines) {
    if (role === "cut") shapes.push(path("cut", "cut", `${joined(edges.map(({ d }) => d))} Z`));
    else for (const { name, d } of edges) if (name !== "centre") shapes.push(path(`${role} ${name}`, LINE[role], d));
  }
  for (const { role, edge, d } of piece.lines ?? []) shapes.push(path(`${role} ${edge}`, LINE[role], d));
  if (piece.extent === "half") {
    const [, y0, , y1] = piece.bounds;
    shapes.push(path("fold", "fold", `M 0 ${y0} V ${y1}`));
  }
  for (const {
    id,
    at: [x, y],
    inward: [u, v],
    depth,
  } of piece.notches ?? []) {
    shapes.push(path(`notch ${id}`, "notch", `M ${x} ${y} l ${u * depth} ${v * depth}`));
  }
  if (piece.grain) shapes.push(arrow("grain", piece.grain));
  if (ghost) shapes.push(...ghost.map((d, i) => path(`ghost ${i}`, "ghost", d)));
  return [...shapes, ...writing(piece, px)];
}

/** The pair on the body from one side. */
export function ofView(view, ghost, px) {
  const shapes = view.shapes.map(({ ink, d }, i) => path(`shape ${i}`, INK[ink] ?? "contour", d));
  if (ghost) shapes.push(...ghost.map((d, i) => path(`ghost ${i}`, "ghost", d)));
  const [x0, , x1, y1] = view.bounds;
  shapes.push({
    key: "name",
    tag: "text",
    text: view.name,
    attributes: { class: "label", x: (x0 + x1) / 2, y: y1 + 30, "text-anchor": "middle", "font-size": 12 * px },
  });
  return shapes;
}
