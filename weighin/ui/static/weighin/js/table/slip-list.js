/* The slips of this tablet: each with where it is, what may be done about it, and its text to copy by hand or print. */
import * as words from "../slip/words.js";

const LATEST = 8;

const element = words.element;

const needsHand = (record) => ["differs", "refused", "second"].includes(record.state) && !record.asideAt && !record.settled;

function button(words, act) {
  const made = element("button", words, { type: "button", class: "button plain" });
  made.addEventListener("click", act);
  return made;
}

function print(row) {
  row.classList.add("printed");
  document.documentElement.classList.add("prints-one-slip");
  window.addEventListener("afterprint", () => {
    row.classList.remove("printed");
    document.documentElement.classList.remove("prints-one-slip");
  }, { once: true });
  window.print();
}

/* Draw the list into ``list``; acts: {again, mend, aside, copy, correct, takeOut, swap}, each with the record.
   ``after`` maps an id to the record that took its place, ``standing`` holds the ids of slips that may be changed. */
export function slipList(list, records, { zone, unit, going, acts, open, after, standing }) {
  const newest = [...records].reverse();
  const asks = (record) => needsHand(record) && !after.has(record.id);
  const shown = newest.filter((record, at) => at < LATEST || record.state === "waiting" || asks(record));
  list.replaceChildren(...shown.map((record) => {
    const [mark, short, todo] = words.state(record, going.has(record.id), after.get(record.id));
    const row = element("li", "", { "data-id": record.id, class: asks(record) ? "needs-hand" : "" });
    const more = element("details"), head = element("summary");
    if (open.has(record.id)) more.open = true;
    more.addEventListener("toggle", () => (more.open ? open.add(record.id) : open.delete(record.id)));
    head.append(
      element("b", String(record.slip.boat), { class: "boat" }), element("span", record.slip.void ? "out" : record.total || "", { class: "total" }),
      element("span", short, { class: `state is-${mark}` }));
    const acting = element("div", "", { class: "acts" });
    if (record.state === "refused" && !record.asideAt) {
      if (!record.slip.void) acting.append(button("Put it right", () => acts.mend(record)));
      acting.append(button("Send it again", () => acts.again(record)));
    }
    if (["refused", "differs"].includes(record.state) && !record.asideAt) acting.append(button("Set it aside", () => acts.aside(record)));
    if (record.state === "second" && needsHand(record)) acting.append(button("It is settled", () => acts.aside(record)));
    if (standing.has(record.id)) {
      acting.append(button("Correct it", () => acts.correct(record)), button("Take it out", () => acts.takeOut(record)), button("Swap it with another boat’s", () => acts.swap(record)));
    }
    acting.append(button("Show its code", () => acts.copy(record)), button("Print it", () => print(row)));
    const faults = (record.faults || []).length ? [element("p", words.why(record), { class: "small strong" })] : [];
    const text = element("p", words.asText(record, zone, unit).join("\n"), { class: "as-text" });
    more.append(head, ...(todo ? [element("p", todo, { class: "small" })] : []), ...faults, text, acting);
    row.append(more);
    return row;
  }));
}

/* [mark, words] for the head of the page: where all slips are. */
export function whereAll(records, after) {
  const live = records.filter((record) => !record.asideAt && !(after.has(record.id) && needsHand(record)));
  const here = live.filter((record) => record.state === "waiting").length;
  const hands = live.filter(needsHand).length;
  const asks = hands ? `; ${hands} ${hands === 1 ? "needs" : "need"} you` : "";
  if (here) return ["open", `${words.counted(here, "slip")} kept on this tablet${asks}`];
  if (!live.length) return ["none", "no slip on this tablet yet"];
  const there = live.filter((record) => ["kept", "already", "second"].includes(record.state)).length;
  if (there < live.length) return ["open", `${there} of ${words.counted(live.length, "slip")} on the server${asks}`];
  return ["done", `${there === 1 ? "the slip is" : `all ${there} slips are`} on the server${asks}`];
}
