/* The slips of this tablet: each with where it is, what to do about it, and its text to copy by hand or print. */
(function (root) {
  "use strict";
  const LATEST = 8;

  function element(name, text, attributes) {
    const made = document.createElement(name);
    if (text) made.textContent = text;
    for (const [key, value] of Object.entries(attributes || {})) made.setAttribute(key, value);
    return made;
  }

  const needsHand = (record) => ["differs", "refused", "second"].includes(record.state) && !record.asideAt;

  function button(words, act) {
    const made = element("button", words, { type: "button", class: "button plain" });
    made.addEventListener("click", act);
    return made;
  }

  function print(row) {
    row.classList.add("printed");
    document.documentElement.classList.add("prints-one-slip");
    root.addEventListener("afterprint", () => {
      row.classList.remove("printed");
      document.documentElement.classList.remove("prints-one-slip");
    }, { once: true });
    root.print();
  }

  /* Draw the list into ``list``; acts: {again, mend, aside}, each with the record. */
  root.weighinSlipList = function (list, records, { zone, unit, going, acts, open }) {
    const words = root.weighinWords;
    const newest = [...records].reverse();
    const shown = newest.filter((record, at) => at < LATEST || record.state === "waiting" || needsHand(record));
    list.replaceChildren(...shown.map((record) => {
      const [mark, short, todo] = words.state(record, going.has(record.id));
      const row = element("li", "", { "data-id": record.id, class: needsHand(record) ? "needs-hand" : "" });
      const more = element("details"), head = element("summary");
      if (open.has(record.id)) more.open = true;
      more.addEventListener("toggle", () => (more.open ? open.add(record.id) : open.delete(record.id)));
      head.append(
        element("b", String(record.slip.boat), { class: "boat" }), element("span", record.total || "", { class: "total" }),
        element("span", short, { class: `state is-${mark}` }));
      const acting = element("div", "", { class: "acts" });
      if (record.state === "refused" && !record.asideAt) {
        acting.append(button("Put it right", () => acts.mend(record)), button("Send it again", () => acts.again(record)));
      }
      if (["refused", "differs"].includes(record.state) && !record.asideAt) acting.append(button("Set it aside", () => acts.aside(record)));
      if (record.state === "second" && !record.asideAt) acting.append(button("It is settled", () => acts.aside(record)));
      acting.append(button("Print it", () => print(row)));
      const faults = (record.faults || []).map((fault) => element("p", fault.field ? `${fault.field.replace(/_/g, " ")}: ${fault.message}` : fault.message, { class: "small strong" }));
      const text = element("p", words.asText(record, zone, unit).join("\n"), { class: "as-text" });
      more.append(head, ...(todo ? [element("p", todo, { class: "small" })] : []), ...faults, text, acting);
      row.append(more);
      return row;
    }));
  };

  /* [mark, words] for the head of the page: where all slips are. */
  root.weighinWhere = function (records) {
    const words = root.weighinWords;
    const live = records.filter((record) => !record.asideAt);
    const here = live.filter((record) => record.state === "waiting").length;
    const hands = live.filter(needsHand).length;
    const asks = hands ? `; ${hands} ${hands === 1 ? "needs" : "need"} you` : "";
    if (here) return ["open", `${words.counted(here, "slip")} kept on this tablet${asks}`];
    if (!live.length) return ["none", "no slip on this tablet yet"];
    const there = live.filter((record) => ["kept", "already", "second"].includes(record.state)).length;
    if (there < live.length) return ["open", `${there} of ${words.counted(live.length, "slip")} on the server${asks}`];
    return ["done", `${there === 1 ? "the slip is" : `all ${there} slips are`} on the server${asks}`];
  };
})(globalThis);
