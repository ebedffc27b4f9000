// The bench card that is being worked through: kept in this browser with every tap, so that a reload in the middle of a
// clock loses nothing. Time is taken from the wall, never counted, so it goes on while the page sleeps.
import type { BenchStep, Expected, RebalanceAnswer } from "../wire";
import type { Box } from "./outbox";

export interface Clock {
  step: number;
  /** ISO 8601. */
  from: string;
  s: number;
}
/** What undoing goes back to. */
interface Before {
  at: number;
  clock: Clock | null;
  begun: Record<number, string>;
  /** The story as it was, as an address. */
  search: string;
  /** Ids of entries of readings of that step. */
  sent: string[];
  /** Ids of entries that were sent on leaving it. */
  entries: string[];
}
export interface Card {
  id: string;
  made_at: string;
  /** The story that it was made for, as an address. */
  search: string;
  title: string;
  steps: BenchStep[];
  expected: Expected[];
  /** What a pass lays on; none where the way has no liquid. */
  rinse: { liquid: string; name: string; g_m2: number; dwell_s: number; blotted_pct: number } | null;
  /** The step that is next; past the last one: all done. */
  at: number;
  clock: Clock | null;
  /** When each pass was begun. */
  begun: Record<number, string>;
  /** Ids of entries that were sent from this step. */
  sent: string[];
  past: Before[];
}

export function card_of(answer: RebalanceAnswer, id: string, now: string, search = ""): Card {
  const rinse = answer.ways.find((w) => w.recommended)?.rinse;
  return {
    id,
    made_at: now,
    search,
    title: answer.sentence,
    steps: answer.card,
    expected: answer.expected,
    rinse: rinse ? { liquid: rinse.liquid_id, name: rinse.liquid_name, g_m2: rinse.g_m2, dwell_s: rinse.dwell_s, blotted_pct: rinse.blotted_pct } : null,
    at: 0,
    clock: null,
    begun: {},
    sent: [],
    past: [],
  };
}
const begun_with = (card: Card, now: string): Record<number, string> => {
  const pass = card.steps[card.at]?.pass ?? 0;
  return pass > 0 && !card.begun[pass] ? { ...card.begun, [pass]: now } : card.begun;
};
export function started(card: Card, now: string): Card {
  const step = card.steps[card.at];
  return step?.clock_s > 0 ? { ...card, clock: { step: card.at, from: now, s: step.clock_s }, begun: begun_with(card, now) } : card;
}
/** Seconds still to go on the clock of this step; 0 when it is over; null while it was not started. */
export function left_s(card: Card, now_ms: number): number | null {
  if (!card.clock || card.clock.step !== card.at) return null;
  return Math.max(0, Math.ceil(card.clock.s - (now_ms - Date.parse(card.clock.from)) / 1000));
}
/** The pass that is finished with this step, and when it was begun; a reading after it belongs to what comes next. */
export function finishes(card: Card): number {
  const pass = card.steps[card.at]?.pass ?? 0;
  const last = card.steps.reduce((found, s, i) => (s.pass === pass && !s.reading ? i : found), -1);
  return pass > 0 && card.rinse && last === card.at ? pass : 0;
}
/** One step on; what stood before is remembered, with the story and what was sent. */
export function moved_on(card: Card, now: string, search: string, entries: string[] = []): Card {
  const before: Before = { at: card.at, clock: card.clock, begun: card.begun, search, sent: card.sent, entries };
  return { ...card, at: Math.min(card.at + 1, card.steps.length), clock: null, begun: begun_with(card, now), sent: [], past: [...card.past, before] };
}
/** One step back: the card and the story as they were, and the ids of entries that are to be taken back. */
export function undone(card: Card): { card: Card; search: string; entries: string[] } | null {
  const before = card.past[card.past.length - 1];
  if (!before) return null;
  const { search, entries, ...rest } = before;
  return { card: { ...card, ...rest, past: card.past.slice(0, -1) }, search, entries: [...entries, ...card.sent] };
}
/** What is expected of the reading that this step asks for: expectations are for the end, so the last readings have them. */
export function expected_at(card: Card, at: number): Expected | null {
  if (!card.steps[at]?.reading) return null;
  const after = card.steps.slice(at + 1).filter((s) => s.reading).length;
  return card.expected[card.expected.length - 1 - after] ?? null;
}
/** Minutes and seconds, hours before them where there are any. */
export function clock_text(s: number): string {
  const two = (n: number) => String(n).padStart(2, "0");
  const [h, m] = [Math.floor(s / 3600), Math.floor((s % 3600) / 60)];
  return h ? `${h}:${two(m)}:${two(s % 60)}` : `${m}:${two(s % 60)}`;
}

const most_kept = 20;
/** The newest cards are kept, older ones make room. */
export function keep_card(box: Box, card: Card): void {
  const ids = [card.id, ...card_ids(box).filter((id) => id !== card.id)];
  for (const old of ids.slice(most_kept)) box.removeItem(`card:${old}`);
  box.setItem(`card:${card.id}`, JSON.stringify(card));
  box.setItem("cards", JSON.stringify(ids.slice(0, most_kept)));
}
export function card_ids(box: Box): string[] {
  try {
    const list = JSON.parse(box.getItem("cards") ?? "[]") as string[];
    return Array.isArray(list) ? list : [];
  } catch {
    return [];
  }
}
export function kept_card(box: Box, id: string): Card | null {
  try {
    const card = JSON.parse(box.getItem(`card:${id}`) ?? "null") as Card | null;
    return card?.id === id && Array.isArray(card.steps) ? card : null;
  } catch {
    return null;
  }
}
