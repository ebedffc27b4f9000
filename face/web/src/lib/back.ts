// The story of a leather that is to be brought back, as one flat list of texts, so that the address bar can hold all of it:
// what was told (as on the page that judges), what was read, what was done since, how it stands now.
import type { Asked, Look, Pass, RebalanceRequest, RefineRequest } from "../wire";
import { parse_area_cm2, parse_number, parse_pct, parse_time_s, type Read } from "./amount";
import { duration } from "./format";
import { build, field_of, type Form, type Known } from "./request";

/** What the program takes while a field is left alone, to show it beside the field; a browser journey holds them against it. */
export const back_defaults: Form = { ago: "1 day", weak: "0 %", chance: "90 %", drops_ml: "1", drops_pct: "5", drop_ml: "0.05", drops_end: "5.5" };

const hour_ms = 3600e3;
const tidy = (hours: number) => Number(hours.toFixed(2));
/** A span as people say it: hours when bare. */
export function parse_hours(text: string): Read<number> {
  const bare = /^[\d.,\s]+$/.test(text) ? `${text} h` : text.replace(/\bweeks?\b/i, "w");
  const weeks = /^(.*?)\s*w$/i.exec(bare.trim());
  const read = parse_time_s(weeks ? `${weeks[1]} days` : bare);
  if (!read.ok) return { ok: false, why: "Write a time like “3 days”, “5 h” or “20 min”." };
  return { ok: true, value: tidy(((weeks ? 7 : 1) * read.value) / 3600) };
}
/** Hours since the first wetting: as it was told, and what has gone by since. */
export function hours_since(form: Form, now_ms: number): number {
  const ago = parse_hours(form.ago?.trim() || back_defaults.ago);
  const told = Date.parse(form.told ?? "");
  return tidy((ago.ok ? ago.value : 24) + (Number.isFinite(told) ? Math.max(0, (now_ms - told) / hour_ms) : 0));
}
/** To the minute, as it stands in the address. */
export const minute = (now_ms: number) => new Date(now_ms).toISOString().slice(0, 16) + "Z";
/** Hours after the first wetting, as people say them beside what is now. */
export function said_when(at_h: number, now_h: number): string {
  const gone = now_h - at_h;
  if (at_h <= 0) return "before it happened";
  if (Math.abs(gone) < 0.1) return "now";
  return gone > 0 ? `${duration(gone * 3600)} ago` : `in ${duration(-gone * 3600)}`;
}

/** Numbers of the rows r0_…, r1_… or p0_… that are there, in their order; a row that was taken out leaves a gap. */
export function rows_of(form: Form, letter: "r" | "p"): number[] {
  const found = Object.keys(form).map((k) => new RegExp(`^${letter}(\\d+)_`).exec(k)).filter((m): m is RegExpExecArray => m !== null);
  return [...new Set(found.map((m) => Number(m[1])))].sort((a, b) => a - b);
}
const next_row = (form: Form, letter: "r" | "p") => Math.max(-1, ...rows_of(form, letter)) + 1;
const row_keys = (form: Form, letter: "r" | "p", row: number) => Object.keys(form).filter((k) => k.startsWith(`${letter}${row}_`));
export function without_row(form: Form, letter: "r" | "p", row: number): Form {
  const gone = new Set(row_keys(form, letter, row));
  return Object.fromEntries(Object.entries(form).filter(([k]) => !gone.has(k)));
}
const put = (form: Form, start: string, row: Record<string, string | number | null | undefined>): Form => ({
  ...form,
  ...Object.fromEntries(Object.entries(row).filter(([, v]) => v !== undefined && v !== null && v !== "").map(([k, v]) => [`${start}${k}`, String(v)])),
});
export function with_reading(form: Form, look: Look): Form {
  const d = look.drops;
  return put(form, `r${next_row(form, "r")}_`, { kind: look.kind, value: look.value_1, pm: look.plus_minus_1, at: look.at_h, pass: look.pass || undefined, note: look.note, ml: d?.product_ml, pct: d?.acid_pct, drop: d?.drop_ml, end: d?.end_ph });
}
/** A pass of a liquid of the shelf. */
export interface Done {
  liquid: string;
  g_m2: number;
  dwell_s: number;
  blotted_pct: number;
  at_h: number;
}
const over_h = (passes: Done[]) => Math.max(0, ...passes.map((p) => p.at_h + p.dwell_s / 3600));
/** A pass as early as it can have begun to be over by now: who works faster than the card's clocks did it all the same. */
export const over_by = (now_h: number, pass: Done, before: Done[]): Done => ({ ...pass, at_h: Math.max(over_h(before), Math.min(pass.at_h, now_h - pass.dwell_s / 3600)) });
/** Hours since the first wetting; what was done is over. */
export const now_of = (form: Form, now_ms: number): number => Math.max(hours_since(form, now_ms), over_h(passes_of(form).map((p) => p.value)));
export function with_pass(form: Form, pass: Done): Form {
  return put(form, `p${next_row(form, "p")}_`, { liquid: pass.liquid, g: pass.g_m2, dwell: pass.dwell_s, blot: pass.blotted_pct, at: pass.at_h });
}

