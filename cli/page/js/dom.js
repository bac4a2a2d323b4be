// Elements of the drawing, made by hand: text goes in as text, never as markup.

const SVG = "http://www.w3.org/2000/svg";

/** Puts attributes on an element; what is null is taken off. */
export function put(element, attributes) {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined || value === null || value === false) element.removeAttribute(name);
    else element.setAttribute(name, String(value));
  }
  return element;
}

/** An element of SVG. */
export function s(tag, attributes = {}, ...children) {
  const element = put(document.createElementNS(SVG, tag), attributes);
  element.append(...children);
  return element;
}

let fading = 0;

/** Says something to who looks and to who listens; what is serious stays longer. */
export function tell(text, serious = false) {
  const told = document.getElementById("told");
  told.textContent = text;
  told.classList.toggle("serious", serious);
  clearTimeout(fading);
  if (text)
    fading = setTimeout(
      () => {
        told.textContent = "";
      },
      serious ? 20000 : 6000,
    );
}
