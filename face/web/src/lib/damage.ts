// What the page of a damage knows, in its address: signs found and not found, what was passed over, the piece.
import type { AdvisePanel, AdviseRequest, DiagnoseRequest, SeparatingTest } from "../api.gen";
import type { Form } from "./request";

const words = (text: string | undefined): string[] => (text ?? "").split(",").filter(Boolean);

/** Puts a sign among those found, not found, or passed over; it stands in one of them only. */
export function with_sign(form: Form, sign: string, as: "there" | "not" | "passed" | ""): Form {
  const out: Form = { ...form };
  for (const list of ["there", "not", "passed"]) {
    const rest = words(form[list]).filter((s) => s !== sign);
    out[list] = (list === as ? [...rest, sign] : rest).join(",");
  }
  return out;
}

export function diagnosis_of(form: Form): Partial<DiagnoseRequest> {
  return {
    ...(form.piece ? { piece: form.piece } : {}),
    ...(form.panel ? { panels: words(form.panel) } : {}),
    ...(form.class ? { covering: [{ key: form.class, chance_1: 1 }] } : {}),
    saw: [...words(form.there).map((sign) => ({ sign, saw: "there" as const })), ...words(form.not).map((sign) => ({ sign, saw: "not_there" as const }))],
  };
}
/** What is asked of the place itself: how thick, how deep it is weak, hours. Each as typed; what is left alone is left out. */
export const panel_fields = [
  ["thickness_mm", "Thickness, mm"],
  ["weak_mm", "Weak depth over most of it, mm"],
  ["weak_seam_mm", "Weak depth at the seam, mm"],
  ["area_m2", "Area, m²"],
  ["repair_h", "Repair, hours"],
  ["panel_h", "New panel, hours"],
] as const;

/** @throws Error that names the field which cannot be read */
export function advice_of(form: Form): { known: Partial<DiagnoseRequest> } & Partial<Omit<AdviseRequest, "known" | "panels">> & { panels?: Partial<AdvisePanel>[] } {
  const panel: Partial<AdvisePanel> = {};
  for (const [key, label] of panel_fields) {
    const text = (form[key] ?? "").trim().replace(",", ".");
    if (!text) continue;
    if (!/^\d+(\.\d+)?$/.test(text)) throw new Error(`${label}: give a number.`);
    panel[key] = Number(text);
  }
  if (form.flex) panel.flex = form.flex;
  if (form.airbag) panel.airbag = true;
  const known = diagnosis_of(form);
  return Object.keys(panel).length ? { known, panels: [{ name: "The damage", ...panel }] } : { known };
}

/** The question to ask next: of the best test that was not passed over. */
export function question_of(tests: SeparatingTest[], form: Form): { test: SeparatingTest; sign: string; question: string } | null {
  const passed = words(form.passed);
  for (const test of tests)
    for (const [i, sign] of test.signs.entries()) if (!passed.includes(sign)) return { test, sign, question: test.questions[i] };
  return null;
}