const number_of = (text: string | undefined): number | undefined => {
  const read = parse_number(text ?? "");
  return read.ok ? read.value : undefined;
};
export interface Row<T> {
  row: number;
  value: T;
}
export function looks_of(form: Form): Row<Look>[] {
  return rows_of(form, "r").flatMap((row) => {
    const at = (k: string) => form[`r${row}_${k}`];
    const value_1 = number_of(at("value"));
    if (!at("kind") || value_1 === undefined) return [];
    const drops = at("kind") === "product_drops";
    const look: Look = {
      kind: at("kind"),
      value_1,
      ...(number_of(at("pm")) === undefined ? {} : { plus_minus_1: number_of(at("pm")) }),
      at_h: number_of(at("at")) ?? 0,
      ...(number_of(at("pass")) === undefined ? {} : { pass: number_of(at("pass")) }),
      ...(at("note") ? { note: at("note") } : {}),
      ...(drops ? { drops: { product_ml: number_of(at("ml")) ?? 1, acid: "acetic acid", acid_pct: number_of(at("pct")) ?? 5, drop_ml: number_of(at("drop")) ?? 0.05, end_ph: number_of(at("end")) ?? 5.5 } } : {}),
    };
    return [{ row, value: look }];
  });
}
export function passes_of(form: Form): Row<Done>[] {
  return rows_of(form, "p").flatMap((row) => {
    const at = (k: string) => form[`p${row}_${k}`];
    const n = (k: string) => number_of(at(k));
    const [g_m2, dwell_s, blotted_pct, at_h] = [n("g"), n("dwell"), n("blot"), n("at")];
    if (!at("liquid") || g_m2 === undefined || dwell_s === undefined || blotted_pct === undefined || at_h === undefined) return [];
    return [{ row, value: { liquid: at("liquid"), g_m2, dwell_s, blotted_pct, at_h } }];
  });
}
export const list_of = (form: Form, key: string): string[] => (form[key] ?? "").split(",").filter(Boolean);
export const toggled = (form: Form, key: string, word: string): string => {
  const on = list_of(form, key);
  return (on.includes(word) ? on.filter((w) => w !== word) : [...on, word]).join(",");
};

export interface Told<T> {
  request: T | null;
  problems: Record<string, string>;
}
/** Nothing was laid on: the program does not read the liquid then, but a story has one. */
const no_liquid = { name: "nothing laid on", label_known: true, ingredients: [] };
const strip = (unit: RegExp) => (text: string) => parse_number(text.replace(unit, ""));
const per_area = strip(/\s*g\s*\/\s*m[2²]$/i);

