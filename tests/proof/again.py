"""A proof worked out once more by a program that knows only the scoring contract: nothing of weighin is imported.

``result(proof)`` gives the standings, purse and side pots as Fractions; ``python tests/proof/again.py FILE`` prints the list.
"""

import json
import sys
from datetime import UTC, datetime, time, timedelta
from fractions import Fraction as F
from math import ceil
from pathlib import Path
from zoneinfo import ZoneInfo

ORDER = ("ranked", "in_question", "no_fish", "not_weighed", "absent", "disqualified", "withdrawn")


def down(x, step):
    return (x / step).__floor__() * step


def many(text):
    return [F(one) for one in text.split(",")]


class Event:
    def __init__(self, p):
        self.p, self.r, e = p, p["rules"], p["event"]
        self.unit, self.zone = e["weight_unit"], ZoneInfo(e["time_zone"])
        self.days = {d["day"]: d for d in e["days"]}
        self.fished = sorted(n for n, d in self.days.items() if d["status"] != "cancelled")
        self.flight = {t["boat"]: t["flight"] for t in p["teams"]}

    def weight(self, text):
        if self.unit != "lb-oz" or "-" not in text:
            return F(text)
        lb, oz = text.split("-")
        return F(lb) + F(oz) / 16

    def w(self, key):
        return self.weight(self.r[key])

    def at(self, day, text):
        d, e = self.days[day], self.p["event"]
        if "T" in text:
            local = datetime.fromisoformat(text)
        else:
            start, due = (time.fromisoformat(d[k] or e[k]) for k in ("start_time", "due_time"))
            local = datetime.combine(datetime.fromisoformat(d["date"]).date(), time.fromisoformat(text))
            local += timedelta(days=due < start and local.time() < start)
        return (local if local.tzinfo else local.replace(tzinfo=self.zone)).astimezone(UTC)

    def late(self, s):
        rows = [c for c in self.p["checkins"] if (c["day"], c["boat"]) == (s["day"], s["boat"])]
        said, excuse = s, s["excused_minutes"]
        if s["checked_in"] is None and s["minutes_late"] is None:
            said = next((c for c in rows if c["checked_in"] is not None or c["minutes_late"] is not None), s)
            if excuse is None:
                excuse = next((c["excused_minutes"] for c in rows[::-1] if c["excused_minutes"] is not None), 0)
        if said["minutes_late"] is not None:
            return F(said["minutes_late"])
        if said["checked_in"] is None:
            return F(0)
        dues = {f["day"]: f["due_time"] for f in self.p["flights"] if f["flight"] == self.flight[s["boat"]]}
        due = dues.get(s["day"], dues.get(None, self.days[s["day"]]["due_time"] or self.p["event"]["due_time"]))
        over = self.at(s["day"], said["checked_in"]) - self.at(s["day"], due)
        return max(F(0), F(over // timedelta(microseconds=1), 60_000_000) - F(str(excuse or 0)))

    def score(self, s):
        r, n, limit = self.r, s["fish"], int(self.r["fish_limit"])
        short_alive, over, late = min(s["short"], s["alive"]), max(0, n - limit), self.late(s)
        scale = n - s["short"] if r["dead_fish"] == "penalty" else s["alive"] - short_alive
        scale = min(scale, limit) if r["over_limit"] == "penalty" else scale
        net = (
            F(0) if s["gross"] is None else F(s["gross"]) - (self.w("bag_tare") if s["tare"] is None else F(s["tare"]))
        )
        a, b = over * (r["over_limit"] == "remove_largest"), s["short"] * (r["short_fish"] == "lose_largest")
        big = [F(x) for x in s["largest_weights"]]
        off = (sum(big[:a]), sum(big[a : a + b])) if a + b < scale else (net, 0) if a else (0, net if b else 0)
        steps = [self.weight(x.strip()) for x in r["dead_fish_penalty"].split(",")]
        dead = 0 if r["dead_fish"] == "not_weighed" else s["dead"]
        minutes = max(0, ceil(late - F(r["late_grace_minutes"])))
        toll = minutes * self.w("late_penalty_per_minute")
        lines = [
            ("over_limit", over, off[0] if a or r["over_limit"] != "penalty" else over * self.w("over_limit_penalty")),
            (
                "short_fish",
                s["short"],
                off[1] if r["short_fish"] != "penalty" else s["short"] * self.w("short_fish_penalty"),
            ),
            ("dead_fish", dead, sum(steps[min(i, len(steps) - 1)] for i in range(dead))),
            ("late", minutes, toll),
            ("extra", int(s["extra_penalty"] is not None), F(s["extra_penalty"] or 0)),
        ]
        lines = [{"reason": x, "count": c, "amount": m} for x, c, m in lines if c]
        last = r["late_disqualify_after_minutes"]
        lost = (
            "ruling"
            if s["disqualified"]
            else "over_limit"
            if over and r["over_limit"] == "disqualify_day"
            else "short_fish"
            if s["short"] and r["short_fish"] == "lose_day"
            else "late"
            if last is not None and late > F(last)
            else None
        )
        day = {
            "day": s["day"],
            "lost": lost,
            "fish": n,
            "gross": net,
            "alive": s["alive"],
            "dead": s["dead"],
            "scale": scale,
            "weighed": 0,
            "bonus": F(0),
            "total": F(0),
            "big_fish": None,
            "deductions": [],
            "at": s["weighed"] and self.at(s["day"], s["weighed"]),
        }
        if lost:
            return day
        bonus = self.w("live_fish_bonus") * min(s["alive"] - short_alive, limit)
        total = net - sum(x["amount"] for x in lines) + bonus
        alive = s["dead"] == 0 if s["big_fish_alive"] is None else s["big_fish_alive"]
        fish = (
            None
            if s["big_fish"] is None or not (alive or (r["dead_fish"], r["dead_fish_big_fish"]) == ("penalty", "yes"))
            else F(s["big_fish"])
        )
        if fish is not None and r["late_reduces_big_fish"] == "yes":
            fish = fish - toll if fish > toll else None
        return {
            **day,
            "weighed": max(0, scale - a - b),
            "bonus": bonus,
            "total": max(F(0), total) if r["negative_totals"] == "floor" else total,
            "big_fish": fish,
            "deductions": lines,
        }

    def sums(self, slips):
        for t in self.p["teams"]:
            by = {}
            for s in slips:
                if s["boat"] == t["boat"]:
                    by.setdefault(s["day"], []).append(self.score(s))
            days = [by[d][0] for d in sorted(by) if len(by[d]) == 1]
            fish = [d for d in days if d["fish"]]
            status = (
                t["status"]
                if t["status"] != "entered"
                else "in_question"
                if len(days) < len(by)
                else "not_weighed"
                if not days
                else "no_fish"
                if not fish
                else "disqualified"
                if all(d["lost"] for d in fish)
                else "ranked"
            )
            through = {d: max(x["total"] for x in by[d]) for d in by}
            yield {
                "t": t,
                "boat": t["boat"],
                "team": t["team"],
                "status": status,
                "days": days,
                "through": through,
                "place": None,
                "tied": False,
                **{k: sum(d[k] for d in days) for k in ("fish", "alive", "dead", "weighed", "gross", "bonus", "total")},
                "penalty": sum(x["amount"] for d in days for x in d["deductions"]),
                "big_fish": max((d["big_fish"] for d in days if d["big_fish"] is not None), default=None),
            }

    def makes_cut(self, rows):
        d, keep = int(self.r["cut_after_day"]), int(self.r["cut_keep"])
        totals = {
            x["boat"]: sum(v for n, v in x["through"].items() if n <= d) for x in rows if x["t"]["status"] == "entered"
        }
        line = sorted(totals.values(), reverse=True)[keep - 1] if len(totals) > keep else None
        return {b for b, v in totals.items() if line is None or v >= line}

    def places(self):
        real = [s for s in self.p["slips"] if not s.get("void")]
        gone = {s["replaces"] for s in self.p["slips"]}
        current = [s for s in real if s["slip"] not in gone]
        rows, on = list(self.sums(current)), None
        if self.r["cut_after_day"] is not None:
            d, first = int(self.r["cut_after_day"]), {}
            for s in sorted(real, key=lambda s: s["slip"]):
                first.setdefault((s["boat"], s["day"]), s)
            before = self.makes_cut(list(self.sums([s for s in first.values() if s["day"] <= d])))
            on = self.makes_cut(rows) | (before & {s["boat"] for s in current if s["day"] > d})
        edge = {"first_day": self.fished[:1], "last_day": self.fished[-1:]}

        def key(x):
            vs = {
                "big_fish": -(x["big_fish"] or 0),
                "live_fish": -sum(d["alive"] for d in x["days"] if not d["lost"]),
                "fish_count": -x["weighed"],
                "fewest_deductions": x["penalty"],
                "lot": 10**12 if x["t"]["lot"] is None else x["t"]["lot"],
                **{k: -sum(d["total"] for d in x["days"] if d["day"] in v) for k, v in edge.items()},
            }
            return (
                on is not None and x["boat"] not in on,
                -x["total"],
                *(vs[k.strip()] for k in self.r["ties"].split(",") if k.strip() != "share"),
            )

        ranked = [x for x in rows if x["status"] == "ranked"]
        for x in ranked:
            x["place"], x["tied"] = 1 + sum(key(o) < key(x) for o in ranked), sum(key(o) == key(x) for o in ranked) > 1
        return sorted(rows, key=lambda x: (ORDER.index(x["status"]), x["place"] or 0, x["boat"]))


def shared(amount, shares, step):
    parts = [down(amount * s / sum(shares), step) if sum(shares) else F(0) for s in shares]
    return [parts[0] + amount - sum(parts), *parts[1:]] if parts else []


def ties(prizes, order):
    paid = {}
    for by in {by for by, _ in order}:
        boats = sorted(b for k, b in order if k == by)
        start = sum(k < by for k, _ in order)
        cents = int(sum(prizes[start : start + len(boats)]) * 100)
        for i, b in enumerate(boats):
            paid[b] = F(cents // len(boats) + (i < cents % len(boats)), 100)
    return {b: v for b, v in paid.items() if v}


def pot(amount, shares, order):
    return ties(shared(amount, shares[: len(order)], F(1, 100)), order)


def result(p):
    e, r = Event(p), p["rules"]
    rows = e.places()
    paid = [x for x in rows if x["t"]["paid"]]
    winners = [x for x in paid if x["place"]]
    purse = down(len(paid) * F(p["event"]["entry_fee"]) * F(r["payback_percent"]) / 100, F(1, 100)) + F(
        p["event"]["added_money"]
    )
    said, given = r["places_paid"], r["place_shares"] and many(r["place_shares"])
    n = (
        min(
            max(1, len(paid) // int(said[6:]) if said.startswith("1 per ") else int(said)),
            len(winners),
            len(given or paid),
        )
        if winners
        else 0
    )
    prizes = ties(
        shared(purse, (given or list(range(n, 0, -1)))[:n], F(r["rounding"])),
        [(x["place"], x["boat"]) for x in winners],
    )
    big = F(r["big_fish_pot_fee"]) * sum(x["t"]["big_fish_pot"] for x in paid)
    bigs = pot(
        big,
        many(r["big_fish_shares"]),
        [(-x["big_fish"], x["boat"]) for x in winners if x["t"]["big_fish_pot"] and x["big_fish"] is not None],
    )
    table, step, floor = r["points_table"] and many(r["points_table"]), F(r["points_step"]), F(r["points_floor"])

    def points(place):
        if not table:
            return max(floor, F(r["points_first"]) - (place - 1) * step)
        return max(floor, table[place - 1] if place <= len(table) else table[-1] - (place - len(table)) * step)

    least = min((points(x["place"]) for x in rows if x["place"]), default=floor)
    best = max((x["big_fish"] for x in rows if x["place"] and x["big_fish"] is not None), default=None)
    for x in rows:
        pounds = max(0, (x["total"] / (F("0.45359237") if e.unit == "kg" else 1)).__floor__())
        below, none = r["points_absent_below_last"], r["points_no_fish"]
        x["points"] = (
            points(x["place"])
            + F(r["points_per_pound"]) * pounds
            + F(r["points_big_fish"]) * (best is not None and x["big_fish"] == best)
            if x["place"]
            else (least if none == "last" else F(none))
            if x["status"] == "no_fish"
            else F(r["points_not_weighed"])
            if x["status"] == "not_weighed"
            else max(F(0), least - F(below))
            if x["status"] == "absent" and below is not None
            else F(0)
        )
        x["payout"], x["big_fish_payout"] = prizes.get(x["boat"], F(0)), bigs.get(x["boat"], F(0))
    pots = []
    for one in p["side_pots"]:
        inside = [x for x in paid if x["boat"] in one["paid"]]
        amount, order = F(one["fee"]) * len(inside), []
        for x in (x for x in inside if x["place"]):
            full = [d["at"] for d in x["days"] if d["at"] and not d["lost"] and d["scale"] == int(r["fish_limit"])]
            by = {
                "big_fish": x["big_fish"] is not None and -x["big_fish"],
                "total": -x["total"],
                "first_limit": bool(full) and min(full),
                "youth_total": x["t"]["youth"] is True and -x["total"],
            }[one["wins"]]
            order += [] if by is False else [(by, x["boat"])]
        got = pot(amount, many(one["shares"]), order)
        pots.append({"name": one["name"], "amount": amount, "unclaimed": F(0) if got else amount, "payouts": got})
    return {
        "standings": rows,
        "side_pots": pots,
        "purse": {
            "paid_entries": len(paid),
            "purse": purse,
            "places_paid": n,
            "unclaimed": F(0) if winners else purse,
            "big_fish_pot": big,
            "big_fish_pot_unclaimed": F(0) if bigs else big,
        },
    }


if __name__ == "__main__":
    for row in result(json.loads(Path(sys.argv[1]).read_text(encoding="utf-8")))["standings"]:
        print(
            row["place"] or "-",
            row["boat"],
            row["team"],
            float(row["total"]),
            float(row["payout"]),
            float(row["points"]),
        )
