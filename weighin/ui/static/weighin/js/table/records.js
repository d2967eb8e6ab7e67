/* Records to keep on the tablet: a slip as it will be sent, and what the page says of it. */
import { newId } from "../device/store.js";
import { shown } from "../scoring/weights.js";
import { gettext } from "../site/text.js";
import { said } from "../slip/slip-index.js";
import { reasonOf, slipNamed } from "../slip/words.js";

/** @type {("replaces" | "reason" | "void")[]} */
const OWN = ["replaces", "reason", "void"];

/**
 * ``line(name)`` is what stands in a line; all else as the page has it.
 * @param {{eventName: () => string, scored: (slip: Partial<Slip>) => Score | null, team: (boat: number | null) => string, unit: () => Unit,
 *   standing: () => Standing[], line: (name: string) => string | null, bagIssued: (slip: Typed) => string | null, noteOfReadings: (from: ScaleReading[]) => string}} page
 */
export function recordMaker({ eventName, scored, team, unit, standing, line, bagIssued, noteOfReadings }) {
  /** @param {Typed} slip @param {Doubt[]} doubts @param {ScaleReading[]} from */
  function noteOf(slip, doubts, from) {
    const initials = slip.dead ? line("initials") : null;
    const parts = [
      slip.note, initials && gettext("Judged dead by %(initials)s.", { initials }),
      doubts.length && gettext("Saved all the same: %(doubts)s.", { doubts: doubts.map((one) => one.label).join(", ") }), from.length && `${noteOfReadings(from)}.`,
    ];
    return parts.filter(Boolean).join(" ").slice(0, 500) || null;
  }

  /** @param {Partial<Slip>} slip @param {Partial<SlipRecord>} [more] @returns {SlipRecord} */
  function record(slip, more) {
    const id = newId(), score = slip.void ? null : scored(slip);
    const old = slip.replaces && standing().find((one) => one.slip.id === slip.replaces || one.number === slip.replaces);
    const wire = /** @type {Slip} */ ({ ...said(slip), id, ...Object.fromEntries(OWN.filter((name) => slip[name]).map((name) => [name, slip[name]])) });
    return {
      id, slip: wire, state: "waiting", keptAt: Date.now(), team: team(wire.boat), total: score && !("faults" in score) ? shown(score.total, unit()) : "",
      eventName: eventName(), faults: [], of: old ? slipNamed(old.number, "") : "", note: slip.note || "", initials: "", ...more,
    };
  }

  /**
   * A slip written for the boat it is of replaces the one before; written for another, it takes that one out beside it.
   * @param {Typed} slip @param {Doubt[]} doubts @param {ScaleReading[]} from
   * @param {{editing: SlipRecord | null, correcting: Standing | null}} before
   */
  function records(slip, doubts, from, { editing, correcting }) {
    const before = editing ? editing.slip : correcting ? correcting.slip : null;
    const own = { initials: line("initials") || "", note: slip.note || "" };
    const bag = before?.id ? null : bagIssued(slip);
    const replaces = editing ? editing.slip.replaces : correcting && correcting.slip.id;
    const wire = /** @type {Partial<Slip>} */ ({
      ...slip, weighed: before?.weighed || new Date().toISOString(), note: noteOf(slip, doubts, from), ...(bag ? { bag_issued: bag } : {}),
      ...(replaces ? { replaces, reason: reasonOf(line("why"), line("who")) } : {}),
    });
    if (editing) {
      const again = record(wire, { id: editing.id, keptAt: editing.keptAt, swap: editing.swap, ...own });
      again.slip.id = editing.id;
      return [again];
    }
    if (!correcting || correcting.slip.boat === slip.boat) return [record(wire, own)];
    const out = record({ day: correcting.slip.day, boat: correcting.slip.boat, official: line("who"), void: true, replaces, reason: wire.reason });
    return [out, record({ ...wire, replaces: null }, own)];
  }

  return { record, records };
}
