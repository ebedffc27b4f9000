// From what was typed to a request. The form is one flat list of texts, so that the address bar can hold all of it;
// what was left alone is left out, and the server fills it in and says so.
import { use_defaults, type Amount, type Asked, type Ingredient, type JudgeRequest, type Leather, type Liquid, type Use } from "../wire";
import { amount_words } from "../words";
import { parse_area_cm2, parse_count, parse_number, parse_parts_water, parse_pct, parse_span, parse_time_s, write_parts_water, write_span, write_time, type Read } from "./amount";

export type Form = Record<string, string>;

/** What each field of use shows while it is left alone. */
export const shown_defaults: Form = {
  dilution: write_parts_water(use_defaults.parts_water),
  hardness: String(use_defaults.hardness_mg_l),
  amount: use_defaults.dose.amount,
  count: String(use_defaults.dose.count),
  area: `${use_defaults.dose.area_cm2} cm²`,
  dwell: write_time(use_defaults.dwell_s),
  wiped: `${use_defaults.wiped_off_pct} %`,
  rinse: String(use_defaults.rinse.passes),
  repeats: String(use_defaults.repeats),
  interval: `${use_defaults.interval_h} h`,
  rest: `${use_defaults.rest_h} h`,
  air_c: String(use_defaults.air_c),
  humidity: `${use_defaults.humidity_pct} %`,
  air_speed: String(use_defaults.air_speed_m_s),
};

/** What can be read of a liquid and of a piece; a reading goes with a record of the shelf as well as with an own one. */
export const liquid_readings = ["read_ph", "read_ph_tenfold"];
export const leather_readings = ["surface_ph", "water_drop", "thickness", "finish", "extract_ph", "shrinkage"];

