/* Exact decimals as whole numbers (BigInt) of 10^-40: weights, money, shares and points, signed. */
const PLACES = 40;
export const ONE = 10n ** BigInt(PLACES);
export const CENT = ONE / 100n;
const DECIMAL = /^(-?)(\d{0,40})(?:\.(\d{0,40}))?$/;

/** A text that holds no decimal where one has to be. */
export class NoFigure extends Error {}

/** @param {unknown} text */
export function exact(text) {
  const found = typeof text === "string" ? DECIMAL.exec(text) : null;
  if (!found || !(found[2] || found[3])) throw new NoFigure(String(text));
  const size = BigInt(found[2] || "0") * ONE + BigInt((found[3] || "").padEnd(PLACES, "0"));
  return found[1] ? -size : size;
}

/** A decimal that is no less than 0. @param {unknown} text */
export function amount(text) {
  const found = exact(text);
  if (found < 0n || String(text).startsWith("-")) throw new NoFigure(String(text));
  return found;
}

/** Plain figures with at least so many places. @param {bigint} value @param {number} [least] */
export function plain(value, least = 0) {
  const size = value < 0n ? -value : value;
  const part = (size % ONE).toString().padStart(PLACES, "0").replace(/0+$/, "").padEnd(least, "0");
  return `${value < 0n ? "-" : ""}${size / ONE}${part ? `.${part}` : ""}`;
}

/** @param {bigint[]} values */
export const sum = (values) => values.reduce((total, value) => total + value, 0n);

/** The largest multiple of ``step`` that is not above ``over`` / ``under``; none of them is below 0. @param {bigint} over @param {bigint} under @param {bigint} step */
export const downTo = (over, under, step) => (over / (under * step)) * step;
