/* Signs what a paired tablet asks over plain http, where browsers have no crypto.subtle: whoever listens on the Wi-Fi hears
   neither the token nor how to sign anything else. What is signed, and how, stands in stations/services/signatures.py. */
import { BLOCK, bytesOf, hex, joined, sha256 } from "./sha256.js";

const PURPOSE = "weighin signs";
const SIGNED = "Signed ";
const CLOCK = 30000;

/** HMAC-SHA256 (RFC 2104). @param {Uint8Array} key @param {Uint8Array} bytes */
export function hmac(key, bytes) {
  const block = new Uint8Array(BLOCK);
  block.set(key.length > BLOCK ? sha256(key) : key);
  return sha256(joined(block.map((one) => one ^ 0x5c), sha256(joined(block.map((one) => one ^ 0x36), bytes))));
}

/** What stands behind "Signed". @param {string} token @param {string} method @param {string} path with its query @param {number} at seconds by the site's clock @param {string} body */
export function shown(token, method, path, at, body) {
  const key = sha256(bytesOf(token));
  return `${hex(key).slice(0, 16)}:${at}:${hex(hmac(hmac(key, bytesOf(PURPOSE)), bytesOf([method, path, at, body].join("\n"))))}`;
}

/* How far the site's clock is ahead of this device's, by its last answer. */
let ahead = 0;

/**
 * Asks with a signature; once more where the site's clock turns out to be another.
 * @param {string} token @param {string} address @param {RequestInit & {body?: string}} options
 * @param {(more: Record<string, string>) => Promise<Response>} send
 */
export async function askSigned(token, address, { method = "GET", body = "" }, send) {
  const { pathname, search } = new URL(address, window.location.href);
  for (let again = true; ; again = false) {
    const signed = shown(token, method, pathname + search, Math.round((Date.now() + ahead) / 1000), body);
    const answer = await send({ Authorization: SIGNED + signed });
    const was = ahead, date = Date.parse(answer.headers.get("date") || "");
    if (date) ahead = date - Date.now();
    if (answer.status !== 401 || !again || Math.abs(ahead - was) < CLOCK) return answer;
  }
}
