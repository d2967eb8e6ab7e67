/* What the page says of the link, the pairing, the clock and the day: in words, and what happens to slips meanwhile. */
import { clock, dated } from "../device/times.js";
import { at, element, write } from "../site/elements.js";
import { gettext } from "../site/text.js";

/**
 * ``today`` is by the event's calendar.
 * @param {{link: Link, eventDocument: EventDocument | null, missing: boolean, asks: HTMLElement[], way: string | undefined, signIn: string | undefined, today: string}} about
 */
export function show({ link, eventDocument, missing, asks, way, signIn, today }) {
  /** @type {HTMLElement[]} */
  const found = [...asks];
  /** @param {string} strong @param {string} rest @param {string} [href] */
  const add = (strong, rest, href) => {
    const note = element("p", "", { class: "heed" });
    note.append(element("b", strong), ` ${rest} `);
    if (href) note.append(element("a", gettext("Sign in"), { href }));
    found.push(note);
  };
  const meanwhile = gettext("Slips are saved here meanwhile.");
  if (missing) add(gettext("This tablet is not paired."), `${gettext("Open the address on the director’s screen, or read its QR code: it ends in the tablet’s token.")} ${meanwhile}`);
  else if (link.barred) add(gettext("The site takes nothing from this tablet."), `${link.barred} ${meanwhile}`, way === "log-in" ? `${signIn}?next=${encodeURIComponent(window.location.pathname)}` : "");
  if (link.restored) add(gettext("The site was put back to an older copy."), gettext("All slips of this tablet are sent again by themselves: what the site lacks it takes, and each counts once."));
  const minutes = Math.round(Math.abs(link.off) / 60000);
  if (link.off) add(link.off > 0 ? gettext("This tablet’s clock is %(minutes)s min ahead of the site’s: set it.", { minutes }) : gettext("This tablet’s clock is %(minutes)s min behind the site’s: set it.", { minutes }), gettext("Slips carry this tablet’s time."));
  if (eventDocument && eventDocument.event.notice) add(eventDocument.event.notice, "");
  if (eventDocument && eventDocument.event.closed) add(gettext("%(event)s is closed.", { event: eventDocument.event.name }), gettext("A director must reopen it before the site takes slips."));
  else if (eventDocument && eventDocument.days.length && !eventDocument.days.some((day) => Math.abs(Date.parse(day.date) - Date.parse(today)) <= 864e5)) {
    add(gettext("No day of this event is today."), gettext("This tablet says %(today)s, the event is on %(days)s. The site refuses times more than two days off: look at the tablet’s clock.", { today: dated({ date: today }), days: eventDocument.days.map(dated).join("; ") }));
  }
  /** @param {Iterable<Element>} notes */
  const all = (notes) => [...notes].map((one) => one.textContent).join();
  const box = at("notices");
  if (all(box.children) !== all(found)) box.replaceChildren(...found);
}

/** @param {Link} link @param {string | undefined} zone */
export function showLink(link, zone) {
  at("band").hidden = !link.since;
  if (!link.since) return;
  const opens = "serviceWorker" in navigator && navigator.serviceWorker.controller;
  const rest = link.full ? [gettext("Slips stay on this tablet and are sent by themselves as soon as it can.")]
    : [link.why, gettext("Slips are saved on this tablet and sent by themselves when the link is back."), !opens && gettext("Do not load this page again meanwhile: without the link the browser could not show it, though the slips would stay.")];
  write(at("band-since"), link.full ? gettext("The site cannot write just now. Carry on weighing.") : gettext("No link since %(time)s. Carry on weighing.", { time: clock(link.since, zone) }));
  write(at("band-words"), rest.filter(Boolean).join(" "));
}
