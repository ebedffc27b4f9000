// What can be moved below an answer, and the places a slider stops at: fine where a little counts, wide where it does
// not. A typed figure between them is kept. What a place means is for the program to say.
import { use_defaults, type Amount, type Asked, type Use } from "../wire";
import { write_parts_water, write_time } from "./amount";

export interface Dial {
  /** Field of the form. */
  key: "count" | "dwell" | "wiped" | "dilution" | "rinse";
  label: string;
  stops: readonly number[];
  value: number;
  /** A place as it is written into the field. */
  write: (value: number) => string;
}
const five_to_95 = Array.from({ length: 20 }, (_, i) => 5 * i);
const stops = {
  pieces: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 15, 20, 25, 30, 40],
  grams: [0.5, 1, 2, 3, 4, 5, 7, 10, 15, 20, 30, 50, 75, 100],
  dwell: [2, 5, 10, 20, 30, 60, 120, 180, 300, 600, 900, 1800, 3600, 7200, 4 * 3600, 8 * 3600, 24 * 3600],
  wiped: [...five_to_95, 99],
  dilution: [0, 1, 2, 3, 4, 5, 7, 9, 12, 15, 20, 30, 50, 100],
  rinse: [0, 1, 2, 3, 4, 5],
};
/** The use that a form stands for: what was given, over the defaults. */
export function whole_use(given: Asked<Use> = {}): Use {
  return { ...use_defaults, ...given, dose: { ...use_defaults.dose, ...given.dose }, rinse: { ...use_defaults.rinse, ...given.rinse } } as Use;
}
export function dials(given: Asked<Use> = {}, words: Record<Amount, string>): Dial[] {
  const u = whole_use(given);
  return [
    { key: "count", label: `How many ${words[u.dose.amount]}`, stops: u.dose.amount === "grams" ? stops.grams : stops.pieces, value: u.dose.count, write: String },
    { key: "dwell", label: "Time to wiping", stops: stops.dwell, value: u.dwell_s, write: write_time },
    { key: "wiped", label: "Share wiped off", stops: stops.wiped, value: u.wiped_off_pct, write: (v) => `${v} %` },
    { key: "dilution", label: "Parts of water to one", stops: stops.dilution, value: u.parts_water, write: write_parts_water },
    { key: "rinse", label: "Rinsed, times", stops: stops.rinse, value: u.rinse.passes, write: String },
  ];
}
/** The stop nearest to a value. */
export function stop_of(all: readonly number[], value: number): number {
  return all.reduce((best, s, i) => (Math.abs(s - value) < Math.abs(all[best] - value) ? i : best), 0);
}

export interface Way {
  key: string;
  /** On its button, and as the name of its row. */
  name: string;
  /** What it changes in the form. */
  form: Record<string, string>;
  change: (given: Asked<Use>) => Asked<Use>;
}
export const as_asked = "as asked";
/** Ways of doing it otherwise, one tap each. */
export const ways: Way[] = [
  { key: "rinse", name: "rinse twice with clean water", form: { rinse: "2" }, change: (u) => ({ ...u, rinse: { ...u.rinse, passes: 2 } }) },
  { key: "wipe", name: "wipe it off at once", form: { dwell: "5 s" }, change: (u) => ({ ...u, dwell_s: 5 }) },
  { key: "thin", name: "one part in ten", form: { dilution: "1:9" }, change: (u) => ({ ...u, parts_water: 9 }) },
];
