/* Elements of a page: those that are there, and new ones. */

/** The element with the id, which the page has. @param {string} id */
export const at = (id) => /** @type {HTMLElement} */ (document.getElementById(id));

/** The line with the id, something to write in. @param {string} id */
export const input = (id) => /** @type {HTMLInputElement} */ (document.getElementById(id));

/** The first element below ``part`` that fits, which is there. @param {string} selector @param {ParentNode} [part] */
export const first = (selector, part = document) => /** @type {HTMLElement} */ (part.querySelector(selector));

/** Gives ``line(name)`` of a form. @param {HTMLFormElement} form */
export const linesOf = (form) => /** @param {string} name */ (name) => /** @type {HTMLInputElement} */ (form.elements.namedItem(name));

/** What an event happened to. @param {Event} event */
export const targetOf = (event) => /** @type {HTMLInputElement} */ (event.target);

/**
 * A new element.
 * @template {keyof HTMLElementTagNameMap} N
 * @param {N} name @param {string} [text] @param {Record<string, string | number>} [attributes]
 */
export function element(name, text, attributes) {
  const made = document.createElement(name);
  if (text) made.textContent = text;
  for (const [key, value] of Object.entries(attributes || {})) made.setAttribute(key, String(value));
  return made;
}

/** A new button that does one thing; ``of`` is what it does it to, said where the words are heard alone. @param {string} words @param {() => unknown} act @param {string} look @param {string} [of] */
export function button(words, act, look, of) {
  const made = element("button", words, { type: "button", class: `button ${look}` });
  if (of) made.append(element("span", `, ${of}`, { class: "for-ears" }));
  made.addEventListener("click", act);
  return made;
}

/** Writes a text where it is another. @param {Element | null} place @param {string} words */
export function write(place, words) {
  if (place && place.textContent !== words) place.textContent = words;
}
