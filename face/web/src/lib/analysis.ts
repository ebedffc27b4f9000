// From what was typed to the question what a liquid is. The form is the same flat list of texts as for a judgement, so
// that a liquid can be taken from one page to the other by its address.
import type { AnalyseRequest } from "../wire";
import { parse_number, type Read } from "./amount";
import { build, field_of, liquid_part, step_of, type Form, type Known } from "./request";

/** What each field shows while it is left alone. Not sent: the program fills them in itself, and a browser journey
 *  compares these with what it filled in. */
export const analysis_defaults: Form = { dilution: "neat", hardness: "0", liquid_c: "25", air: "closed", target: "4.5" };

export interface Analysis {
  request: AnalyseRequest | null;
  problems: Record<string, string>;
}
export function build_analysis(form: Form, known?: Known): Analysis {
  const { request: judged, problems } = build({ ...liquid_part(form), leather: "any" }, known);
  const put = (key: string, parse: (text: string) => Read<number>): number | undefined => {
    const text = form[key]?.trim();
    if (!text) return undefined;
    const r = parse(text);
    if (r.ok) return r.value;
    problems[key] = r.why;
    return undefined;
  };
  const liquid_c = put("liquid_c", (t) => parse_number(t.replace(/\s*°?\s*c$/i, "")));
  const target_ph = put("target", (t) => parse_number(t.replace(/^\s*ph\s*/i, "")));
  const meets = (form.meets ?? "").split(",").filter(Boolean);
  if (!judged?.liquid || Object.keys(problems).length) return { request: null, problems };
  return {
    request: {
      liquid: judged.liquid,
      ...judged.use,
      ...(liquid_c === undefined ? {} : { liquid_c }),
      ...(form.air === "open" ? { air: "open" as const } : {}),
      ...(target_ph === undefined ? {} : { target_ph }),
      ...(meets.length ? { meets } : {}),
    },
    problems,
  };
}

/** The field that a `where` of the server means; empty when there is none. */
export function field_of_analysis(where: string, form: Form = {}): string {
  const own: Record<string, string> = { parts_water: "dilution", hardness_mg_l: "hardness", liquid_c: "liquid_c", air: "air", target_ph: "target" };
  if (own[where]) return own[where];
  if (/^meets\b/.test(where)) return "meets";
  return where.replace(/^\//, "").startsWith("liquid") ? field_of(where, form) : "";
}
export function step_of_analysis(field: string): "liquid" | "use" {
  return field === "meets" || step_of(field) === "liquid" ? "liquid" : "use";
}
