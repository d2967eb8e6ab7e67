// What the site tells its pages, what devices keep, and what browsers have that the type checker does not know.

type Unit = "lb" | "lb-oz" | "kg";

// ---- the site's document ----

interface EventDay { day: number; date: string; start: string; due: string; status: string; flights: Record<string, string>; lake_temp?: string | null }
interface Entry { boat: number; team: string; anglers: string[]; flight: string; status?: string }
interface CheckIn { id: string; boat: number; day: number; checked_in?: string | null; minutes_late?: number | null; excused_minutes?: number | string | null; void?: boolean }
interface Called { boat: number; day: number; bag_issued: string; at_scales?: string | null }
interface EventDocument {
  event: { name: string; time_zone: string; weight_unit: Unit; closed: boolean; notice?: string | null; lake_temp?: string | null };
  days: EventDay[];
  rules: Record<string, string>;
  roster: Entry[];
  slips: Slip[];
  checkins: CheckIn[];
  called?: Called[];
  believable: { heaviest: string; lightest: string; words: string } | null;
  revision: number;
  server_time: string;
  life?: string;
  cursor?: string;
}
/** What was added to the document since a cursor; ``recalled``: the boats of which ``called`` tells anew, null for all. */
type EventChanges = Pick<EventDocument, "slips" | "checkins" | "revision" | "server_time" | "life" | "cursor"> & {
  gone: { slips: string[]; checkins: string[] };
  called: Called[];
  recalled: number[] | null;
}
/** The document as a device keeps it: when it was heard, and when it was last written. */
interface Held { document: EventDocument; etag: string | null; at: number; changed?: number }

// ---- a slip ----

interface BoatAndDay { boat: number | null; day: number | null }
interface Counts { fish: number; alive: number | null; dead: number | null; short: number | null }
/** A slip as it is sent, and as the site tells of it. */
interface Slip {
  id: string; boat: number; day: number;
  fish?: number; alive?: number | null; dead?: number | null; short?: number | null;
  gross?: string | null; tare?: string | null; big_fish?: string | null; big_fish_alive?: boolean | null; largest_weights?: string[];
  checked_in?: string | null; minutes_late?: number | null; excused_minutes?: number | null;
  weighed?: string; bag_issued?: string | null; well_boat?: number | null; official?: string | null; note?: string | null;
  replaces?: string | number | null; reason?: string | null; void?: boolean; slip?: number;
}
/** A slip as it is typed; ``late_ms`` is worked out from its check-in. */
interface Typed extends BoatAndDay, Counts {
  gross: string | null; tare: string | null; big_fish: string | null; big_fish_alive: boolean | null; largest_weights: string[];
  checked_in: string | null; minutes_late: number | null; excused_minutes: number | null; official: string | null; note: string | null;
  late_ms?: number; late?: [bigint, bigint]; extra_penalty?: string; extra_penalty_reason?: string; disqualified_reason?: string;
}
interface Doubt { field: string; words: string; label: string }
/** A slip that stands: the site's, or one of this tablet. */
interface Standing { slip: Slip; number?: number; record: SlipRecord | null }

// ---- scoring ----

/** The rule sheet: a key is read as what is asked for. */
interface RuleBook {
  unit: Unit;
  /** A weight of a slip. */
  reads(text: unknown): bigint;
  is(key: string, value: string): boolean;
  whole(key: string): number;
  minutes(key: string): bigint | null;
  weight(key: string): bigint;
  weights(key: string): bigint[];
}
interface ScoringFault { field: string; code: string; short?: number; fish?: number; taken?: number }
interface Deduction { reason: string; count: number; amount: string }
interface Scored {
  net: string; deductions: Deduction[]; bonus: string; total: string; onScale: number; weighed: number; bigFish: string | null;
  lost: string | null; minutes: number;
}
type Score = Scored | { faults: ScoringFault[] };

// ---- a proof ----

/** weighin-proof-1, as far as it was looked at: what a file says may be anything. */
interface ProofDay { day: number; date: string; start_time: string | null; due_time: string | null; status: string }
interface Proof {
  event: { slug: string; name: string; weight_unit: Unit; time_zone: string; start_time: string; due_time: string; days: ProofDay[]; entry_fee: string; added_money: string };
  rules: Record<string, string | null>;
  flights: { flight: string; day: number | null; due_time: string }[];
  side_pots: { name: string; fee: string; wins: string; shares: string; paid: number[] }[];
  teams: ProofTeam[];
  slips: Record<string, any>[];
  checkins: Record<string, any>[];
  result: { version: number | null } & ProofResult;
  ledger: { length: number; head: string };
  digest: string;
}
interface ProofTeam { boat: number; team: string; youth: boolean | null; status: string; paid: boolean; big_fish_pot: boolean; lot: number | null; flight: string | null }
interface ProofResult { standings: Record<string, any>[]; purse: Record<string, any>; side_pots: { name: string; amount: string; unclaimed: string; payouts: { boat: number; amount: string }[] }[] }
/** A slip of a proof as it counts: its score with weights as whole numbers of 10^-40. */
interface CountingSlip { boat: number; day: number; fish: number; alive: number; dead: number; weighed: bigint | null; score: ExactScore }
interface ExactScore {
  net: bigint; deductions: { reason: string; count: number; amount: bigint }[]; bonus: bigint; total: bigint; onScale: number; weighed: number;
  bigFish: bigint | null; lost: string | null;
}
/** A team over the event. */
interface TeamSum {
  team: ProofTeam; status: string; days: CountingSlip[]; fish: number; alive: number; dead: number; weighed: number; gross: bigint; penalty: bigint;
  bonus: bigint; total: bigint; bigFish: bigint | null; liveFish: number; doubled: Map<number, bigint>; place: number | null; tied: boolean;
}
/** The rules of a proof as its other parts need them. */
interface ProofRules { text(key: string): string; none(key: string): boolean; whole(key: string): number; exact(key: string): bigint; list(key: string): string[]; exacts(key: string): bigint[] }
interface ProofDifference { what: string; lines: string[] }
interface ProofVerdict {
  name: string; version: number | null; boats: number; slips: number; digest: { told: string; found: string; holds: boolean };
  result: ProofResult | null; differs: ProofDifference[];
}