const field_paths: Record<string, string> = {
  "liquid.stated_ph": "stated_ph",
  "liquid.stated_ph_to": "stated_ph",
  "liquid.read_ph": "read_ph",
  "liquid.read_ph_tenfold": "read_ph_tenfold",
  "liquid.name": "own_name",
  "liquid.family": "own_family",
  "leather.name": "own_leather",
  "leather.leather_class": "class",
  "leather.tannage": "tannage",
  "leather.thickness_mm": "thickness",
  "leather.finish_um": "finish",
  "leather.surface_ph": "surface_ph",
  "leather.extract_ph": "extract_ph",
  "leather.shrinkage_c": "shrinkage",
  "leather.water_drop": "water_drop",
  "use.parts_water": "dilution",
  "use.hardness_mg_l": "hardness",
  "use.dose.amount": "count",
  "use.dose.count": "count",
  "use.dose": "count",
  "use.dose.area_cm2": "area",
  "use.dwell_s": "dwell",
  "use.wiped_off_pct": "wiped",
  "use.rinse.passes": "rinse",
  "use.rinse": "rinse",
  "use.repeats": "repeats",
  "use.interval_h": "interval",
  "use.rest_h": "rest",
  "use.air_c": "air_c",
  "use.humidity_pct": "humidity",
  "use.air_speed_m_s": "air_speed",
};
/** The field of the form that a `where` of the server means; empty when there is none. */
export function field_of(where: string, form: Form = {}): string {
  const path = where.replace(/^\//, "").replace(/\//g, ".").replace(/\[(\d+)\]/g, ".$1");
  const row = /^liquid\.ingredients\.(\d+)(?:\.(\w+))?$/.exec(path);
  if (row) return `i${used_rows(form)[Number(row[1])] ?? row[1]}_${({ name: "name", cas: "cas", content_pct: "pct", content_to_pct: "pct" } as Record<string, string>)[row[2] ?? "name"] ?? "name"}`;
  if (path === "liquid.ingredients") return "i0_name";
  if (field_paths[path]) return field_paths[path];
  if (path === "liquid" || path === "liquid.id") return "liquid";
  if (path === "leather" || path === "leather.id") return "leather";
  return "";
}
/** The step of the page that a field stands in. */
export function step_of(field: string): string {
  if (/^(i\d+_|own_name$|own_family$|stated_ph$|read_ph|liquid$|meets$)/.test(field)) return "liquid";
  if (["own_leather", "class", "tannage", "leather", ...leather_readings].includes(field)) return "leather";
  return "use";
}

/** How many ingredient rows the form holds. */
export function row_count(form: Form): number {
  const used = Object.keys(form).map((k) => /^i(\d+)_/.exec(k)).filter((m): m is RegExpExecArray => m !== null);
  return used.length ? Math.max(...used.map((m) => Number(m[1]))) + 1 : 0;
}

/** The rows that go into the request, in order; empty ones are passed over. */
export function used_rows(form: Form): number[] {
  const filled = (i: number) => ["name", "cas", "pct"].some((k) => form[`i${i}_${k}`]?.trim());
  return Array.from({ length: row_count(form) }, (_, i) => i).filter(filled);
}

export interface Built {
  request: JudgeRequest | null;
  problems: Record<string, string>;
}
/** What is on the shelf, for readings that go with a record of it. */
export interface Known {
  liquids: readonly Liquid[];
  leathers: readonly Leather[];
}
export function build(form: Form, known?: Known): Built {
  const problems: Record<string, string> = {};
  const read = <T>(key: string, parse: (text: string) => Read<T>): T | undefined => {
    const text = form[key]?.trim();
    if (!text) return undefined;
    const r = parse(text);
    if (r.ok) return r.value;
    problems[key] = r.why;
    return undefined;
  };
  const liquid = read_liquid(form, read, problems, known);
  const leather = read_leather(form, read, known);
  const use = read_use(form, read);
  const meets = (form.meets ?? "").split(",").filter(Boolean);
  const ready = liquid && leather && Object.keys(problems).length === 0;
  return { request: ready ? { liquid, leather, ...(Object.keys(use).length ? { use } : {}), ...(meets.length ? { meets } : {}), ...(form.piece && form.panel ? { piece: form.piece, panel: form.panel } : {}) } : null, problems };
}

type Reader = <T>(key: string, parse: (text: string) => Read<T>) => T | undefined;

const bare_ph = (text: string) => parse_number(text.replace(/^\s*ph\s*/i, ""));
/** A pH or a range of pH: “11”, “pH 10,5 to 11”. */
export const parse_ph_span = (text: string) => parse_span(text.replace(/^\s*ph\s*/i, ""), bare_ph);
/** A record without what it leaves open, so that nothing of it counts as said. */
function said_of<T extends object>(record: T): Asked<T> {
  const filled = ([, v]: [string, unknown]) => v !== null && v !== "" && v !== "not_done";
  const strip = (v: unknown): unknown => (Array.isArray(v) ? v.map(strip) : typeof v === "object" && v !== null ? Object.fromEntries(Object.entries(v).filter(filled).map(([k, w]) => [k, strip(w)])) : v);
  return strip(record) as Asked<T>;
}
/** A record of the shelf, with what was read besides; null while the shelf has not told it yet. */
function with_readings<T extends { id: string }>(id: string, readings: Asked<T>, records: readonly T[] | undefined): Asked<T> | null {
  if (!Object.keys(readings).length) return { id } as Asked<T>;
  if (!records) return { id, ...readings } as Asked<T>;
  const record = records.find((r) => r.id === id);
  return record ? { ...said_of(record), ...readings } : null;
}

function read_liquid(form: Form, read: Reader, problems: Record<string, string>, known?: Known): Asked<Liquid> | null {
  if (!form.liquid) return null;
  const readings: Asked<Liquid> = {};
  for (const key of ["read_ph", "read_ph_tenfold"] as const) {
    const v = read(key, bare_ph);
    if (v !== undefined) readings[key] = v;
  }
  if (form.liquid === "unlabelled") return { name: "product without a label", label_known: false, ingredients: [], ...readings };
  if (form.liquid !== "own") return with_readings<Liquid>(form.liquid, readings, known?.liquids);
  const ingredients: Asked<Ingredient>[] = [];
  for (const i of used_rows(form)) {
    const name = form[`i${i}_name`]?.trim() ?? "";
    const cas = form[`i${i}_cas`]?.trim() ?? "";
    const content = read(`i${i}_pct`, (t) => parse_span(t, parse_pct, 0, 100));
    if (!name && !cas) problems[`i${i}_name`] = "Write the name or the CAS number from the data sheet.";
    if (!form[`i${i}_pct`]?.trim()) problems[`i${i}_pct`] = "Write how much of it, like “2.5 %” or “1 to 5 %”.";
    ingredients.push({ name: name || cas, cas, ...(content === undefined ? {} : { content_pct: content.from }), ...(content?.to === undefined ? {} : { content_to_pct: content.to }) });
  }
  const stated = read("stated_ph", (t) => parse_ph_span(t));
  if (!ingredients.length && stated === undefined && !Object.keys(readings).length) return null;
  return {
    name: form.own_name?.trim() || "own liquid",
    ...(form.own_family?.trim() ? { family: form.own_family.trim() } : {}),
    label_known: true,
    ingredients,
    ...(stated === undefined ? {} : { stated_ph: stated.from }),
    ...(stated?.to === undefined ? {} : { stated_ph_to: stated.to }),
    ...readings,
  };
}

function read_leather(form: Form, read: Reader, known?: Known): Asked<Leather> | null {
  if (!form.leather) return null;
  const readings: Asked<Leather> = {};
  const strip = (unit: RegExp) => (text: string) => parse_number(text.replace(unit, ""));
  const put = (key: "thickness_mm" | "finish_um" | "surface_ph" | "extract_ph" | "shrinkage_c", field: string, unit: RegExp) => {
    const v = read(field, strip(unit));
    if (v !== undefined) readings[key] = v;
  };
  put("thickness_mm", "thickness", /\s*mm$/i);
  put("finish_um", "finish", /\s*[µuμ]m$/i);
  put("surface_ph", "surface_ph", /^\s*ph\s*/i);
  put("extract_ph", "extract_ph", /^\s*ph\s*/i);
  put("shrinkage_c", "shrinkage", /\s*°?\s*c$/i);
  if (form.water_drop && form.water_drop !== "not_done") readings.water_drop = form.water_drop as Leather["water_drop"];
  if (form.leather !== "own") return with_readings<Leather>(form.leather, readings, known?.leathers);
  if (!form.class) return null;
  return { name: form.own_leather?.trim() || "own leather", leather_class: form.class, ...(form.tannage ? { tannage: form.tannage } : {}), ...(form.decayed === "yes" ? { decayed: true } : {}), ...readings };
}

function read_use(form: Form, read: Reader): Asked<Use> {
  const use: Asked<Use> = {};
  const dose: Asked<Use["dose"]> = {};
  const amount = (form.amount || use_defaults.dose.amount) as Amount;
  const area = read("area", (t) => parse_area_cm2(t, "cm2"));
  const count = read("count", (t) => parse_count(t, amount, form.area?.trim() ? area : use_defaults.dose.area_cm2));
  if (form.amount) dose.amount = amount;
  if (count) {
    dose.count = count.count;
    if (form.amount || count.amount !== use_defaults.dose.amount) dose.amount = count.amount;
  }
  if (area !== undefined) dose.area_cm2 = area;
  if (Object.keys(dose).length) use.dose = dose;
  const hours = (text: string): Read<number> => {
    const r = parse_time_s(/^[\d.,\s]+$/.test(text) ? `${text} h` : text);
    return r.ok ? { ok: true, value: r.value / 3600 } : r;
  };
  const whole = (text: string): Read<number> => {
    const r = parse_number(text);
    return r.ok && !Number.isInteger(r.value) ? { ok: false, why: "Write a whole number." } : r;
  };
  const put = (key: "parts_water" | "hardness_mg_l" | "dwell_s" | "wiped_off_pct" | "repeats" | "interval_h" | "rest_h" | "air_c" | "humidity_pct" | "air_speed_m_s", field: string, parse: (t: string) => Read<number>) => {
    const v = read(field, parse);
    if (v !== undefined) use[key] = v;
  };
  put("parts_water", "dilution", parse_parts_water);
  put("hardness_mg_l", "hardness", parse_number);
  put("dwell_s", "dwell", parse_time_s);
  put("wiped_off_pct", "wiped", parse_pct);
  put("repeats", "repeats", whole);
  put("interval_h", "interval", hours);
  put("rest_h", "rest", hours);
  put("air_c", "air_c", (t) => parse_number(t.replace(/\s*°?\s*c$/i, "")));
  put("humidity_pct", "humidity", parse_pct);
  put("air_speed_m_s", "air_speed", (t) => parse_number(t.replace(/\s*m\/s$/i, "")));
  const passes = read("rinse", whole);
  if (passes !== undefined) use.rinse = { passes };
  return use;
}

const exact = (v: number): string => String(Number(v.toPrecision(7)));
/** How the entries of the form were read, in the words and units that go out; only where that differs from what was typed. */
export function readings(form: Form): Record<string, string> {
  const use = read_use(form, (key, parse) => {
    const text = form[key]?.trim();
    const r = text ? parse(text) : null;
    return r?.ok ? r.value : undefined;
  });
  const amount = use.dose?.amount ?? use_defaults.dose.amount;
  const count = use.dose?.count;
  const number = (key: string, unit: RegExp, write: (v: string) => string): [string, string | undefined] => {
    const r = parse_number((form[key] ?? "").replace(unit, ""));
    return [key, r.ok ? write(String(r.value)) : undefined];
  };
  const span = (key: string, parse: (t: string) => Read<{ from: number; to?: number }>, write: (v: string) => string): [string, string | undefined] => {
    const r = parse(form[key] ?? "");
    return [key, r.ok ? write(write_span(r.value.from, r.value.to)) : undefined];
  };
  const told: [string, string | undefined][] = [
    ["dilution", use.parts_water === undefined ? undefined : use.parts_water === 0 ? "neat" : `1 part product, ${exact(use.parts_water)} parts water`],
    ["count", count === undefined ? undefined : `${exact(count)} ${amount_words[amount as Amount]}`],
    ["area", use.dose?.area_cm2 === undefined ? undefined : `${exact(use.dose.area_cm2)} cm²`],
    ["dwell", use.dwell_s === undefined ? undefined : write_time(use.dwell_s)],
    ["wiped", use.wiped_off_pct === undefined ? undefined : `${exact(use.wiped_off_pct)} %`],
    ["interval", use.interval_h === undefined ? undefined : `${exact(use.interval_h)} h`],
    ["rest", use.rest_h === undefined ? undefined : `${exact(use.rest_h)} h`],
    ["humidity", use.humidity_pct === undefined ? undefined : `${exact(use.humidity_pct)} %`],
    number("air_c", /\s*°?\s*c$/i, (v) => `${v} °C`),
    number("thickness", /\s*mm$/i, (v) => `${v} mm`),
    number("finish", /\s*[µuμ]m$/i, (v) => `${v} µm`),
    number("shrinkage", /\s*°?\s*c$/i, (v) => `${v} °C`),
    number("surface_ph", /^\s*ph\s*/i, (v) => `pH ${v}`),
    number("extract_ph", /^\s*ph\s*/i, (v) => `pH ${v}`),
    number("read_ph", /^\s*ph\s*/i, (v) => `pH ${v}`),
    number("read_ph_tenfold", /^\s*ph\s*/i, (v) => `pH ${v}`),
    span("stated_ph", (t) => parse_ph_span(t), (v) => `pH ${v}`),
    ...used_rows(form).map((i) => span(`i${i}_pct`, (t) => parse_span(t, parse_pct, 0, 100), (v) => `${v} %`)),
  ];
  const bare = (text: string) => text.replace(/\s/g, "").toLowerCase();
  const figure = (text: string) => bare(text).replace(/^ph|[a-z%°²µ]+$/g, "");
  // Where the label names the unit, a figure typed as it is read says nothing new.
  const same = (key: string, typed: string, read: string) => bare(read) === bare(typed) || (!/^(area|dwell|interval|rest)$/.test(key) && figure(read) === figure(typed) && !/[a-z]\/|tsp|tbsp|kg|oz|ml/.test(bare(typed)));
  return Object.fromEntries(told.filter((t): t is [string, string] => t[1] !== undefined && !!form[t[0]]?.trim() && !same(t[0], form[t[0]], t[1])));
}

/** The liquid of the form alone, while there is no leather yet; null while it cannot be read. */
export function liquid_of(form: Form, known?: Known): Asked<Liquid> | null {
  return build({ ...liquid_part(form), leather: "any" }, known).request?.liquid ?? null;
}
/** What of the form is about the liquid, to go on with it on another page. */
export function liquid_part(form: Form): Form {
  return Object.fromEntries(Object.entries(form).filter(([k]) => /^(people|liquid|meets|dilution|hardness|stated_ph|read_ph|read_ph_tenfold|own_(id|name|family)|i\d+_(name|cas|pct))$/.test(k)));
}
/** The form of a record that is to be changed. */
export function form_of_liquid(l: Liquid): Form {
  const form: Form = { liquid: "own", own_id: l.id, own_name: l.name, own_family: l.family };
  if (l.stated_ph != null) form.stated_ph = write_span(l.stated_ph, l.stated_ph_to);
  if (l.read_ph != null) form.read_ph = String(l.read_ph);
  if (l.read_ph_tenfold != null) form.read_ph_tenfold = String(l.read_ph_tenfold);
  l.ingredients.forEach((ingredient, i) => {
    form[`i${i}_name`] = ingredient.name;
    if (ingredient.cas) form[`i${i}_cas`] = ingredient.cas;
    if (ingredient.content_pct != null) form[`i${i}_pct`] = write_span(ingredient.content_pct, ingredient.content_to_pct);
  });
  return Object.fromEntries(Object.entries(form).filter(([, v]) => v !== ""));
}
export function form_of_leather(l: Leather): Form {
  const form: Form = { leather: "own", own_leather_id: l.id, own_leather: l.name, class: l.leather_class, tannage: l.tannage };
  const put = (key: string, v: number | null) => v != null && (form[key] = String(v));
  put("thickness", l.thickness_mm);
  put("finish", l.finish_um);
  put("surface_ph", l.surface_ph);
  put("extract_ph", l.extract_ph);
  put("shrinkage", l.shrinkage_c);
  if (l.water_drop !== "not_done") form.water_drop = l.water_drop;
  if (l.decayed) form.decayed = "yes";
  return Object.fromEntries(Object.entries(form).filter(([, v]) => v !== ""));
}

/** The form of a use: only what differs from the defaults; null when the form cannot hold all of it. */
export function form_of_use(u: Use): Form | null {
  const d = use_defaults;
  const { passes, ...rinse } = u.rinse;
  if (Object.entries(rinse).some(([k, v]) => v !== d.rinse[k as keyof Use["rinse"]])) return null;
  const form: Form = {};
  const put = (key: string, same: boolean, text: string) => !same && (form[key] = text);
  put("dilution", u.parts_water === d.parts_water, u.parts_water === 0 ? "neat" : `1:${u.parts_water}`);
  put("hardness", u.hardness_mg_l === d.hardness_mg_l, String(u.hardness_mg_l));
  put("amount", u.dose.amount === d.dose.amount, u.dose.amount);
  put("count", u.dose.count === d.dose.count && u.dose.amount === d.dose.amount, String(u.dose.count));
  put("area", u.dose.area_cm2 === d.dose.area_cm2, `${u.dose.area_cm2} cm²`);
  put("dwell", u.dwell_s === d.dwell_s, write_time(u.dwell_s));
  put("wiped", u.wiped_off_pct === d.wiped_off_pct, `${u.wiped_off_pct} %`);
  put("rinse", passes === d.rinse.passes, String(passes));
  put("repeats", u.repeats === d.repeats, String(u.repeats));
  put("interval", u.interval_h === d.interval_h, `${u.interval_h} h`);
  put("rest", u.rest_h === d.rest_h, `${u.rest_h} h`);
  put("air_c", u.air_c === d.air_c, String(u.air_c));
  put("humidity", u.humidity_pct === d.humidity_pct, `${u.humidity_pct} %`);
  put("air_speed", u.air_speed_m_s === d.air_speed_m_s, String(u.air_speed_m_s));
  return form;
}
/** The address that asks a kept question again; empty when the form cannot hold it. */
export function address_of(request: { liquid: Liquid; leather: Leather; use: Use }): string {
  const use = form_of_use(request.use);
  const whole = request.liquid.ingredients.every((i) => i.content_pct != null) && (request.liquid.label_known || request.liquid.id);
  if (!use || (!request.liquid.id && !whole)) return "";
  const only = (form: Form, keys: string[]): Form => Object.fromEntries(Object.entries(form).filter(([k]) => keys.includes(k)));
  const liquid = request.liquid.id ? { liquid: request.liquid.id, ...only(form_of_liquid(request.liquid), liquid_readings) } : form_of_liquid(request.liquid);
  const leather = request.leather.id ? { leather: request.leather.id, ...only(form_of_leather(request.leather), leather_readings) } : form_of_leather(request.leather);
  return `/judge?${to_search({ ...liquid, ...leather, ...use })}`;
}

/** The form as an address and back; empty texts are left out. */
export function to_search(form: Form): URLSearchParams {
  const out = new URLSearchParams();
  for (const [k, v] of Object.entries(form)) if (v !== "") out.set(k, v);
  return out;
}
export function from_search(search: string): Form {
  return Object.fromEntries(new URLSearchParams(search));
}
