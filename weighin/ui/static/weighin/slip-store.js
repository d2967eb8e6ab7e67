/* Slips on this tablet. Every slip is written here before it is sent, and stays until the site has named its id.

   IndexedDB keeps them, or localStorage where IndexedDB is refused or fails; what either holds is read from both.
   const store = await weighinSlips.open("event-slug");
   store.keep(record), store.all(), store.drop(id)      records {id, event, slip, state, keptAt, …}
   store.keepPapers(papers), store.papers()             the last copy of the event's document, {document, etag, at}
   keep() raises when neither place takes the record: nothing was kept then. */
(function (root) {
  "use strict";
  const NAME = "weighin-table";
  const PATIENCE = 4000;

  /* The database, or null when the browser refuses one. */
  function database() {
    return new Promise((resolve) => {
      let asked;
      try { asked = root.indexedDB.open(NAME, 1); } catch (refused) { resolve(null); return; }
      const late = setTimeout(() => resolve(null), PATIENCE);
      asked.onupgradeneeded = () => {
        asked.result.createObjectStore("slips", { keyPath: "id" });
        asked.result.createObjectStore("papers", { keyPath: "event" });
      };
      asked.onsuccess = () => { clearTimeout(late); resolve(asked.result); };
      asked.onerror = asked.onblocked = () => { clearTimeout(late); resolve(null); };
    });
  }

  /* Does one thing with a store; done only when it is on the disk, not when it is merely taken. */
  function act(db, store, mode, what) {
    return new Promise((resolve, reject) => {
      const work = db.transaction(store, mode, { durability: "strict" });
      const asked = what(work.objectStore(store));
      work.oncomplete = () => resolve(asked.result);
      work.onerror = work.onabort = () => reject(work.error || new Error("not kept"));
    });
  }

  const indexed = (db) => ({
    put: (store, value) => act(db, store, "readwrite", (rows) => rows.put(value)),
    all: (store) => act(db, store, "readonly", (rows) => rows.getAll()),
    drop: (store, key) => act(db, store, "readwrite", (rows) => rows.delete(key)),
  });

  const local = {
    name: (store, key) => `${NAME}.${store}.${key}`,
    async put(store, value) { root.localStorage.setItem(this.name(store, value.id || value.event), JSON.stringify(value)); },
    async all(store) {
      const found = [];
      for (let at = 0; at < root.localStorage.length; at += 1) {
        const key = root.localStorage.key(at);
        if (key.startsWith(this.name(store, ""))) found.push(JSON.parse(root.localStorage.getItem(key)));
      }
      return found;
    },
    async drop(store, key) { root.localStorage.removeItem(this.name(store, key)); },
  };

  async function open(event) {
    const db = await database();
    const homes = db ? [indexed(db), local] : [local];

    async function put(store, value) {
      const kept = Object.assign({}, value, { event, changed: Date.now() });
      let fault = null;
      for (const home of homes) {
        try { await home.put(store, kept); return kept; } catch (refused) { fault = refused; }
      }
      throw fault;
    }

    async function read(store) {
      const newest = new Map();
      for (const home of homes) {
        let rows = [];
        try { rows = await home.all(store); } catch (refused) { continue; }
        for (const row of rows) {
          const key = row.id || row.event, other = newest.get(key);
          if (row.event === event && (!other || row.changed > other.changed)) newest.set(key, row);
        }
      }
      return [...newest.values()];
    }

    async function drop(id) {
      for (const home of homes) try { await home.drop("slips", id); } catch (refused) { /* it was not there */ }
    }

    return {
      keep: (record) => put("slips", record),
      all: async () => (await read("slips")).sort((a, b) => a.keptAt - b.keptAt),
      drop,
      keepPapers: (papers) => put("papers", papers),
      papers: async () => (await read("papers"))[0] || null,
    };
  }

  /* A UUID of random figures; crypto.randomUUID is missing on plain http. */
  function newId() {
    const bytes = root.crypto.getRandomValues(new Uint8Array(16));
    bytes[6] = (bytes[6] & 0x0f) | 0x40;
    bytes[8] = (bytes[8] & 0x3f) | 0x80;
    const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
    return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
  }

  root.weighinSlips = { open, newId };
})(globalThis);
