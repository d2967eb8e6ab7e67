/* What the page of boat checks says: fields, checks, and where a note is. */
const NAMES = {
  pump_ok: "pump", aeration: "aeration", livewell_gal: "livewell", ice_lb: "ice", thermometer_ok: "thermometer", launched: "launch",
  first_fish: "first fish", livewell_temp: "livewell’s temperature", livewell_do: "oxygen", most_on_board: "most on board",
  culled: "culled", catch_depth_ft: "depth of catch", deep_hooked: "deep-hooked", barotrauma: "signs of depth", reflexes_absent: "reflexes absent", reflexes_checked: "reflexes tried", note: "words",
};
const CHECKS = {
  pump: "pump", thermometer: "thermometer", ice: "ice", on_board: "fish on board", held: "time held", bag: "time in the bag", cooling: "cooling", oxygen: "oxygen",
};
const AERATION = { recirculated: "recirculated", pumped: "pumped from the lake", oxygen: "oxygen", none: "no aeration" };

const NO_SLIP = "No slip of this boat counts on the site yet: live and dead, the time held and the minutes in the bag come from the scale table.";

const counted = (number, noun) => `${number} ${noun}${number === 1 || noun === "fish" ? "" : "s"}`;
const sentence = (text) => (text ? `${text.charAt(0).toUpperCase()}${text.slice(1)}.` : "");
const clock = (moment, zone) => new Date(moment).toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit", timeZone: zone || undefined });

function minutes(number) {
  const whole = Math.round(number), hours = Math.floor(whole / 60), rest = whole % 60;
  if (!hours) return `${whole} min`;
  return rest ? `${hours} h ${rest} min` : `${hours} h`;
}

/* What is wrong with a boat at the ramp, as far as a hand wrote it; ice is asked for only when the lake is warm. */
function wrong(values, isWarm) {
  return [
    values.pump_ok === false && "pump not in order", values.aeration === "none" && "no aeration",
    values.thermometer_ok === false && "no working thermometer", isWarm && values.ice_lb !== undefined && Number(values.ice_lb) === 0 && "no ice",
  ].filter(Boolean);
}

/* Whether a lake's temperature, such as "82 F", is at the rule sheet's care limit or above. */
function isWarm(written, limit) {
  const found = /^(-?[\d.]+) ?°?([FC])$/i.exec(written || "");
  return Boolean(found && limit) && (found[2].toUpperCase() === "F" ? Number(found[1]) : found[1] * 1.8 + 32) >= Number(limit);
}

/* The values of a note in plain words, in the order in which they are seen. */
function said(values, zone) {
  const has = (name) => values[name] !== undefined;
  return [
    has("pump_ok") && (values.pump_ok ? "pump runs" : "pump not in order"), has("aeration") && AERATION[values.aeration],
    has("thermometer_ok") && (values.thermometer_ok ? "thermometer works" : "no working thermometer"),
    has("ice_lb") && (Number(values.ice_lb) ? `${values.ice_lb} lb of ice` : "no ice"), has("livewell_gal") && `${values.livewell_gal} gal livewell`,
    has("launched") && `launched ${clock(values.launched, zone)}`, has("first_fish") && `first fish ${clock(values.first_fish, zone)}`,
    has("most_on_board") && `at most ${values.most_on_board} on board`, has("livewell_temp") && `livewell ${values.livewell_temp.replace(/ ?([FC])$/i, " °$1")}`,
    has("livewell_do") && `oxygen ${values.livewell_do} mg/L`, has("deep_hooked") && `${values.deep_hooked} deep-hooked`,
    has("culled") && `${values.culled} culled`, has("catch_depth_ft") && `caught at ${values.catch_depth_ft} ft`,
    has("barotrauma") && `${values.barotrauma} with signs of depth`,
    has("reflexes_checked") && `${values.reflexes_absent || 0} of ${counted(Number(values.reflexes_checked), "reflex").replace("reflexs", "reflexes")} absent`, has("note") && `“${values.note}”`,
  ].filter(Boolean).join(", ");
}

/* Counts, times and checks of one boat as the site works them out: [lead, checks]. */
function care(row) {
  if (!row) return [NO_SLIP, ""];
  const held = row.minutes_held === null ? "" : `held ${row.held_is_upper_bound ? "at most " : ""}${minutes(row.minutes_held)}`;
  const bag = row.minutes_in_bag === null ? "" : `${minutes(row.minutes_in_bag)} in the bag`;
  const named = (names) => names.map((name) => CHECKS[name] || name).join(", ");
  const kept = row.checks_passed.length ? `Kept: ${named(row.checks_passed)}.` : "", not = row.checks_failed.length ? `Not kept: ${named(row.checks_failed)}.` : "";
  const counts = `${row.live_count} alive, ${row.dead_count} dead on the slip`;
  return [row.live_count === null ? NO_SLIP : `${[counts, held, bag].filter(Boolean).join("; ")}.`, [not, kept].filter(Boolean).join(" ")];
}

/* The mark, the short state, and what to do about it. */
function state(record, going) {
  const number = record.number ? `, note ${record.number}` : "";
  if (record.state === "second" && !record.waits) return ["done", `on the server${number}`, "This boat has other notes for the day; whether it fits them is being asked."];
  if (record.asideAt) return ["none", "set aside", "Set aside by hand. It stays readable on this phone and is not sent."];
  return {
    waiting: going ? ["going", "going up", "It is on its way; it stays on this phone until the site has named it."]
      : ["open", "kept on this phone", "It goes up by itself when there is a link."],
    kept: ["done", `on the server${number}`, ""],
    already: ["done", `on the server${number}`, "The site had it already: it counts once."],
    second: ["done", `waits for an official${number}`, "It contradicts what stands for this boat. Nothing is written over: both stay until an official decides on the boat’s page of fish care."],
    differs: ["open", "differs, not kept", "The site holds this note with other values and changed nothing. Show both to a director, then set this one aside."],
    refused: ["open", "refused, not kept", "The site did not keep it. Put it right and keep it again, or send it again when what it says is mended."],
  }[record.state];
}

const needsHand = (record) => (["differs", "refused"].includes(record.state) || (record.state === "second" && record.waits)) && !record.asideAt;

/* [mark, words] for the head of the page: where all notes are. */
function where(records) {
  const live = records.filter((record) => !record.asideAt), hands = live.filter(needsHand).length;
  const here = live.filter((record) => record.state === "waiting").length, asks = hands ? `; ${hands} ${hands === 1 ? "needs" : "need"} you` : "";
  if (here) return ["open", `${counted(here, "note")} kept on this phone${asks}`];
  if (!live.length) return ["none", "no note on this phone yet"];
  const there = live.filter((record) => ["kept", "already", "second"].includes(record.state)).length;
  if (there < live.length) return ["open", `${there} of ${counted(live.length, "note")} on the server${asks}`];
  return ["done", `${there === 1 ? "the note is" : `all ${there} notes are`} on the server${asks}`];
}

function element(name, text, attributes) {
  const made = document.createElement(name);
  if (text) made.textContent = text;
  for (const [key, value] of Object.entries(attributes || {})) made.setAttribute(key, value);
  return made;
}

export { NAMES, counted, sentence, clock, wrong, isWarm, said, care, state, needsHand, where, element };
