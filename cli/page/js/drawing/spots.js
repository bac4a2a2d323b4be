// Findings at the places on the pieces that they speak of.

const RADIUS = 9; // CSS px
const SIGN = { note: "i", warning: "!", refusal: "×" };

/** Every spot of the findings told now. */
export function findings(state) {
  return state.refusals.length ? state.refusals : (state.garment?.findings ?? []);
}

/** Where a finding is seen: its own spots on what is drawn, else the handle of the key that it is about. */
function places(state, { spots = [], key }) {
  const drawn = spots.filter((spot) => !spot.is_other_half);
  if (drawn.length || !key) return drawn;
  return (state.garment?.handles ?? []).filter((handle) => handle.key === key && handle.piece);
}

/** A mark for each spot; `frame(piece)` says where its piece stands, `px` is mm for one CSS pixel. */
export function spotsOf(state, frame, px) {
  const shapes = [];
  findings(state).forEach(({ level, place }, i) => {
    places(state, place).forEach(({ piece, at }, j) => {
      const stands = frame(piece);
      if (!stands) return;
      const x = stands.x + at[0] * stands.scale + 16 * px;
      const y = stands.y + at[1] * stands.scale - 16 * px;
      shapes.push(
        {
          key: `${i} ${j} dot`,
          tag: "circle",
          attributes: { class: `spot ${level}`, cx: x, cy: y, r: RADIUS * px, "data-finding": i },
        },
        {
          key: `${i} ${j} sign`,
          tag: "text",
          text: SIGN[level],
          attributes: {
            class: "spot-sign",
            x,
            y: y + 4.5 * px,
            "font-size": 13 * px,
            "text-anchor": "middle",
            "data-finding": i,
          },
        },
      );
    });
  });
  return shapes;
}
