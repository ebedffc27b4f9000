// What people type, read as they mean it: decimal comma or point, with or without the unit. What cannot be read one way
// only is sent back with the remedy. Nothing here decides whether an amount is wise; the server does.
export type Read<T> = { ok: true; value: T } | { ok: false; why: string };
const yes = <T>(value: T): Read<T> => ({ ok: true, value });
const no = <T>(why: string): Read<T> => ({ ok: false, why });

/** An open hand with closed fingers, as the trade estimates areas. */
export const hand_cm2 = 175;

/** A number with decimal comma or point and thin or plain spaces between groups. */
export function parse_number(text: string): Read<number> {
  const t = text.trim().replace(/[\s\u00a0\u202f]/g, "").replace("\u2212", "-");
  if (!t) return no("Type a number.");
  if (/^-?[1-9]\d{0,2}(,\d{3})$/.test(t)) {
    return no(`“${text.trim()}” can be read two ways. Write ${t.replace(",", "")} or ${t.replace(",", ".").replace(/0+$/, "").replace(/\.$/, "")}.`);
  }
  const dotted = /^-?[1-9]\d{0,2}(,\d{3})+\.\d+$/.test(t) ? t.replace(/,/g, "") : t.replace(",", ".");
  if (!/^-?(\d+\.?\d*|\.\d+)$/.test(dotted)) return no(`“${text.trim()}” is not a number. Write it like 2.5 or 2,5.`);
  return yes(Number(dotted));
}

function split(text: string): [string, string] {
  const m = /^\s*(-?[\d.,\s\u00a0\u202f\u2212]*\d)\s*(.*?)\s*$/.exec(text);
  return m ? [m[1], m[2].toLowerCase().replace(/\.$/, "")] : ["", text.trim().toLowerCase()];
}
function measured(text: string, units: Record<string, number>, plain: string, remedy: string): Read<number> {
  const [figure, unit] = split(text);
  if (!figure) return no(text.trim() ? `“${text.trim()}” has no number. ${remedy}` : remedy);
  const read = parse_number(figure);
  if (!read.ok) return read;
  const factor = units[unit === "" ? plain : unit];
  return factor === undefined ? no(`“${unit}” is no unit for this. ${remedy}`) : yes(Number((read.value * factor).toPrecision(12)));
}

const area_units: Record<string, number> = {
  hand: hand_cm2, hands: hand_cm2, "cm²": 1, cm2: 1, "m²": 1e4, m2: 1e4, "dm²": 100, dm2: 100,
  "in²": 6.4516, in2: 6.4516, "sq in": 6.4516, "ft²": 929.0304, ft2: 929.0304, "sq ft": 929.0304,
};
/** Area in cm²; a bare number is in the unit shown beside the field. */
export const parse_area_cm2 = (text: string, plain: "hands" | "cm2") =>
  measured(text, area_units, plain, "Write hands or cm², like “5 hands” or “900 cm²”.");

const time_units: Record<string, number> = {
  s: 1, sec: 1, second: 1, seconds: 1, min: 60, mins: 60, minute: 60, minutes: 60, h: 3600, hour: 3600, hours: 3600, d: 86400, day: 86400, days: 86400,
};
/** Time in seconds; a bare number is minutes. */
export const parse_time_s = (text: string) => measured(text, time_units, "min", "Write a time like “2 min”, “90 s” or “1 h”.");

export const parse_pct = (text: string) => measured(text, { "%": 1, pct: 1, percent: 1, "per cent": 1 }, "%", "Write a share like “2.5 %”.");

export interface Count {
  amount: "grams" | "sprays" | "cloth_wipes";
  count: number;
}
const count_units: Record<string, [Count["amount"], number]> = {
  g: ["grams", 1], gram: ["grams", 1], grams: ["grams", 1], kg: ["grams", 1000], oz: ["grams", 28.349523125],
  ml: ["grams", 1], tsp: ["grams", 5], tbsp: ["grams", 15],
  spray: ["sprays", 1], sprays: ["sprays", 1], wipe: ["cloth_wipes", 1], wipes: ["cloth_wipes", 1],
};
/** Grams on a square metre: how much that is follows from the area. */
const per_area = new Set(["g/m2", "g/m²", "ml/m2", "ml/m²"]);
/** How much: a bare number counts what is chosen beside the field; a typed unit wins. Millilitres and spoons (5 and
 *  15 mL, metric) are taken as grams, as for water; “50 g/m2” is counted out for the area beside it. */
