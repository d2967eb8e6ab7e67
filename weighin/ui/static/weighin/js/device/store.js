/* What was written on this tablet: slips, and in stores of their own care notes and check-ins. Every one is written
   here before it is sent, and stays until the site has named its id, and a day longer.

   IndexedDB keeps them, or localStorage where IndexedDB is refused or fails; what either holds is read from both.
   const store = await openStore("event-slug", "table")     the kind of store: table (slips), notes, checkins
   store.keep(record), store.keepAll(records)           all of several or none; raise when neither place takes them
   store.all(), store.drop(id)                          records {id, event, state, keptAt, answeredAt, …}
   store.keepPapers(papers), store.papers()             the last copy of the event's document, {document, etag, at}
   store.sweep(closed)                                  lets go what the site has had for a day, or of a closed event */
const PATIENCE = 4000;
const DAY = 864e5;
const PAPERS_LAST = 30 * DAY;

/** The database, or null when the browser refuses one. @param {string} name @returns {Promise<IDBDatabase | null>} */
function database(name) {
  return new Promise((resolve) => {
    /** @type {IDBOpenDBRequest} */
    let asked;
    try { asked = window.indexedDB.open(name, 1); } catch { resolve(null); return; }
    const late = setTimeout(() => resolve(null), PATIENCE);
    asked.onupgradeneeded = () => {
      asked.result.createObjectStore("slips", { keyPath: "id" });
      asked.result.createObjectStore("papers", { keyPath: "event" });
    };
    asked.onsuccess = () => { clearTimeout(late); resolve(asked.result); };
    asked.onerror = asked.onblocked = () => { clearTimeout(late); resolve(null); };
  });
}

/**
 * Does one thing with a store; done only when it is on the disk, not when it is merely taken.
 * @param {IDBDatabase} db @param {string} store @param {IDBTransactionMode} mode
 * @param {(rows: IDBObjectStore) => IDBRequest | undefined} what @returns {Promise<any>}
 */
function act(db, store, mode, what) {
  return new Promise((resolve, reject) => {
    const work = db.transaction(store, mode, { durability: "strict" });
    const asked = what(work.objectStore(store));
    work.oncomplete = () => resolve(asked && asked.result);
    work.onerror = work.onabort = () => reject(work.error || new Error("not kept"));
  });
}

/** @param {IDBDatabase} db @returns {Home} */
const indexed = (db) => ({
  put: (store, values) => act(db, store, "readwrite", (rows) => values.map((value) => rows.put(value)).pop()),
  all: (store) => act(db, store, "readonly", (rows) => rows.getAll()),
  drop: (store, key) => act(db, store, "readwrite", (rows) => rows.delete(key)),
});

/** @param {string} name @returns {Home} */
const local = (name) => ({
  async put(store, values) {
    /** @type {[string, string | null][]} */
    const before = [];
    try {
      for (const value of values) {
        const key = `${name}.${store}.${value.id || value.event}`;
        before.push([key, window.localStorage.getItem(key)]);
        window.localStorage.setItem(key, JSON.stringify(value));
      }
    } catch (full) {
      for (const [key, was] of before) if (was === null) window.localStorage.removeItem(key); else window.localStorage.setItem(key, was);
      throw full;
    }
  },
  async all(store) {
    const found = [];
    for (let at = 0; at < window.localStorage.length; at += 1) {
      const key = window.localStorage.key(at) || "";
      if (key.startsWith(`${name}.${store}.`)) found.push(JSON.parse(window.localStorage.getItem(key) || "null"));
    }
    return found;
  },
  async drop(store, key) { window.localStorage.removeItem(`${name}.${store}.${key}`); },
});

/** Whether the site has a record for certain, and nobody is asked to look at it any more. @param {Kept} row */
const isThere = (row) => Boolean(row.answeredAt) && (["kept", "already"].includes(row.state) || (row.state === "second" && Boolean(row.asideAt || row.settled)));

/**
 * The store of an event; ``R`` is what its records are.
 * @template {Kept} R
 * @param {string} event @param {"table" | "notes" | "checkins"} kind @returns {Promise<Store<R>>}
 */
export async function openStore(event, kind = "table") {
  const name = `weighin-${kind}`;
  const db = await database(name);
  const homes = db ? [indexed(db), local(name)] : [local(name)];

  /** All of them, or none. @param {string} store @param {object[]} values */
  async function put(store, ...values) {
    const kept = values.map((value) => ({ ...value, event, changed: Date.now() }));
    let fault = null;
    for (const home of homes) {
      try { await home.put(store, kept); return; } catch (refused) { fault = refused; }
    }
    throw fault;
  }

  /** The newest of each record in either home, of every event. @param {string} store @returns {Promise<any[]>} */
  async function readAll(store) {
    const newest = new Map();
    for (const home of homes) {
      /** @type {any[]} */
      let rows;
      try { rows = await home.all(store); } catch { continue; }
      for (const row of rows) {
        const key = row.id || row.event, other = newest.get(key);
        if (!other || row.changed > other.changed) newest.set(key, row);
      }
    }
    return [...newest.values()];
  }

  /** @param {string} store */
  const read = async (store) => (await readAll(store)).filter((row) => row.event === event);

  /** @param {string} id */
  async function drop(id, store = "slips") {
    for (const home of homes) try { await home.drop(store, id); } catch { /* it was not there */ }
  }

  /** Old rows of every event go, so that a tablet does not fill up over the years; one that is unsent never does. @param {boolean} closed */
  async function sweep(closed) {
    const rows = await readAll("slips"), old = Date.now() - DAY;
    const gone = rows.filter((row) => isThere(row) && (row.answeredAt < old || (closed && row.event === event)));
    for (const row of gone) await drop(row.id);
    const busy = new Set([event, ...rows.filter((row) => !gone.includes(row)).map((row) => row.event)]);
    for (const one of await readAll("papers")) if (!busy.has(one.event) && one.at < Date.now() - PAPERS_LAST) await drop(one.event, "papers");
    return gone.length;
  }

  return {
    name, event, sweep,
    keep: (record) => put("slips", record),
    keepAll: (records) => put("slips", ...records),
    all: async () => (await read("slips")).sort((a, b) => a.keptAt - b.keptAt),
    drop: (id) => drop(id),
    keepPapers: (papers) => put("papers", papers),
    papers: async () => (await read("papers"))[0] || null,
  };
}

/* A UUID of random figures; crypto.randomUUID is missing on plain http. */
export function newId() {
  const bytes = window.crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6] & 0x0f) | 0x40;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}
