// The safety card as one flat list of texts, so that the address bar can hold all of it. What was left alone is left out:
// the program fills it in and says so.
import type { Asked, Liquid, ProtectRequest } from "../wire";
import { parse_number } from "./amount";
import type { Form } from "./request";

/** Questions of the household, as they are asked. */
export const house: readonly { key: keyof ProtectRequest["household"] & string; name: string }[] = [
  { key: "asthma", name: "Asthma, lung illness or a weak immune system" },
  { key: "pregnancy", name: "Somebody is pregnant" },
  { key: "children", name: "Small children" },
  { key: "pets", name: "Cats, dogs or other pets" },
  { key: "birds", name: "Caged birds" },
  { key: "allergies", name: "Allergies" },
  { key: "sleeps_there", name: "Somebody sleeps in that room" },
];
export const answers = [
  { key: "yes", name: "Yes" },
  { key: "no", name: "No" },
] as const;
export const jobs = [
  { key: "liquids", name: "A liquid" },
  { key: "mould", name: "Mould" },
  { key: "dust", name: "Sanding or dust" },
] as const;
export const ways = [
  { key: "cloth", name: "cloth" },
  { key: "swab", name: "swabs" },
  { key: "brush", name: "brush" },
  { key: "foam", name: "foam" },
  { key: "spray", name: "spray" },
  { key: "airbrush", name: "airbrush" },
] as const;
const told = <T>(value: string | undefined, as: (v: string) => T): T | undefined => (value ? as(value) : undefined);
const asked = (value: string | undefined) => told(value, (v) => v as "yes" | "no");

export interface Read {
  request: Asked<ProtectRequest> | null;
  /** By the key of the field. */
  wrong: Record<string, string>;
}

/** Numbers of the rows of liquids that are there. */
export function rows_of(form: Form): number[] {
  const found = Object.keys(form).map((k) => /^l(\d+)_/.exec(k)).filter((m): m is RegExpExecArray => m !== null);
  return [...new Set([0, ...found.map((m) => Number(m[1]))])].sort((a, b) => a - b);
}

/** What was typed, as a request; nothing while something in it cannot be read. */
export function read(form: Form, liquids: readonly Pick<Liquid, "id">[]): Read {
  const wrong: Record<string, string> = {};
  const number = (key: string): number | undefined => {
    if (!form[key]?.trim()) return undefined;
    const got = parse_number(form[key]);
    if (got.ok) return got.value;
    wrong[key] = got.why;
    return undefined;
  };
  const items: Asked<ProtectRequest>["items"] = [];
  for (const row of rows_of(form)) {
    const of = (part: string) => form[`l${row}_${part}`]?.trim() ?? "";
    if (!of("id")) continue;
    const known = liquids.some((l) => l.id === of("id"));
    if (!known) wrong[`l${row}_id`] = "It is not on the shelf any more. Choose another.";
    const ml = number(`l${row}_ml`), grams = number(`l${row}_g`);
    if (ml === undefined && grams === undefined && !wrong[`l${row}_ml`] && !wrong[`l${row}_g`]) wrong[`l${row}_ml`] = "Say how much is planned.";
    const item: NonNullable<Asked<ProtectRequest>["items"]>[number] = { liquid: { id: of("id") } };
    if (ml !== undefined) item.ml = ml;
    else if (grams !== undefined) item.grams = grams;
    const over = number(`l${row}_min`), parts = number(`l${row}_water`);
    if (over !== undefined) item.over_min = over;
    if (parts !== undefined) item.parts_water = parts;
    if (of("on")) item.goes_on = of("on") as ProtectRequest["items"][number]["goes_on"];
    items.push(item);
  }
  const job = (form.job || "liquids") as ProtectRequest["job"];
  const household = Object.fromEntries(house.map((h) => [h.key, asked(form[h.key])]).filter(([, v]) => v));
  const place = {
    key: form.place || "workshop", volume_m3: number("volume"), air_changes_per_h: number("changes"), clears_min: number("clears"), air_c: number("air_c"), sprinklers: asked(form.sprinklers),
  };
  const request: Asked<ProtectRequest> = {
    title: form.title ?? "", job, items, household,
    place: Object.fromEntries(Object.entries(place).filter(([, v]) => v !== undefined)),
    technician: Object.fromEntries(Object.entries({ trained_on: form.trained, fit_tested_on: form.fitted, beard: asked(form.beard) }).filter(([, v]) => v)),
    ...(form.piece ? { piece: form.piece } : {}),
  };
  if (job === "mould")
    request.mould = Object.fromEntries(Object.entries({ area_m2: number("area"), humidity_pct: number("humidity"), hidden: asked(form.hidden), sewage: asked(form.sewage), air_ducts: asked(form.ducts) }).filter(([, v]) => v !== undefined));
  const empty = job === "liquids" && !items.length && !form.piece;
  return { request: Object.keys(wrong).length || empty ? null : request, wrong };
}
