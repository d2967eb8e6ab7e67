/* Sentences in the reader's language. Where that is not English a page names the catalogue (``{% catalogue %}``), which is
   there before any module; without it a sentence is as it is written. What stands in one is named: %(boat)s. */
const catalogue = globalThis.django;

/** @param {string} text @param {Record<string, unknown>} [values] */
function interpolate(text, values) {
  return values ? text.replace(/%\((\w+)\)s/g, (_, name) => String(values[name])) : text;
}

/** @param {string} text @param {Record<string, unknown>} [values] */
export function gettext(text, values) {
  return interpolate(catalogue ? catalogue.gettext(text) : text, values);
}

/** The sentence for a number, %(n)s in it. @param {string} one @param {string} many @param {number} n @param {Record<string, unknown>} [values] */
export function ngettext(one, many, n, values) {
  return interpolate(catalogue ? catalogue.ngettext(one, many, n) : n === 1 ? one : many, { n, ...values });
}
