// What was entered and has not reached the program yet. It is written down in the browser before anything is sent, so
// that a closed tab, a dead battery or a stopped program loses nothing; the id of each entry makes sending again harmless.
import type { Entry } from "../wire";

export interface Waiting {
  entry: Entry;
  /** Why the program did not take it; it stays until it is mended or thrown away. */
  refused?: string;
}
/** As much of `Storage` as is needed. */
export interface Box {
  getItem(key: string): string | null;
  setItem(key: string, value: string): void;
  removeItem(key: string): void;
}
const key_of = (piece: string) => `outbox:${piece}`;

export function waiting(box: Box, piece: string): Waiting[] {
  try {
    const list = JSON.parse(box.getItem(key_of(piece)) ?? "[]") as Waiting[];
    return Array.isArray(list) ? list.filter((w) => w?.entry?.id) : [];
  } catch {
    return [];
  }
}
function write(box: Box, piece: string, list: Waiting[]): Waiting[] {
  if (list.length) box.setItem(key_of(piece), JSON.stringify(list));
  else box.removeItem(key_of(piece));
  return list;
}
export function put_in(box: Box, piece: string, entries: readonly Entry[]): Waiting[] {
  return write(box, piece, [...waiting(box, piece), ...entries.map((entry) => ({ entry }))]);
}
export function take_out(box: Box, piece: string, ids: readonly string[]): Waiting[] {
  return write(box, piece, waiting(box, piece).filter((w) => !ids.includes(w.entry.id ?? "")));
}
export function refuse(box: Box, piece: string, id: string, why: string): Waiting[] {
  return write(box, piece, waiting(box, piece).map((w) => (w.entry.id === id ? { ...w, refused: why } : w)));
}
/** Pieces that have something waiting. */
export function pieces_waiting(box: Storage): string[] {
  return Object.keys(box).filter((k) => k.startsWith("outbox:")).map((k) => k.slice(7));
}
/** Which of the sent entries a refusal is about: the program names it as entries[2].condition.term. */
export function refused_one(where: string, sent: readonly Entry[]): string {
  const at = /^entries\[(\d+)\]/.exec(where);
  return (at && sent[Number(at[1])]?.id) || "";
}

/** This browser, for telling two devices apart that did not know of each other. */
export function device(box: Box, fresh: () => string): string {
  const known = box.getItem("device");
  if (known) return known;
  const made = fresh();
  box.setItem("device", made);
  return made;
}

/** What is typed and not entered yet, kept with every key so that a closed tab loses nothing. */
export interface Draft {
  [field: string]: string;
}
export function draft(box: Box, piece: string): Draft {
  try {
    return (JSON.parse(box.getItem(`draft:${piece}`) ?? "{}") as Draft) ?? {};
  } catch {
    return {};
  }
}
export function keep_draft(box: Box, piece: string, d: Draft): void {
  const filled = Object.fromEntries(Object.entries(d).filter(([, v]) => v !== ""));
  if (Object.keys(filled).length) box.setItem(`draft:${piece}`, JSON.stringify(filled));
  else box.removeItem(`draft:${piece}`);
}
