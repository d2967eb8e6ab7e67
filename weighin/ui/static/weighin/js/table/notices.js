/* What the page says of the link, the pairing, the clock and the day: in words, and what happens to slips meanwhile. */
import * as words from "../slip/words.js";

const element = words.element;
const at = (id) => document.getElementById(id);

/* ``link`` is the sender's, ``papers`` the event's document or null, ``today`` by the event's calendar. */
function show({ link, papers, missing, way, signIn, today }) {
  const found = [];
  const add = (strong, rest, href, name) => {
    const note = element("p", "", { class: "heed" });
    note.append(element("b", strong), ` ${rest} `);
    if (href) note.append(element("a", name, { href }));
    found.push(note);
  };
  if (missing) add("This tablet is not paired.", "Open the address on the director's screen, or read its QR code: it ends in the tablet's token. Slips are kept here meanwhile.");
  else if (link.barred) add("The site takes nothing from this tablet.", `${link.barred} Slips are kept here meanwhile.`, way === "log-in" ? `${signIn}?next=${encodeURIComponent(window.location.pathname)}` : "", "Sign in");
  if (link.restored) add("The site was put back to an older copy.", "All slips of this tablet go up again by themselves: what the site lacks it takes, and each counts once.");
  if (link.clock) add(link.clock, "Slips carry this tablet's time.");
  if (papers && papers.event.closed) add(`${papers.event.name} is closed.`, "A director must open it again before the site takes slips.");
  else if (papers && papers.days.length && !papers.days.some((day) => Math.abs(Date.parse(day.date) - Date.parse(today)) <= 864e5)) add("No day of this event is today.", `This tablet says ${today}, the event is on ${papers.days.map((day) => day.date).join(", ")}. The site refuses times more than two days off: look at the tablet's clock.`);
  const box = at("notices"), all = (notes) => [...notes].map((one) => one.textContent).join();
  if (all(box.children) !== all(found)) box.replaceChildren(...found);
}

function showLink(link, zone) {
  const band = at("band");
  band.hidden = !link.since;
  if (!link.since) return;
  const reload = "serviceWorker" in navigator && navigator.serviceWorker.controller ? "" : " Do not load this page again meanwhile: without the link the browser could not show it, though the slips would stay.";
  const strong = link.full ? "The site cannot write just now. Carry on weighing." : `No link since ${words.clock(link.since, zone)}. Carry on weighing.`;
  const rest = link.full ? "Slips stay on this tablet and go up by themselves as soon as it can." : `${link.why ? `${link.why} ` : ""}Slips are kept on this tablet and go up by themselves when the link is back.${reload}`;
  if (at("band-since").textContent !== strong) at("band-since").textContent = strong;
  if (at("band-words").textContent !== rest) at("band-words").textContent = rest;
}

export { show, showLink };
