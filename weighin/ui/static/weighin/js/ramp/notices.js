/* What the page of boat checks says of the link, the pairing, the clock and the day, and what happens to notes meanwhile. */
import { clock } from "../device/times.js";
import { at, element, write } from "../site/elements.js";
import { gettext } from "../site/text.js";

/**
 * ``otherDay`` is the day chosen where that is not today's.
 * @param {{link: Link, eventDocument: RampDocument | null, missing: boolean, asks: HTMLElement[], way: string | undefined, signIn: string | undefined, otherDay: EventDay | null}} about
 */
export function show({ link, eventDocument, missing, asks, way, signIn, otherDay }) {
  /** @type {HTMLElement[]} */
  const found = [...asks];
  /** @param {string} strong @param {string} rest @param {string} [href] */
  const add = (strong, rest, href) => {
    const note = element("p", "", { class: "heed" });
    note.append(element("b", strong), ` ${rest} `);
    if (href) note.append(element("a", gettext("Sign in"), { href }));
    found.push(note);
  };
  const meanwhile = gettext("Notes are saved here meanwhile.");
  if (missing) add(gettext("This phone is not paired."), `${gettext("Open the address on the director’s screen, or read its QR code: it ends in the phone’s token.")} ${meanwhile}`);
  else if (link.barred) add(gettext("The site takes nothing from this phone."), `${link.barred} ${meanwhile}`, way === "log-in" ? `${signIn}?next=${encodeURIComponent(window.location.pathname)}` : "");
  if (!eventDocument) add(gettext("This phone has not had the event yet."), gettext("It needs the link once; until then write on paper."));
  if (link.restored) add(gettext("The site was put back to an older copy."), gettext("All notes of this phone are sent again by themselves: what the site lacks it takes, and each counts once."));
  const minutes = Math.round(Math.abs(link.off) / 60000);
  if (link.off) add(link.off > 0 ? gettext("This phone’s clock is %(minutes)s min ahead of the site’s: set it.", { minutes }) : gettext("This phone’s clock is %(minutes)s min behind the site’s: set it.", { minutes }), gettext("Launches carry this phone’s time."));
  if (eventDocument && eventDocument.event.closed) add(gettext("%(event)s is closed.", { event: eventDocument.event.name }), gettext("A director must reopen it before the site takes notes."));
  else if (otherDay) add(gettext("Day %(day)s of this event is %(date)s, not today.", { day: otherDay.day, date: otherDay.date }), gettext("“All good” writes no launch; times you write are taken for that day."));
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
  const rest = link.full ? [gettext("Notes stay on this phone and are sent by themselves as soon as it can.")]
    : [link.why, gettext("Notes are saved on this phone and sent by themselves when the link is back."), !opens && gettext("Do not load this page again meanwhile: without the link the browser could not show it, though the notes would stay.")];
  write(at("band-since"), link.full ? gettext("The site cannot write just now. Carry on.") : gettext("No link since %(time)s. Carry on.", { time: clock(link.since, zone) }));
  write(at("band-words"), rest.filter(Boolean).join(" "));
}
