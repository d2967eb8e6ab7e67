/* On the sign-in page nobody is signed in: what this device kept of members' pages goes, with the event's papers of the
   roll. What was written here and is not sent yet stays, and goes up when somebody signs in again. A tablet's own pages,
   opened by its token, stay too. */
const OF_MEMBERS = /^weighin-(?:roll|table) \/events\//;
const ROLL = "weighin-checkins", ROLL_PAPERS = "weighin-checkins.papers.";

if (window.caches) {
  for (const name of await window.caches.keys()) if (OF_MEMBERS.test(name)) await window.caches.delete(name);
}
try {
  for (const key of Object.keys(window.localStorage)) if (key.startsWith(ROLL_PAPERS)) window.localStorage.removeItem(key);
  const asked = window.indexedDB.open(ROLL, 1);
  asked.onupgradeneeded = () => asked.transaction?.abort();    // there was none, and none is made
  asked.onsuccess = () => {
    asked.result.transaction("papers", "readwrite").objectStore("papers").clear();
    asked.result.close();
  };
} catch { /* a browser that keeps nothing has nothing to let go */ }
