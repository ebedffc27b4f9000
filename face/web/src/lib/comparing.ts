// Several at once: what is picked stands in the address, as everywhere.
import type { CompareRequest, Leather, Liquid } from "../wire";
import { build, type Form } from "./request";

export const picked = (form: Form, key: "liquids" | "leathers"): string[] => (form[key] ?? "").split(",").filter(Boolean);
/** Takes a record in, or out again. */
export function toggled(list: readonly string[], id: string): string {
  return (list.includes(id) ? list.filter((l) => l !== id) : [...list, id]).join(",");
}
/** The fields of use that a comparison asks for; one use for all. */
export const use_keys = ["dilution", "amount", "count", "area", "dwell", "wiped", "rinse", "hardness", "repeats", "interval", "rest", "air_c", "humidity", "air_speed"];
export interface Comparing {
  request: CompareRequest | null;
  problems: Record<string, string>;
  /** How many judgements that makes. */
  count: number;
}
export function build_comparison(form: Form, use_name = "as asked"): Comparing {
  const liquids = picked(form, "liquids");
  const leathers = picked(form, "leathers");
  const use_form = Object.fromEntries(Object.entries(form).filter(([k]) => use_keys.includes(k)));
  const { request, problems } = build({ liquid: "any", leather: "any", meets: form.meets ?? "", ...use_form });
  const count = liquids.length * leathers.length;
  if (count < 2 || !request) return { request: null, problems, count };
  return { request: { liquids: liquids.map((id) => ({ id })), leathers: leathers.map((id) => ({ id })), ...(request.use ? { uses: [{ name: use_name, use: request.use }] } : {}), ...(request.meets ? { meets: request.meets } : {}) }, problems, count };
}
/** The id behind a name of a row, where only one that was picked bears it. */
export function id_of(name: string, records: readonly (Liquid | Leather)[], among: readonly string[]): string {
  const found = records.filter((r) => r.name === name && among.includes(r.id));
  return found.length === 1 ? found[0].id : "";
}
/** What the demo offers for a first look: some of its liquids on one of its leathers. */
export function demo_pick(liquids: readonly Liquid[], leathers: readonly Leather[], most = 5): Form | null {
  const some = liquids.filter((l) => l.standing === "invented" && l.label_known && l.ingredients.length && l.stated_ph != null).slice(0, most);
  const one = leathers.find((l) => l.standing === "invented" && !l.decayed);
  return some.length > 1 && one ? { liquids: some.map((l) => l.id).join(","), leathers: one.id } : null;
}
