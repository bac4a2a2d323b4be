// A group of shapes that is drawn again and again: only what has changed is touched.

import { put, s } from "../dom.js";

/** Shapes are `{ key, tag, attributes, text }`; the same key is the same thing, moved. */
export class Layer {
  constructor(attributes = {}) {
    this.group = s("g", attributes);
    this.drawn = new Map();
  }

  draw(shapes) {
    const seen = new Set();
    let place = this.group.firstChild;
    for (const { key, tag, attributes, text } of shapes) {
      seen.add(key);
      let entry = this.drawn.get(key);
      if (!entry) {
        entry = { element: s(tag), attributes: {}, text: "" };
        this.drawn.set(key, entry);
      }
      change(entry, attributes, text ?? "");
      if (entry.element === place) place = place.nextSibling;
      else this.group.insertBefore(entry.element, place);
    }
    for (const [key, { element }] of this.drawn) {
      if (seen.has(key)) continue;
      element.remove();
      this.drawn.delete(key);
    }
  }
}

function change(entry, attributes, text) {
  for (const [name, value] of Object.entries(attributes)) {
    if (entry.attributes[name] !== value) put(entry.element, { [name]: value });
  }
  entry.attributes = attributes;
  if (entry.text !== text) entry.element.textContent = entry.text = text;
}
