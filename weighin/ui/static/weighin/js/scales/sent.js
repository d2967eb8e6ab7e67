/* Readings that went into slips, sent to the site by their own id once there is a link. */
import { remember, remembered } from "../device/pairing.js";
import { newId } from "../device/store.js";

const SENT_EVERY = 15000, MOST = 50;

/**
 * ``scale()`` names the scale that is listened to.
 * @param {string} slug @param {{address: string, ask: (address: string, options?: RequestInit & {body?: string}) => Promise<Response>, scale: () => string}} about
 */
export function sendReadings(slug, { address, ask, scale }) {
  const WAITING = `weighin-readings.${slug}`;
  /** @returns {{id: string}[]} */
  const waiting = () => { try { return JSON.parse(remembered(WAITING) || "[]"); } catch { return []; } };

  document.addEventListener("weighin:kept", (event) => {
    /** @type {{id: string, readings: ScaleReading[]}} */
    const { id, readings } = /** @type {CustomEvent} */ (event).detail;
    const made = readings.map((one) => ({ id: newId(), slip: id, field: one.field, text: one.text, unit: one.unit, raw: one.raw, scale: scale(), taken: one.at }));
    remember(WAITING, JSON.stringify([...waiting(), ...made]));
    send();
  });

  /* A reading that the site refuses is let go: its line stands in the slip's note all the same. */
  async function send() {
    const some = waiting().slice(0, MOST);
    if (!some.length) return;
    try {
      const answer = await ask(address, {
        method: "POST", headers: { "Content-Type": "application/json" },
        body: JSON.stringify({ readings: some, sent: new Date().toISOString() }),
      });
      if (!answer.ok) return;
      /** @type {{readings: {id: string}[]}} */
      const told = await answer.json();
      const done = new Set(told.readings.map((one) => one.id));
      remember(WAITING, JSON.stringify(waiting().filter((one) => !done.has(one.id))));
      if (waiting().length && done.size) send();
    } catch { /* they wait for the link */ }
  }

  setInterval(send, SENT_EVERY);
  send();
}
