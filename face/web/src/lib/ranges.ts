// What each field is called and takes, so that a message far from the field can say it. The program decides what it
// accepts; a browser journey holds these ranges against its own.
import type { JudgeRequest } from "../wire";
import { parse_pct, parse_span } from "./amount";
import { duration, plain } from "./format";
import { build, parse_ph_span, type Form } from "./request";

export interface Range {
  name: string;
  from: number;
  to: number;
  unit: string;
  /** Where the value stands in the request. */
  path: string;
}
const range = (name: string, from: number, to: number, unit: string, path: string): Range => ({ name, from, to, unit, path });

export const ranges: Record<string, Range> = {
  stated_ph: range("pH on the label", -1, 15, "", "liquid.stated_ph"),
  read_ph: range("pH read in the bottle", -1, 15, "", "liquid.read_ph"),
  read_ph_tenfold: range("pH read in ten parts", -1, 15, "", "liquid.read_ph_tenfold"),
  thickness: range("Thickness", 0.3, 6, "mm", "leather.thickness_mm"),
  finish: range("Finish", 0, 300, "µm", "leather.finish_um"),
  surface_ph: range("Surface pH", 1.5, 11, "", "leather.surface_ph"),
  extract_ph: range("Extract pH", 1.5, 11, "", "leather.extract_ph"),
  shrinkage: range("Shrinkage", 20, 130, "°C", "leather.shrinkage_c"),
  dilution: range("Dilution", 0, 10000, "parts of water", "use.parts_water"),
  hardness: range("Water hardness", 0, 1000, "mg/L", "use.hardness_mg_l"),
  count: range("How many", 0, 5000, "", "use.dose.count"),
  area: range("On what area", 1, 100000, "cm²", "use.dose.area_cm2"),
  dwell: range("Stood for", 1, 86400, "s", "use.dwell_s"),
  wiped: range("Wiped off", 0, 99, "%", "use.wiped_off_pct"),
  rinse: range("Rinsed", 0, 20, "times", "use.rinse.passes"),
  repeats: range("Done", 1, 30, "times", "use.repeats"),
  interval: range("Every", 0.5, 720, "h", "use.interval_h"),
  rest: range("Rest after", 0.1, 168, "h", "use.rest_h"),
  air_c: range("Air", 5, 40, "°C", "use.air_c"),
  humidity: range("Humidity", 10, 90, "%", "use.humidity_pct"),
  air_speed: range("Air speed", 0, 5, "m/s", "use.air_speed_m_s"),
};
const share: Omit<Range, "path"> = { name: "Share", from: 0, to: 100, unit: "%" };
const names: Record<string, string> = { own_name: "Name of the liquid", own_family: "What kind", own_leather: "Name of the leather", class: "Class of finish", tannage: "Tannage", liquid: "Liquid", leather: "Leather", water_drop: "Water drop", ago: "When was that?", treat: "Area to treat", weak: "Weak share", chance: "Chance wanted", win_low: "Window from pH", win_high: "Window to pH", pass_g: "Moisture of a pass", day_g: "Moisture of a day", spot_g: "Water on the hidden spot" };

/** What a field is called, with its row where there are several. */
export function name_of(field: string): string {
  const row = /^i(\d+)_(\w+)$/.exec(field);
  if (row) return `Ingredient ${Number(row[1]) + 1}, ${{ name: "name", cas: "CAS number", pct: "share" }[row[2]] ?? row[2]}`;
  if (/^p\d+_/.test(field)) return "What was laid on";
  if (/^r\d+_/.test(field)) return "A reading";
  return ranges[field]?.name ?? names[field] ?? field;
}
/** What a field takes, with its unit; empty where it takes words. */
export function takes(field: string): string {
  const r = /^i\d+_pct$/.test(field) ? share : ranges[field];
  if (!r) return "";
  if (field === "dwell") return "1 s to 24 h";
  return `${plain(r.from)} to ${plain(r.to)}${r.unit ? ` ${r.unit}` : ""}`;
}

/** Every entry of the form that lies outside its range: the program names only the first. */
export function outside(form: Form): Record<string, string> {
  const out: Record<string, string> = {};
  const { problems } = build(form);
  const good = Object.fromEntries(Object.entries(form).filter(([k, v]) => v.trim() && !problems[k]));
  // What cannot be read is left out here, so that it hides no other entry.
  const request = build({ ...good, liquid: "any", leather: good.leather ?? "any", class: good.class ?? "any" }).request;
  const check = (field: string, value: number | undefined, from: number, to: number, said: string) => {
    if (value !== undefined && (value < from || value > to)) out[field] = `Give ${takes(field)}; ${said} is outside.`;
  };
  const both = (field: string, text: string, r: ReturnType<typeof parse_span>, from: number, to: number) => {
    if (!r.ok) return;
    check(field, r.value.from, from, to, text);
    check(field, r.value.to, from, to, text);
  };
  for (const [field, r] of Object.entries(ranges)) {
    if (good[field] === undefined || field === "stated_ph") continue;
    const value = request ? at(request, r.path) : undefined;
    check(field, value, r.from, r.to, field === "dwell" ? duration(value ?? 0) : `${plain(value ?? 0)}${r.unit ? ` ${r.unit}` : ""}`);
  }
  if (good.liquid === "own") {
    const label = ranges.stated_ph;
    if (good.stated_ph) both("stated_ph", good.stated_ph, parse_ph_span(good.stated_ph), label.from, label.to);
    for (const [field, text] of Object.entries(good)) if (/^i\d+_pct$/.test(field)) both(field, text, parse_span(text, parse_pct, share.from, share.to), share.from, share.to);
  }
  return out;
}
function at(request: JudgeRequest, path: string): number | undefined {
  const found = path.split(".").reduce<unknown>((o, k) => (o as Record<string, unknown> | undefined)?.[k], request);
  return typeof found === "number" ? found : undefined;
}
