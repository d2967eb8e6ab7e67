/* Who sends: the token of a paired tablet, or the log-in's security cookie; and what is remembered on the device.

   Over plain http the token is never sent: it signs (signing.js). A link with another token takes the place of one that
   the site still knows only when somebody says so. */
import { button, element } from "../site/elements.js";
import { gettext } from "../site/text.js";

/** @param {string} key */
export const remembered = (key) => { try { return window.localStorage.getItem(key) || ""; } catch { return ""; } };
/** @param {string} key @param {string} value */
export const remember = (key, value) => { try { window.localStorage.setItem(key, value); } catch { /* lasts for this page */ } };

/** @param {string} slug @param {string | undefined} way how the page was opened: "token" or "log-in" */
export function pairingOf(slug, way) {
  const KEY = `weighin-table.token.${slug}`;
  let token = "", offered = "", known = false;

  /* The token stands behind the # of the address that the director shows. */
  function take() {
    let given = "";
    try { given = decodeURIComponent(window.location.hash.slice(1)); } catch { /* no token then */ }
    token = remembered(KEY) || token;
    if (!/^[\w-]{20,100}$/.test(given)) return;
    window.history.replaceState(null, "", window.location.pathname);    // not left on the screen for a camera
    if (given === token) return;
    offered = given;
    if (!token) answer(true);
  }

  /** @param {boolean} yes whether the other token is taken */
  function answer(yes) {
    if (yes) { token = offered; known = false; remember(KEY, token); }
    offered = "";
  }

  /** Asks the site in this device's name. @param {string} address @param {RequestInit & {body?: string}} [options] @returns {Promise<Response>} */
  async function ask(address, options = {}) {
    /** @param {Record<string, string>} more */
    const send = (more) => fetch(address, { cache: "no-store", credentials: "same-origin", ...options, headers: { ...options.headers, ...more } });
    if (way !== "token") {
      const cookie = /(?:^|;\s*)csrftoken=([^;]+)/.exec(document.cookie);
      return send(cookie ? { "X-CSRFToken": cookie[1] } : {});
    }
    token = remembered(KEY) || token;
    if (!token) return send({});
    const found = window.isSecureContext ? await send({ Authorization: `Bearer ${token}` })
      : await (await import("./signing.js")).askSigned(token, address, options, send);
    known = found.status < 300 || found.status === 304;
    if (found.status !== 401 || !offered) return found;
    answer(true);
    return ask(address, options);
  }

  /** What to ask where a link brought another token. @returns {HTMLElement[]} */
  function question() {
    if (!offered || !known) return [];
    const asks = element("p", "", { class: "heed" });
    /** @param {string} words @param {boolean} yes */
    const may = (words, yes) => button(words, () => { answer(yes); window.dispatchEvent(new Event("hashchange")); }, "plain");
    asks.append(element("b", gettext("This link brings another key.")), ` ${gettext("This device goes on with its own. Use the other only if a director gave it to you.")} `, may(gettext("Stay with its own"), false), " ", may(gettext("Use the other"), true));
    return [asks];
  }

  take();
  return { take, ask, question, missing: () => way === "token" && !token };
}
