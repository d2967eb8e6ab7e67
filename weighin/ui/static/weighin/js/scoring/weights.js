/* Weights as whole numbers (BigInt) of 10^-16 lb or kg, so that sums are exact and an ounce is 0.0625 lb: read as
   weighin/rules/weights.py reads them, and written as the event writes them. */
const PLACES = 16n;
export const ONE = 10n ** PLACES;
const OUNCE = ONE / 16n;
const MOST = 999n * ONE;
const PLAIN = /^(\d{1,12}(?:\.\d{1,12})?|\.\d{1,12})\s*(lbs?|kg|oz)?$/i;
const DASHED = /^(\d{1,12})\s*-\s*(.*)$/;
const WORDED = /^(?:(\d{1,12})\s*lbs?)?\s*(?:(.*?)\s*oz)?$/i;
const OUNCES = /^(?:(\d{1,12}(?:\.\d{1,12})?|\.\d{1,12})(?:\s+(\d{1,2})\/(\d{1,2}))?|(\d{1,2})\/(\d{1,2}))$/;
export const EXAMPLES = { lb: "9.47", "lb-oz": "9-07.5", kg: "4.295" };

/** A weight that cannot be read; ``code`` says why: negative, comma, too_much or no_weight. */
export class Unreadable extends Error {
  /** @param {string} code */
  constructor(code) {
    super(code);
    this.code = code;
  }
}

/** @param {string} text */
export function digits(text) {
  const [whole, part = ""] = text.split(".");
  return BigInt(whole || "0") * ONE + BigInt((part + "0".repeat(Number(PLACES))).slice(0, Number(PLACES)) || "0");
}

/** @param {unknown} text @param {Unit} unit */
export function readWeight(text, unit) {
  const written = String(text).trim().split(/\s+/).join(" ");
  if (written.startsWith("-") || written.startsWith("\u2212")) throw new Unreadable("negative");
  if (written.includes(",")) throw new Unreadable("comma");
  const weight = unit === "lb-oz" ? readOunces(written) : readPlain(written, unit);
  if (weight > MOST) throw new Unreadable("too_much");
  return weight;
}

/** @param {string} written @param {Unit} unit */
function readPlain(written, unit) {
  const found = PLAIN.exec(written);
  if (!found || (found[2] || unit).toLowerCase().replace(/s$/, "") !== unit) throw new Unreadable("no_weight");
  return digits(found[1]);
}

/** @param {string} written */
function readOunces(written) {
  const plain = PLAIN.exec(written);
  if (plain && !plain[2]) {
    if (digits(plain[1]) === 0n) return 0n;
    throw new Unreadable("no_weight");
  }
  const dashed = DASHED.exec(written);
  const found = dashed || WORDED.exec(written);
  if (!found || !written) throw new Unreadable("no_weight");
  const text = (found[2] || "").trim();
  const named = dashed || /oz$/i.test(written);
  if (named && !text) throw new Unreadable("no_weight");
  return BigInt(found[1] || "0") * ONE + (text ? ounces(text) : 0n);
}

/** @param {string} text */
function ounces(text) {
  const found = OUNCES.exec(text);
  if (!found) throw new Unreadable("no_weight");
  const over = found[2] || found[4], under = found[3] || found[5];
  let sixteenths = digits(found[1] || "0");
  if (over !== undefined) {
    if (!["2", "4", "8", "16"].includes(String(Number(under))) || Number(over) >= Number(under)) throw new Unreadable("no_weight");
    if (sixteenths % ONE) throw new Unreadable("no_weight");    // decimals and a fraction
    sixteenths += (BigInt(over) * ONE) / BigInt(under);
  }
  if (sixteenths >= 16n * ONE) throw new Unreadable("no_weight");
  return (sixteenths * OUNCE) / ONE;
}

/** @param {bigint} weight @returns {[string, bigint]} */
const signed = (weight) => (weight < 0n ? ["-", -weight] : ["", weight]);

/** A weight as text: plain decimal figures, no needless zeros. @param {bigint} weight */
export function plain(weight) {
  const [sign, size] = signed(weight);
  const part = (size % ONE).toString().padStart(Number(PLACES), "0").replace(/0+$/, "");
  return sign + (size / ONE).toString() + (part ? `.${part}` : "");
}

/** A weight as the event writes weights. @param {bigint} weight @param {Unit} unit */
export function show(weight, unit) {
  const [sign, size] = signed(weight);
  if (unit === "lb-oz") {
    const [whole, part] = plain((size % ONE) * 16n).split(".");
    return `${sign}${size / ONE}-${whole.padStart(2, "0")}${part ? `.${part}` : ""}`;
  }
  const [whole, part = ""] = plain(size).split(".");
  return `${sign}${whole}.${part.padEnd(unit === "kg" ? 3 : 2, "0")}`;
}

/** A weight of the scoring, plain decimal text, as the event writes weights. @param {string} text @param {Unit} unit */
export function shown(text, unit) {
  return show(text.startsWith("-") ? -digits(text.slice(1)) : digits(text), unit);
}