/** What happened, what was read, what was done since. */
export function build_refine(form: Form, known: Known | undefined, now_ms: number): Told<RefineRequest> {
  const nothing = form.nothing === "yes";
  const { request, problems } = build(nothing ? { ...form, liquid: "unlabelled", meets: "" } : form, known);
  if (form.ago?.trim()) {
    const ago = parse_hours(form.ago);
    if (!ago.ok) problems.ago = ago.why;
  }
  if (!request || Object.keys(problems).length) return { request: null, problems };
  const now_h = now_of(form, now_ms);
  // A reading was taken by now: hours in the address are rounded.
  const readings = looks_of(form).map((r) => ({ ...r.value, at_h: Math.min(r.value.at_h ?? 0, now_h) }));
  const passes = passes_of(form).map(({ value }): Pass => ({ liquid: { id: value.liquid }, g_m2: value.g_m2, dwell_s: value.dwell_s, blotted_pct: value.blotted_pct, at_h: value.at_h }));
  return {
    request: {
      happened: nothing ? { ...request, liquid: no_liquid } : request,
      ...(nothing ? { nothing_laid: true } : {}),
      ...(readings.length ? { readings } : {}),
      ...(passes.length ? { passes } : {}),
      now_h,
      ...(form.piece ? { piece: form.piece } : {}),
      ...(form.piece && form.panel ? { panel: form.panel } : {}),
    },
    problems,
  };
}
/** The same with how the leather stands now and what is wished of the plan. */
export function build_rebalance(form: Form, known: Known | undefined, now_ms: number): Told<RebalanceRequest> {
  const { request, problems } = build_refine(form, known, now_ms);
  const read = <T>(key: string, parse: (text: string) => Read<T>): T | undefined => {
    const text = form[key]?.trim();
    if (!text) return undefined;
    const r = parse(text);
    if (r.ok) return r.value;
    problems[key] = r.why;
    return undefined;
  };
  const out: Asked<Omit<RebalanceRequest, "known">> = {};
  const fill = (key: "area_cm2" | "fibre_weak_pct" | "chance_pct" | "window_low_ph" | "window_high_ph" | "pass_g_m2" | "day_g_m2" | "spot_g_m2", field: string, parse: (t: string) => Read<number>) => {
    const v = read(field, parse);
    if (v !== undefined) out[key] = v;
  };
  fill("area_cm2", "treat", (t) => parse_area_cm2(t, "cm2"));
  fill("fibre_weak_pct", "weak", parse_pct);
  fill("chance_pct", "chance", parse_pct);
  fill("window_low_ph", "win_low", strip(/^\s*ph\s*/i));
  fill("window_high_ph", "win_high", strip(/^\s*ph\s*/i));
  fill("pass_g_m2", "pass_g", per_area);
  fill("day_g_m2", "day_g", per_area);
  if (form.wet === "yes") out.still_wet = true;
  if (form.tacky === "yes") out.tacky = true;
  if (form.spot === "yes") {
    out.spot_passed = true;
    fill("spot_g_m2", "spot_g", per_area);
  }
  const lists = { rinses: list_of(form, "rinses"), history: list_of(form, "did") };
  for (const [key, list] of Object.entries(lists)) if (list.length) out[key as keyof typeof lists] = list;
  // What was wetted is what is treated, unless somebody says otherwise.
  if (out.area_cm2 === undefined && request?.happened.use?.dose?.area_cm2 !== undefined) out.area_cm2 = request.happened.use.dose.area_cm2;
  return { request: request && !Object.keys(problems).length ? { known: request, ...out } : null, problems };
}

const own_fields: Record<string, string> = { area_cm2: "treat", fibre_weak_pct: "weak", chance_pct: "chance", window_low_ph: "win_low", window_high_ph: "win_high", pass_g_m2: "pass_g", day_g_m2: "day_g", spot_g_m2: "spot_g", now_h: "ago" };
/** The field that a `where` of the program means; empty when there is none. */
export function back_field_of(where: string, form: Form): string {
  const path = where.replace(/^\//, "").replace(/\//g, ".").replace(/\[(\d+)\]/g, ".$1").replace(/^known\./, "");
  const row = /^(readings|passes)\.(\d+)(?:\.(.*))?$/.exec(path);
  if (row) {
    const letter = row[1] === "readings" ? "r" : "p";
    return `${letter}${rows_of(form, letter)[Number(row[2])] ?? row[2]}_value`;
  }
  if (own_fields[path]) return own_fields[path];
  return field_of(path.replace(/^happened\./, ""), form);
}
const state_fields = new Set(["treat", "wet", "tacky", "spot", "spot_g", "weak", "did", "chance", "win_low", "win_high", "pass_g", "day_g", "rinses"]);
/** The step of the page that a field stands in. */
export function back_step_of(field: string): string {
  if (/^r\d+_/.test(field)) return "read";
  if (/^p\d+_/.test(field)) return "done";
  if (state_fields.has(field)) return "state";
  if (field === "ago") return "use";
  return "";
}

/** What of an address is about this page only: the rest goes on to the page that judges. */
const own_keys = /^(nothing|ago|told|r\d+_\w+|p\d+_\w+|treat|wet|tacky|spot|spot_g|weak|did|may|chance|win_low|win_high|pass_g|day_g|rinses|piece|panel|card)$/;
export const judged_part = (form: Form): Form => Object.fromEntries(Object.entries(form).filter(([k]) => !own_keys.test(k)));
