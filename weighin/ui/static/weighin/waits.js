/* A form whose answer may take some seconds says so once it is sent: <p data-wait hidden>…</p> in the form. */
(function () {
  "use strict";
  const show = (waiting) => (part) => { part.hidden = !waiting; };

  document.addEventListener("submit", (event) => event.target.querySelectorAll("[data-wait]").forEach(show(true)));
  // Gone back to, the page may be the one that was left
  window.addEventListener("pageshow", () => document.querySelectorAll("[data-wait]").forEach(show(false)));
})();