// ---- what a device keeps ----

type State = "waiting" | "kept" | "already" | "differs" | "second" | "refused";
/** ``says`` is the whole sentence, with the labels of a page in it. */
interface SiteFault { field: string; message: string; says?: string }
interface Kept {
  id: string; state: State; keptAt: number; faults?: SiteFault[];
  number?: number; url?: string; answeredAt?: number; asideAt?: number; settled?: string; again?: boolean;
}
interface SlipRecord extends Kept { slip: Slip; team: string; eventName: string; total: string; of: string; note: string; initials: string; swap?: [number, number] }
interface NoteRecord extends Kept { note: CareNote; team: string; eventName: string; waits?: boolean }
interface CheckInRecord extends Kept { line: { id: string; boat: number; day: number; checked_in: string; whereabouts: string; official?: string } }
interface Store<R> {
  name: string; event: string;
  keep(record: R): Promise<void>;
  keepAll(records: R[]): Promise<void>;
  all(): Promise<R[]>;
  drop(id: string): Promise<void>;
  keepPapers(papers: Held): Promise<void>;
  papers(): Promise<Held | null>;
  sweep(closed: boolean): Promise<number>;
}
/** A place in the browser: IndexedDB or localStorage. */
interface Home {
  put(store: string, values: any[]): Promise<unknown>;
  all(store: string): Promise<any[]>;
  drop(store: string, key: string): Promise<unknown>;
}
/** How the site is reached: ``full`` where it answers and cannot write, ``barred`` why it takes nothing, ``off`` how many ms this
    clock is ahead of the site's, ``restored`` whether the site was put back to an older copy. */
interface Link { since: number | null; why: string; full: boolean; barred: string; off: number; restored: boolean; going: Set<string> }

// ---- the scale table's page ----

interface NextBoat { boat: number; says: string; heed?: boolean }
type RecordActs = Record<"mend" | "again" | "aside" | "copy", (record: SlipRecord) => unknown>;
type ChangeActs = Record<"correct" | "takeOut" | "swap", (record: SlipRecord) => unknown>;
interface QrCode { addData(text: string, mode: string): void; make(): void; getModuleCount(): number; isDark(row: number, column: number): boolean }
type QrMaker = (kind: number, level: string) => QrCode;

// ---- scales ----

interface Heard { text: string; unit: string; state: string; stable: boolean; raw: string }
interface ScaleReading { field: string; text: string; unit: string; raw: string; at: string }
interface Layout { frame?: boolean; patterns: string[]; written: string[]; heads: string[]; states: Record<string, string> }
interface Scale {
  name: string; in_use: boolean; layout: Layout | null;
  port: { baud: number; data_bits: 7 | 8; parity: string; stop_bits: 1 | 2; once: boolean; ask: string };
  now: (Heard & { age_seconds: number; why: string }) | null;
}
type ParityType = "none" | "even" | "odd";
interface SerialPort {
  readable: ReadableStream<Uint8Array> | null;
  writable: WritableStream<Uint8Array> | null;
  open(options: { baudRate: number; dataBits: 7 | 8; stopBits: 1 | 2; parity: ParityType }): Promise<void>;
  close(): Promise<void>;
}
interface Navigator { serial: { requestPort(): Promise<SerialPort> } }

// ---- care notes ----

interface CareValues {
  pump_ok?: boolean; aeration?: string; thermometer_ok?: boolean; ice_lb?: string; livewell_gal?: string; launched?: string; first_fish?: string;
  livewell_temp?: string; livewell_do?: string; culled?: number; catch_depth_ft?: string; deep_hooked?: number; barotrauma?: number;
  reflexes_absent?: number; reflexes_checked?: number; most_on_board?: number; note?: string;
}
type CareField = keyof CareValues;
type CareValue = CareValues[CareField];
interface CareNote extends CareValues { id: string; day: number; boat: number; official?: string; replaces?: string; reason?: string }
interface CareRow {
  boat: number; day: number; minutes_held: number | null; held_is_upper_bound: boolean | null; minutes_in_bag: number | null;
  checks_passed: string[]; checks_failed: string[]; live_count: number | null; dead_count: number | null;
}
interface RampDocument extends EventDocument {
  notes: CareNote[];
  sent: { id: string; day: number; boat: number; said: CareValues }[];
  care: CareRow[];
  fishing: { day: number; boats: number[] }[];
  waiting: string[];
}
interface BoatRow { boat: number; team: string; lacks: boolean; words: string; isWrong: boolean; where: [string, string, string] | null }

// ---- others' scripts ----

interface HtmxDetail { elt: Element; headers: Record<string, string>; xhr: XMLHttpRequest; successful: boolean }
interface Window { qrcode: QrMaker; htmx?: { trigger(part: Element, name: string): void } }
/** Django's catalogue of JavaScript's sentences, where a page has one. */
declare var django: { gettext(text: string): string; ngettext(one: string, many: string, n: number): string } | undefined;
