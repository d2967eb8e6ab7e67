/* A tablet's copy of the event's document, and what was added since: the copy as the site would tell the whole now. */

/** @param {{day: number, boat: number, slip?: number}} a @param {{day: number, boat: number, slip?: number}} b */
const inOrder = (a, b) => a.day - b.day || a.boat - b.boat || Number(a.slip) - Number(b.slip);

/** @param {EventDocument} copy @param {EventChanges} told @returns {EventDocument} */
export function caughtUp(copy, { gone, recalled, ...told }) {
  /** @template {{id: string, day: number, boat: number}} R @param {R[]} had @param {R[]} added @param {string[]} ids */
  const rows = (had, added, ids) => {
    const old = new Set([...ids, ...added.map((row) => row.id)]);
    return added.length || ids.length ? [...had.filter((row) => !old.has(row.id)), ...added].sort(inOrder) : had;
  };
  return {
    ...copy, ...told,
    slips: rows(copy.slips, told.slips, gone.slips),
    checkins: rows(copy.checkins, told.checkins, gone.checkins),
    called: [...(recalled ? (copy.called || []).filter((one) => !recalled.includes(one.boat)) : []), ...told.called],
  };
}
