/* The money of a proof: the purse, the prizes, the big fish pot and side pots, to the cent. */
import { CENT, ONE, amount, downTo, exact, sum } from "./decimal.js";

/** Each share's part of an amount, rounded down to ``step``; what is left goes to the first. @param {bigint} whole @param {bigint[]} shares @param {bigint} step */
function byShares(whole, shares, step) {
  const together = sum(shares);
  const parts = shares.map((share) => (together ? downTo(whole * share, together, step) : 0n));
  if (parts.length) parts[0] += whole - sum(parts);
  return parts;
}

/**
 * Prizes to boats in order; equal ones split the places they cover, left-over cents to the lower boats.
 * @param {bigint[]} prizes @param {{by: bigint, boat: number}[]} order
 */
function withTies(prizes, order) {
  /** @type {Map<number, bigint>} */
  const paid = new Map();
  for (let start = 0, end = 0; start < order.length; start = end) {
    while (end < order.length && order[end].by === order[start].by) end += 1;
    const boats = order.slice(start, end).map((one) => one.boat).sort((a, b) => a - b), many = BigInt(boats.length);
    const cents = sum(prizes.slice(start, end)) / CENT;
    boats.forEach((boat, at) => {
      const cent = cents / many + (BigInt(at) < cents % many ? 1n : 0n);
      if (cent) paid.set(boat, cent * CENT);
    });
  }
  return paid;
}

/** A pot among boats, the one with the least ``by`` first. @param {bigint} pot @param {bigint[]} shares @param {{by: bigint, boat: number}[]} entered */
function potSplit(pot, shares, entered) {
  const order = [...entered].sort((a, b) => (a.by < b.by ? -1 : a.by > b.by ? 1 : a.boat - b.boat));
  return withTies(byShares(pot, shares.slice(0, order.length), CENT), order);
}

/** @param {ProofRules} rules @param {number} paid @param {number} winners */
function placesPaid(rules, paid, winners) {
  if (!winners) return 0;
  const per = /^1 per (\d+)$/.exec(rules.text("places_paid"));
  const wanted = per ? Math.floor(paid / Number(per[1])) : rules.whole("places_paid");
  const count = Math.min(Math.max(wanted, 1), winners);
  return rules.none("place_shares") ? count : Math.min(count, rules.list("place_shares").length);
}

/** @param {ProofRules} rules @param {TeamSum[]} list @param {bigint} entryFee @param {bigint} addedMoney */
export function purseOf(rules, list, entryFee, addedMoney) {
  const paid = list.filter((one) => one.team.paid), winners = paid.filter((one) => one.place !== null);
  const back = downTo(entryFee * BigInt(paid.length) * rules.exact("payback_percent"), 100n * ONE, CENT);
  const purse = back + addedMoney, places = placesPaid(rules, paid.length, winners.length);
  const shares = rules.none("place_shares") ? Array.from({ length: places }, (_, at) => BigInt(places - at)) : rules.exacts("place_shares").slice(0, places);
  const prizes = byShares(purse, shares, rules.exact("rounding"));
  const inPot = paid.filter((one) => one.team.big_fish_pot), pot = rules.exact("big_fish_pot_fee") * BigInt(inPot.length);
  const fish = winners.flatMap((one) => (one.team.big_fish_pot && one.bigFish !== null ? [{ by: -one.bigFish, boat: one.team.boat }] : []));
  const potPrizes = potSplit(pot, rules.exacts("big_fish_shares"), fish);
  return {
    paidEntries: paid.length, purse, places, unclaimed: winners.length ? 0n : purse, pot, potUnclaimed: potPrizes.size ? 0n : pot,
    prizes: withTies(prizes, winners.map((one) => ({ by: BigInt(one.place || 0), boat: one.team.boat }))), potPrizes,
  };
}

/** When the earliest full limit of a team was weighed, on a day that counts. @param {TeamSum} one @param {number} limit */
function firstLimit(one, limit) {
  const times = one.days.flatMap((slip) => (slip.weighed !== null && !slip.score.lost && slip.score.onScale === limit ? [slip.weighed] : []));
  return times.length ? times.reduce((a, b) => (a < b ? a : b)) : null;
}

/** @param {ProofRules} rules @param {TeamSum[]} list @param {Proof["side_pots"][number]} pot */
export function sidePotOf(rules, list, pot) {
  const members = new Set(pot.paid), inPot = list.filter((one) => one.team.paid && members.has(one.team.boat));
  const whole = amount(pot.fee) * BigInt(inPot.length), limit = rules.whole("fish_limit");
  /** @type {Record<string, (one: TeamSum) => bigint | null>} */
  const wins = {
    big_fish: (one) => (one.bigFish === null ? null : -one.bigFish),
    total: (one) => -one.total,
    youth_total: (one) => (one.team.youth ? -one.total : null),
    first_limit: (one) => firstLimit(one, limit),
  };
  const order = inPot.flatMap((one) => {
    const by = one.place === null ? null : wins[pot.wins](one);
    return by === null ? [] : [{ by, boat: one.team.boat }];
  });
  const prizes = potSplit(whole, pot.shares.split(",").map((share) => exact(share.trim())), order);
  return { name: pot.name, amount: whole, unclaimed: prizes.size ? 0n : whole, prizes };
}
