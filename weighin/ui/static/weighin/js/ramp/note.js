/* A boat's care note as this phone knows it, and the messages that bring it to what a hand has written.

   The site lets a later note fill in what an earlier one left blank. What changes something is a correction that names
   the note it came from, and carries along all else that one said; so the morning's check outlives the afternoon's. */
/** @type {CareField[]} */
const RAMP = ["pump_ok", "aeration", "thermometer_ok", "ice_lb", "livewell_gal", "launched"];
/** @type {CareField[]} */
const TABLE = ["first_fish", "livewell_temp", "livewell_do", "culled", "catch_depth_ft", "deep_hooked", "barotrauma", "reflexes_absent", "reflexes_checked"];
/** @type {CareField[]} */
export const FIELDS = [...RAMP, ...TABLE, "most_on_board", "note"];
const TIMES = ["launched", "first_fish"];
const TEXTS = ["aeration", "livewell_temp", "note"];

/** @typedef {{id: string, said: CareValues}} Source */

/** @param {CareValues} found @returns {CareValues} */
export const of = (found) => Object.fromEntries(FIELDS.filter((name) => found[name] !== undefined && found[name] !== null && found[name] !== "").map((name) => [name, found[name]]));

/** @param {CareValues} values @returns {CareField[]} */
const fieldsOf = (values) => FIELDS.filter((name) => values[name] !== undefined);

/** @param {CareField} name @param {CareValue} one @param {CareValue} other */
export function same(name, one, other) {
  if (one === undefined || other === undefined) return one === other;
  if (TIMES.includes(name)) return Date.parse(String(one)) === Date.parse(String(other));
  if (TEXTS.includes(name)) return String(one) === String(other);
  return typeof one === "boolean" || typeof other === "boolean" ? one === other : Number(one) === Number(other);
}

/** @param {number | null} day @param {number} boat */
const mine = (day, boat) => (/** @type {{day: number, boat: number}} */ one) => one.day === day && one.boat === boat;

/**
 * What stands for a boat and day, and the notes it came from. What this phone has written since it last heard from the
 * site is taken as standing.
 * @param {RampDocument | null} eventDocument @param {number} at @param {NoteRecord[]} records @param {number | null} day @param {number} boat
 * @returns {{values: CareValues, sources: Source[]}}
 */
export function current(eventDocument, at, records, day, boat) {
  const stands = eventDocument ? eventDocument.notes.find(mine(day, boat)) : null;
  let values = stands ? of(stands) : {};
  let sources = eventDocument ? eventDocument.sent.filter(mine(day, boat)).map((one) => ({ id: one.id, said: of(one.said) })) : [];
  for (const record of records) {
    if (!mine(day, boat)(record.note) || record.asideAt || !["waiting", "kept", "already", "second"].includes(record.state)) continue;
    if (sources.some((one) => one.id === record.id) || (record.answeredAt && record.answeredAt <= at)) continue;
    const before = sources.find((one) => one.id === record.note.replaces), said = of(record.note);
    const fits = fieldsOf(said).every((name) => values[name] === undefined || same(name, said[name], values[name]));
    if (record.state === "second" && (before || !fits)) continue;    // the site wrote nothing over either
    if (before) for (const name of fieldsOf(before.said)) delete values[name];
    sources = sources.filter((one) => one !== before).concat({ id: record.id, said });
    values = { ...values, ...said };
  }
  return { values, sources };
}

/**
 * The messages that make ``wanted`` stand. ``beside`` are values that no note of a phone wrote, so that what changes them
 * waits beside them; ``cannot`` are such values to clear.
 * @param {CareValues} wanted @param {{values: CareValues, sources: Source[]}} stood
 * @param {{day: number | null, boat: number, official: string, reason: string}} about @param {() => string} newId
 */
export function messages(wanted, { values, sources }, about, newId) {
  const changed = FIELDS.filter((name) => !same(name, wanted[name], values[name]));
  const fresh = changed.filter((name) => values[name] === undefined), cannot = [];
  const sound = sources.filter(({ said }) => fieldsOf(said).every((name) => same(name, said[name], values[name])));
  /** @type {Map<Source | null, CareField[]>} */
  const groups = new Map();
  for (const name of changed.filter((one) => !fresh.includes(one))) {
    const from = sound.find(({ said }) => said[name] !== undefined) || null;
    if (!from && wanted[name] === undefined) cannot.push(name);
    else groups.set(from, [...(groups.get(from) || []), name]);
  }
  /** @param {CareValues} said @param {Partial<CareNote>} [more] @returns {CareNote} */
  const start = (said, more) => /** @type {CareNote} */ ({ id: newId(), day: about.day, boat: about.boat, ...said, ...(about.official ? { official: about.official } : {}), ...more });
  /** @param {CareField[]} names @returns {CareValues} */
  const pick = (names) => Object.fromEntries(names.filter((name) => wanted[name] !== undefined).map((name) => [name, wanted[name]]));
  const made = [];
  let left = fresh;
  for (const [from, names] of groups) {
    if (!from) { made.push(start(pick(names))); continue; }
    const stays = Object.fromEntries(fieldsOf(from.said).filter((name) => !names.includes(name)).map((name) => [name, from.said[name]]));
    made.push(start({ ...stays, ...pick([...names, ...left]) }, { replaces: from.id, reason: about.reason }));
    left = [];
  }
  if (left.length) made.unshift(start(pick(left)));
  return { changed, corrects: changed.filter((name) => !fresh.includes(name)), beside: groups.get(null) || [], messages: made, cannot };
}

/** @param {string} stage @param {CareValues} values */
export const lacks = (stage, values) => !(stage === "ramp" ? RAMP : TABLE).some((name) => values[name] !== undefined);
