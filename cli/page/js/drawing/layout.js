// Where each picture stands: the pieces in rows, the views of the body below or alone.

const GAP = 28; // mm between pictures
const UNDER = 40; // mm under a view, for its name
const BESIDE = 0.55;

/** A picture with its place: `x`, `y` of its own origin, `scale` of its own mm. */
const frame = (id, kind, bounds, scale = 1) => ({ id, kind, bounds, scale, x: 0, y: 0 });

/** The frames of a garment for a board of this aspect (width : height), and the box round all of them. */
export function layout(garment, shows, aspect) {
  const pieces =
    shows === "body" ? [] : garment.pieces.map((piece) => frame(`piece ${piece.name}`, "piece", piece.bounds));
  let views =
    shows === "pieces"
      ? []
      : (garment.on_body ?? []).map((view) => {
          const [x0, y0, x1, y1] = view.bounds;
          return frame(`view ${view.name}`, "view", [x0, y0, x1, y1 + UNDER]);
        });
  // Beside the pieces the body is drawn smaller.
  if (pieces.length && views.length) views = views.map((one) => ({ ...one, scale: BESIDE }));
  const groups = [pieces, views].filter((group) => group.length);
  let best = null;
  for (const counts of ways(groups)) {
    const bounds = place(groups, counts);
    const zoom = Math.min(aspect / bounds.width, 1 / bounds.height);
    if (!best || zoom > best.zoom * 1.02) best = { counts, zoom };
  }
  const bounds = best ? place(groups, best.counts) : { x: 0, y: 0, width: 100, height: 100 };
  return { frames: groups.flat(), bounds };
}

/** Every number of pictures in a row, for each group. */
function ways(groups) {
  return groups.reduce((all, group) => all.flatMap((counts) => group.map((_, i) => [...counts, i + 1])), [[]]);
}

/** Sets each group in rows of so many, one group under the other; gives the box round all. */
function place(groups, counts) {
  let [width, y] = [0, 0];
  groups.forEach((group, i) => {
    for (let start = 0; start < group.length; start += counts[i]) {
      const row = group.slice(start, start + counts[i]);
      let [x, high] = [0, 0];
      for (const one of row) {
        const [x0, y0, x1, y1] = one.bounds.map((v) => v * one.scale);
        one.x = x - x0;
        one.y = y - y0;
        x += x1 - x0 + GAP;
        high = Math.max(high, y1 - y0);
      }
      width = Math.max(width, x - GAP);
      y += high + GAP;
    }
  });
  return { x: 0, y: 0, width, height: y - GAP };
}