export function parse_count(text: string, plain: Count["amount"], area_cm2 = 0): Read<Count> {
  const remedy = "Write a number, or one with its unit: “5 sprays”, “10 g”, “2 tsp”, “50 g/m2”.";
  const [figure, unit] = split(text);
  if (!figure) return no(remedy);
  const read = parse_number(figure);
  if (!read.ok) return read;
  if (per_area.has(unit.replace(/\s/g, ""))) {
    if (!(area_cm2 > 0)) return no("Say on what area first; then grams on a square metre can be counted out.");
    return yes({ amount: "grams", count: Number(((read.value * area_cm2) / 1e4).toPrecision(12)) });
  }
  const found = unit === "" ? ([plain, 1] as const) : count_units[unit];
  return found ? yes({ amount: found[0], count: Number((read.value * found[1]).toPrecision(12)) }) : no(`“${unit}” is no amount here. ${remedy}`);
}

/** Dilution as parts of water to one part of product: “neat”, “1:10”, “10”, “5 %”. */
export function parse_parts_water(text: string): Read<number> {
  const remedy = "Write “neat”, “1:10” (one part product, ten parts water) or “5 %”.";
  const t = text.trim().toLowerCase();
  if (t === "neat" || t === "undiluted") return yes(0);
  const ratio = /^(.+?)\s*(?::|\bto\b)\s*(.+)$/.exec(t);
  if (ratio) {
    const product = parse_number(ratio[1]);
    const water = parse_number(ratio[2]);
    if (!product.ok || !water.ok || !(product.value > 0)) return no(remedy);
    return yes(Number((water.value / product.value).toPrecision(12)));
  }
  if (t.endsWith("%")) {
    const share = parse_pct(t);
    if (!share.ok) return share;
    if (!(share.value > 0) || share.value > 100) return no("A share of product lies above 0 % and up to 100 %.");
    return yes(Number((100 / share.value - 1).toPrecision(12)));
  }
  const parts = parse_number(t.replace(/\s*parts?( of water)?$/, ""));
  return parts.ok ? parts : no(`“${text.trim()}” is no dilution. ${remedy}`);
}
export function write_parts_water(parts: number): string {
  return parts === 0 ? "neat" : `1:${Number(parts.toPrecision(4))}`;
}
export function write_time(seconds: number): string {
  if (seconds < 60 || seconds % 60) return `${seconds} s`;
  return seconds % 3600 ? `${seconds / 60} min` : `${seconds / 3600} h`;
}

export interface Span {
  from: number;
  /** Only where a range was written. */
  to?: number;
}
/** One figure or a range as data sheets print it: “2.5”, “1 to 5”, “1–5 %”, “≥ 1 - < 5 %”; “< 5” begins at `lowest`,
 *  “> 30” ends at `highest`, where those are given. */
export function parse_span(text: string, parse: (text: string) => Read<number>, lowest?: number, highest?: number): Read<Span> {
  const t = text.trim();
  const bare = (part: string) => part.replace(/^\s*[<>≤≥]=?\s*/, "");
  const two = /^([<>≤≥=\s]*-?\d.*?)\s*(?:–|—|…|\.\.\.?|\bto\b|-)\s*([<>≤≥=\s]*\d.*)$/i.exec(t);
  if (two) {
    const from = parse(bare(two[1]));
    if (!from.ok) return from;
    const to = parse(bare(two[2]));
    if (!to.ok) return to;
    if (to.value < from.value) return no("Write the smaller figure first, like “1 to 5”.");
    return yes(to.value > from.value ? { from: from.value, to: to.value } : { from: from.value });
  }
  const one = parse(bare(t));
  if (!one.ok) return one;
  if (/^[<≤]/.test(t) && lowest !== undefined) return yes({ from: lowest, to: one.value });
  if (/^[>≥]/.test(t) && highest !== undefined) return yes({ from: one.value, to: highest });
  return /^[<>≤≥]/.test(t) ? no("Write both ends, like “10 to 11”.") : yes({ from: one.value });
}
export function write_span(from: number, to: number | null | undefined): string {
  return to == null ? String(from) : `${from} to ${to}`;
}
