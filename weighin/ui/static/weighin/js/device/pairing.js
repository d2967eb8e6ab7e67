/* Who sends: the token of a paired tablet, or the log-in's security cookie; and what is remembered on the device. */

/** @param {string} key */
export const remembered = (key) => { try { return window.localStorage.getItem(key) || ""; } catch { return ""; } };
/** @param {string} key @param {string} value */
export const remember = (key, value) => { try { window.localStorage.setItem(key, value); } catch { /* lasts for this page */ } };

/** @param {string} slug @param {string | undefined} way how the page was opened: "token" or "log-in" */
export function pairingOf(slug, way) {
  const KEY = `weighin-table.token.${slug}`;
  let token = "";

  /* The token stands behind the # of the address that the director shows. */
  function take() {
    let given = "";
    try { given = decodeURIComponent(window.location.hash.slice(1)); } catch { /* no token then */ }
    if (/^[\w-]{20,100}$/.test(given)) {
      remember(KEY, given);
      token = given;
      window.history.replaceState(null, "", window.location.pathname);    // not left on the screen for a camera
    }
    token = token || remembered(KEY);
  }

  /** @returns {Record<string, string>} */
  function headers() {
    if (way === "token") return token ? { Authorization: `Bearer ${token}` } : {};
    const cookie = /(?:^|;\s*)csrftoken=([^;]+)/.exec(document.cookie);
    return cookie ? { "X-CSRFToken": cookie[1] } : {};
  }

  take();
  return { take, headers, missing: () => way === "token" && !token };
}
