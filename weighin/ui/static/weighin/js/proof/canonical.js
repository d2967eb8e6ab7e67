/* The digest of a proof: SHA-256 of its canonical JSON, made from the text itself, so that every number stays as it is written. */
import { bytesOf, hex, sha256 } from "../device/sha256.js";

const TOKEN = /\s*([[\]{}:,]|"[^"\\]*(?:\\.[^"\\]*)*"|[^\s[\]{}:,"]+)/y;

/** Keys in the order of their code points. @param {string} a @param {string} b */
function inOrder(a, b) {
  const one = [...a], other = [...b], at = one.findIndex((sign, place) => sign !== other[place]);
  if (at < 0) return one.length - other.length;
  return at >= other.length ? 1 : (one[at].codePointAt(0) || 0) - (other[at].codePointAt(0) || 0);
}

/**
 * Canonical JSON of a text that is JSON: keys sorted, no spaces; without the members that ``leaves`` names by their path,
 * each key on it as JSON, so that no other key can look like one.
 * @param {string} text @param {string[]} [leaves]
 */
export function canonical(text, leaves = []) {
  TOKEN.lastIndex = 0;
  const next = () => (TOKEN.exec(text) || ["", ""])[1];
  /** @param {string} token @param {string} path @returns {string} */
  function value(token, path) {
    if (token === "{") {
      /** @type {Map<string, string>} */
      const members = new Map();
      for (let name = next(); name !== "}"; name = next()) {
        if (name === ",") name = next();
        const key = JSON.parse(name);
        next();
        members.set(key, value(next(), `${path}${JSON.stringify(key)}`));
      }
      const names = [...members.keys()].filter((name) => !leaves.includes(`${path}${JSON.stringify(name)}`)).sort(inOrder);
      return `{${names.map((name) => `${JSON.stringify(name)}:${members.get(name)}`).join(",")}}`;
    }
    if (token === "[") {
      const items = [];
      for (let item = next(); item !== "]"; item = next()) items.push(value(item === "," ? next() : item, `${path}[]`));
      return `[${items.join(",")}]`;
    }
    return token[0] === '"' ? JSON.stringify(JSON.parse(token)) : token;
  }
  return value(next(), "");
}

/** @param {string} text */
export const digestOf = (text) => hex(sha256(bytesOf(canonical(text, ['"digest"', '"result""version"']))));
