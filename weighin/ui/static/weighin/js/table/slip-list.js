/* The slips of this tablet: each with where it is, what may be done about it, and its text to copy by hand or print. */
import { button, element } from "../site/elements.js";
import { gettext, ngettext } from "../site/text.js";
import { asText, state, why } from "../slip/record-words.js";

const LATEST = 8;
const LOOK = "plain";

/** @param {SlipRecord} record */
const needsHand = (record) => ["differs", "refused", "second"].includes(record.state) && !record.asideAt && !record.settled;

/** @param {HTMLElement} row */
function print(row) {
  row.classList.add("printed");
  document.documentElement.classList.add("prints-one-slip");
  window.addEventListener("afterprint", () => {
    row.classList.remove("printed");
    document.documentElement.classList.remove("prints-one-slip");
  }, { once: true });
  window.print();
}

/**
 * Draws the list into ``list``. ``after`` maps an id to the record that took its place, ``standing`` holds the ids of
 * slips that may be changed.
 * @param {HTMLElement} list @param {SlipRecord[]} records
 * @param {{zone: string | undefined, unit: Unit, going: Set<string>, acts: RecordActs & ChangeActs, open: Set<string>, after: Map<string, SlipRecord>, standing: Set<string>}} about
 */
export function slipList(list, records, { zone, unit, going, acts, open, after, standing }) {
  const newest = [...records].reverse();
  /** @param {SlipRecord} record */
  const asks = (record) => needsHand(record) && !after.has(record.id);
  const shown = newest.filter((record, at) => at < LATEST || record.state === "waiting" || asks(record));
  list.replaceChildren(...shown.map((record) => {
    const [mark, short, todo] = state(record, going.has(record.id), after.get(record.id));
    const row = element("li", "", { "data-id": record.id, class: asks(record) ? "needs-hand" : "" });
    const more = element("details"), head = element("summary");
    if (open.has(record.id)) more.open = true;
    more.addEventListener("toggle", () => (more.open ? open.add(record.id) : open.delete(record.id)));
    head.append(
      element("b", String(record.slip.boat), { class: "boat" }), element("span", record.slip.void ? gettext("void") : record.total || "", { class: "total" }),
      element("span", short, { class: `state is-${mark}` }));
    const acting = element("div", "", { class: "acts" });
    /** @param {string} words @param {(record: SlipRecord) => unknown} act */
    const offer = (words, act) => acting.append(button(words, () => act(record), LOOK, gettext("boat %(boat)s", { boat: record.slip.boat })));
    if (record.state === "refused" && !record.asideAt) {
      if (!record.slip.void) offer(gettext("Correct it"), acts.mend);
      offer(gettext("Send it again"), acts.again);
    }
    if (["refused", "differs"].includes(record.state) && !record.asideAt) offer(gettext("Set it aside"), acts.aside);
    if (record.state === "second" && needsHand(record)) offer(gettext("It is settled"), acts.aside);
    if (standing.has(record.id)) {
      offer(gettext("Correct it"), acts.correct);
      offer(gettext("Void it"), acts.takeOut);
      offer(gettext("Swap it with another boat’s"), acts.swap);
    }
    offer(gettext("Show its code"), acts.copy);
    offer(gettext("Print it"), () => print(row));
    const faults = (record.faults || []).length ? [element("p", why(record), { class: "small strong" })] : [];
    const text = element("p", asText(record, zone, unit).join("\n"), { class: "as-text" });
    more.append(head, ...(todo ? [element("p", todo, { class: "small" })] : []), ...faults, text, acting);
    row.append(more);
    return row;
  }));
}

/** [mark, words] for the head of the page: where all slips are. @param {SlipRecord[]} records @param {Map<string, SlipRecord>} after @returns {[string, string]} */
export function whereAll(records, after) {
  const live = records.filter((record) => !record.asideAt && !(after.has(record.id) && needsHand(record)));
  const here = live.filter((record) => record.state === "waiting").length;
  const hands = live.filter(needsHand).length;
  const there = live.filter((record) => ["kept", "already", "second"].includes(record.state)).length;
  if (!here && !live.length) return ["none", gettext("no slip on this tablet yet")];
  const where = here ? ngettext("%(n)s slip saved on this tablet", "%(n)s slips saved on this tablet", here)
    : there < live.length ? ngettext("%(there)s of %(n)s slip on the server", "%(there)s of %(n)s slips on the server", live.length, { there })
      : ngettext("the slip is on the server", "all %(n)s slips are on the server", there);
  const asks = hands ? `; ${ngettext("%(n)s needs you", "%(n)s need you", hands)}` : "";
  return [here || there < live.length ? "open" : "done", `${where}${asks}`];
}
