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
const SMALLEST = 7; // CSS px; a name smaller than this is left out
const LETTER = 0.62; // width of a letter, as a share of the size of the type
const LEADING = 1.25;

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

/** How a name is written within a box: on one line or more, along it or down it; the larger the better. */
function fitted(name, width, height, largest) {
  const words = name.split(" ");
  const ways = words.length > 1 ? [[name], words] : [[name]];
  let best = null;
  for (const down of [false, true]) {
    for (const lines of ways) {
      const [along, across] = down ? [height, width] : [width, height];
      const longest = Math.max(...lines.map((line) => line.length));
      const size = Math.min(largest, along / (longest * LETTER), across / (lines.length * LEADING));
      if (!best || size > best.size * 1.05) best = { lines, down, size };
    }
  }
  return best;
}

function writing(piece, px) {
  if (!piece.text_box) return [];
  const [x0, y0, x1, y1] = piece.text_box;
  const [x, y] = [(x0 + x1) / 2, (y0 + y1) / 2];
  const said = (wanted) => (piece.text ?? []).filter(({ style }) => style === wanted);
  const name = said("title")
    .map(({ text }) => text)
    .join(" ");
  const small = SMALL > READABLE * px ? said("cutting") : [];
  const room = y1 - y0 - small.length * SMALL * LEADING;
  const { lines, down, size } = fitted(name, x1 - x0, Math.max(room, SMALL), Math.max(TITLE[0], TITLE[1] * px));
  // Too small to be read, it would only be in the way.
  if (size < SMALLEST * px) return [];
  const one = (text, i, font, at, weight) => ({
    key: `text ${i}`,
    tag: "text",
    text,
    attributes: {
      x,
      y: at,
      transform: down ? `rotate(-90 ${x} ${y})` : null,
      "text-anchor": "middle",
      "font-size": font,
      "font-weight": weight,
    },
  });
  const high = (lines.length - 1) * size * LEADING;
  const under = down ? [] : small;
  const top = y - (high + under.length * SMALL * LEADING) / 2 + size * 0.36;
  return [
    ...lines.map((text, i) => one(text, i, size, top + i * size * LEADING, 600)),
    ...under.map(({ text }, i) => one(text, lines.length + i, SMALL, top + high + (i + 1) * SMALL * LEADING, 400)),
  ];
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

const DASH = 2.2; // CSS px for a mm of a printed dash

/** The outline of a size over a piece, by its own dash. */
export const ofSize = (outline, row, dash, strong) =>
  (outline ?? []).map((d, i) => {
    const one = path(`size ${row} ${i}`, strong ? "size strong" : "size", d);
    one.attributes["stroke-dasharray"] = dash.map((mm) => mm * DASH).join(" ") || null;
    return one;
  });

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
