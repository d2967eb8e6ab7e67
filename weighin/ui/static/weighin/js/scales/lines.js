/* Lines of an indicator, read as weighin/scales/domain reads them, by the patterns that the site gives as data.

   read(layout, line)        {text, unit, state, stable, raw} or null for what is no line of the layout
   listener(layout, once)    hear(text) gives the readings of every whole line; a weight is believed when its line
                             comes twice in a row (the first, and one longer or shorter than the last believed, three
                             times), or once from a scale that speaks when its key is pressed */
const LONGEST = 80;
/** @type {Record<string, string>} */
const UNITS = { lb: "lb", lbs: "lb", kg: "kg", g: "g", oz: "oz", t: "t", lboz: "lb-oz" };
/** @type {Record<number, string>} */
const NAMED = { 2: "<STX>", 3: "<ETX>", 10: "<LF>", 13: "<CR>" };
/** @param {string} figures */
const short = (figures) => figures.replace(/^0+(?=[0-9])/, "");
/** @param {string | undefined} sign @param {string} digits */
const signed = (sign, digits) => (sign === "-" && /[1-9]/.test(digits) ? `-${digits}` : digits);
/** @type {Map<string, RegExp>} */
const known = new Map();
/** @param {string} text */
function expression(text) {
  const made = known.get(text) || new RegExp(text, "i");
  known.set(text, made);
  return made;
}
/** @param {number} code */
const hex = (code) => code.toString(16).toUpperCase().padStart(2, "0");
/** @param {string} line */
const shown = (line) => [...line].map((one) => (one >= " " && one <= "~" ? one : NAMED[one.charCodeAt(0)] || `<hex ${hex(one.charCodeAt(0))}>`)).join("").slice(0, 200);
/** @param {string} text @param {string} unit @param {string} state @param {string} line @returns {Heard} */
const told = (text, unit, state, line) => ({ text, unit, state, stable: state === "stable", raw: shown(line) });

/** @param {string} line */
function frame(line) {
  const said = line.slice(Math.max(line.lastIndexOf("\x02"), 0));
  if (said.length !== 16 || said[0] !== "\x02") return null;
  const [a, b, c] = [1, 2, 3].map((at) => said.charCodeAt(at)), figures = said.slice(4, 10), tare = said.slice(10);
  const sound = [a, c].every((one) => (one & 0x60) === 0x20) && b & 0x20 && a & 0x18 && !(c & 6) && Math.max(a, b, c) < 128;
  if (!sound || ![figures, tare].every((one) => /^ {0,5}[0-9]{1,6}$/.test(one))) return null;
  const point = (a & 7) - 2;
  let digits = figures.trim().padStart(6, "0") + "0".repeat(Math.max(-point, 0));
  if (point > 0) digits = `${digits.slice(0, -point)}.${digits.slice(-point)}`;
  digits = short(digits);
  const state = b & 0x40 ? "unzeroed" : b & 4 ? "overload" : b & 8 ? "motion" : "stable";
  return told(signed(b & 2 ? "-" : "", digits), c & 1 ? "g" : b & 0x10 ? "kg" : "lb", state, line);
}

/** @param {Layout} layout @param {Record<string, string>} found */
function stateOf(layout, found) {
  if (found.state === undefined) return "stable";
  const word = found.state.toUpperCase();
  return Object.hasOwn(layout.states, word) ? layout.states[word] : null;
}

/** @param {Layout} layout @param {Record<string, string>} found @param {string} written @param {string} line */
function weighing(layout, found, written, line) {
  const state = stateOf(layout, found);
  if (state === null) return null;
  let digits = found.figures && short(found.figures);
  if (found.ounces !== undefined) {
    if (Number(found.ounces) >= 16) return null;
    const [whole, rest] = found.ounces.split(".");
    digits = `${short(found.pounds)}-${whole.padStart(2, "0")}${rest === undefined ? "" : `.${rest}`}`;
  }
  return told(signed(found.sign, digits), UNITS[(found.unit || written).toLowerCase().replace("-", "")], state, line);
}

/** @param {Layout} layout @param {string} line */
export function read(layout, line) {
  if (layout.frame) return frame(line);
  /* eslint-disable-next-line no-control-regex -- STX and ETX stand around a line */
  const said = line.replace(/^[\x02\x03 ]+|[\x02\x03 ]+$/g, "");
  if (!said || said.length > LONGEST || !/^[ -~]*$/.test(said)) return null;
  for (const [at, pattern] of layout.patterns.entries()) {
    const found = expression(pattern).exec(said);
    if (found) return weighing(layout, found.groups || {}, layout.written[at], line);
  }
  for (const head of layout.heads) {
    const found = expression(head).exec(said), state = found && stateOf(layout, found.groups || {});
    if (state && state !== "stable") return told("", "", state, line);
  }
  return null;
}

/** @param {Layout} layout @param {boolean} once */
export function listener(layout, once) {
  let held = "", begun = once, before = "", times = 0, enough = 3, usual = 0;
  /** @param {Heard | null} reading @param {string} line */
  function believed(reading, line) {
    if (line === before) times += 1;
    else {
      enough = line.length === usual ? 2 : 3;
      before = line;
      times = 1;
    }
    if (!reading || (reading.stable && !once && times < enough)) return null;
    if (reading.stable) usual = line.length;
    return reading;
  }
  return (/** @type {string} */ text) => {
    const found = [];
    for (const sign of text) {
      if (sign !== "\r" && sign !== "\n") { held = (held + sign).slice(-LONGEST * 2); continue; }
      const line = held, whole = begun;
      held = "";
      begun = true;
      const reading = whole && line ? believed(read(layout, line), line.slice(line.lastIndexOf("\x02") + 1)) : null;
      if (reading) found.push(reading);
    }
    return found;
  };
}
