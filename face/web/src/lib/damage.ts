// What the page of a damage knows, in its address: signs found and not found, what was passed over, the piece.
import type { AdviseRequest, DiagnoseRequest, SeparatingTest } from "../api.gen";
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
export const advice_of = (form: Form): { known: Partial<DiagnoseRequest> } & Partial<Omit<AdviseRequest, "known">> => ({ known: diagnosis_of(form) });

/** The question to ask next: of the best test that was not passed over. */
export function question_of(tests: SeparatingTest[], form: Form): { test: SeparatingTest; sign: string; question: string } | null {
  const passed = words(form.passed);
  for (const test of tests)
    for (const [i, sign] of test.signs.entries()) if (!passed.includes(sign)) return { test, sign, question: test.questions[i] };
  return null;
}
