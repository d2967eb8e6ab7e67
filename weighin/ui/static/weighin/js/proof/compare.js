/* Where two results differ, boat by boat, in words. */
import { gettext } from "../site/text.js";
import { NoFigure, exact } from "./decimal.js";

/** Weights and money are compared as numbers: "8.5" is "8.50". @param {unknown} told @param {unknown} found */
function same(told, found) {
  if (told === found) return true;
  if (typeof told !== "string" || typeof found !== "string") return false;
  try {
    return exact(told) === exact(found);
  } catch (error) {
    if (error instanceof NoFigure) return false;
    throw error;
  }
}

/** @param {unknown} value */
const shown = (value) => (value === null || value === undefined || value === "" ? gettext("nothing") : String(value).slice(0, 60));

/** @param {any} told @param {Record<string, any>} found @returns {string[]} */
function unlike(told, found) {
  if (!told || typeof told !== "object") return [gettext("not in the file")];
  return Object.entries(found).filter(([name, value]) => !Array.isArray(value) && !same(told[name], value)).map(([name, value]) =>
    gettext("%(name)s %(told)s in the file, %(found)s worked out again", { name: name.replace(/_/g, " "), told: shown(told[name]), found: shown(value) }));
}

/** @param {any} told @param {any} found @returns {string[]} */
function row(told, found) {
  if (!found) return [gettext("only in the file")];
  const lines = unlike(told, found);
  for (const [name, rows] of told ? Object.entries(found) : []) {
    if (!Array.isArray(rows)) continue;
    const theirs = told[name];
    if (!Array.isArray(theirs) || theirs.length !== rows.length) lines.push(gettext("its %(what)s are others", { what: name }));
    else if (name === "days") rows.forEach((day, at) => lines.push(...row(theirs[at], day).map((line) => gettext("day %(day)s %(line)s", { day: day.day, line }))));
    else rows.forEach((one, at) => lines.push(...unlike(theirs[at], one)));
  }
  return lines;
}

/** @param {any} rows @param {string} name @returns {Map<string, any>} */
const by = (rows, name) => new Map(Array.isArray(rows) ? rows.map((one) => [String(one?.[name]), one]) : []);

/** What of a result is otherwise than it was found. @param {any} told @param {ProofResult} found */
export function differences(told, found) {
  /** @type {ProofDifference[]} */
  const all = [];
  /** @param {string} what @param {string[]} lines */
  const say = (what, lines) => { if (lines.length) all.push({ what, lines }); };
  const theirs = by(told.standings, "boat"), here = by(found.standings, "boat");
  for (const boat of new Set([...here.keys(), ...theirs.keys()])) say(gettext("boat %(boat)s", { boat }), row(theirs.get(boat), here.get(boat)));
  if (!all.length && [...theirs.keys()].join() !== [...here.keys()].join()) say(gettext("the list"), [gettext("its places stand in another order")]);
  if (!all.length && told.standings.length !== here.size) say(gettext("the list"), [gettext("a boat stands in it twice")]);
  say(gettext("the purse"), unlike(told.purse, found.purse));
  const pots = by(told.side_pots, "name"), own = by(found.side_pots, "name");
  for (const name of new Set([...own.keys(), ...pots.keys()])) say(gettext("side pot %(name)s", { name }), row(pots.get(name), own.get(name)));
  return all;
}
