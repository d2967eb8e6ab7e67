/* SHA-256 for pages that have no crypto.subtle: over plain http, and from a file. */
export const BLOCK = 64;

/** The first 32 bits behind the point of the square and cube roots of the first primes (FIPS 180-4, 4.2.2 and 5.3.3). @param {number} count @param {number} root */
function roots(count, root) {
  const found = [];
  for (let n = 2; found.length < count; n += 1) {
    let prime = true;
    for (let by = 2; by * by <= n; by += 1) if (n % by === 0) prime = false;
    if (prime) found.push(((n ** (1 / root)) % 1) * 2 ** 32 | 0);
  }
  return found;
}
const K = roots(64, 3), BEGIN = roots(8, 2);

/** @param {string} text */
export const bytesOf = (text) => new TextEncoder().encode(text);
/** @param {Uint8Array} bytes */
export const hex = (bytes) => [...bytes].map((one) => one.toString(16).padStart(2, "0")).join("");
/** @param {Uint8Array[]} parts */
export function joined(...parts) {
  const all = new Uint8Array(parts.reduce((sum, one) => sum + one.length, 0));
  parts.reduce((at, one) => { all.set(one, at); return at + one.length; }, 0);
  return all;
}
/** @param {number} word @param {number} by */
const turned = (word, by) => (word >>> by) | (word << (32 - by));

/** SHA-256 (FIPS 180-4, 6.2). @param {Uint8Array} bytes */
export function sha256(bytes) {
  const padded = new Uint8Array(Math.ceil((bytes.length + 9) / BLOCK) * BLOCK), words = new DataView(padded.buffer);
  padded.set(bytes);
  padded[bytes.length] = 0x80;
  words.setUint32(padded.length - 8, Math.floor(bytes.length / 2 ** 29));
  words.setUint32(padded.length - 4, bytes.length * 8);
  const state = [...BEGIN], w = new Int32Array(64);
  for (let from = 0; from < padded.length; from += BLOCK) {
    for (let t = 0; t < 64; t += 1) {
      if (t < 16) { w[t] = words.getInt32(from + 4 * t); continue; }
      const x = w[t - 15], y = w[t - 2];
      w[t] = w[t - 16] + (turned(x, 7) ^ turned(x, 18) ^ (x >>> 3)) + w[t - 7] + (turned(y, 17) ^ turned(y, 19) ^ (y >>> 10));
    }
    let [a, b, c, d, e, f, g, h] = state;
    for (let t = 0; t < 64; t += 1) {
      const one = (h + (turned(e, 6) ^ turned(e, 11) ^ turned(e, 25)) + ((e & f) ^ (~e & g)) + K[t] + w[t]) | 0;
      const two = ((turned(a, 2) ^ turned(a, 13) ^ turned(a, 22)) + ((a & b) ^ (a & c) ^ (b & c))) | 0;
      [h, g, f, e, d, c, b, a] = [g, f, e, (d + one) | 0, c, b, a, (one + two) | 0];
    }
    [a, b, c, d, e, f, g, h].forEach((one, at) => { state[at] = (state[at] + one) | 0; });
  }
  const digest = new DataView(new ArrayBuffer(32));
  state.forEach((one, at) => digest.setInt32(4 * at, one));
  return new Uint8Array(digest.buffer);
}
