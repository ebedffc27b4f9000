// A call as it stands in the address: a.QUESTION=choice,choice  n.QUESTION=3 unit  t.QUESTION=the caller's words. Times at
// which sentences were told are kept in the browser beside it, since they belong to this call and not to a link.
import type { TriageGiven, TriageQuestion, TriageRequest } from "../wire";
import type { Box } from "./outbox";
import type { Form } from "./request";

export const dont_know = "dont_know";
/** Choices that leave no room for another beside them, so that a tap on one is the whole answer. */
export const stands_alone = (key: string) => [dont_know, "none", "nothing"].includes(key);
const question_of = (key: string) => /^[ant]\.(.+)$/.exec(key)?.[1] ?? "";

/** What was answered so far, one a question, in the order in which it was said. */
export function given(form: Form): TriageGiven[] {
  const out = new Map<string, TriageGiven>();
  for (const [key, text] of Object.entries(form)) {
    const question = question_of(key);
    if (!question || !text) continue;
    const row = out.get(question) ?? { question, choices: [], number_1: null, unit: "", text: "" };
    if (key[0] === "a") row.choices = text.split(",").filter(Boolean);
    else if (key[0] === "t") row.text = text;
    else {
      const [figure, unit] = text.split(" ");
      if (Number.isFinite(Number(figure))) Object.assign(row, { number_1: Number(figure), unit: unit ?? "" });
    }
    out.set(question, row);
  }
  return [...out.values()].filter((g) => g.choices.length || g.number_1 !== null || g.text);
}
/** The form with one question answered anew; an answer without anything in it takes the question back. */
export function answered(form: Form, g: TriageGiven): Form {
  const kept = Object.fromEntries(Object.entries(form).filter(([k]) => question_of(k) !== g.question));
  return {
    ...kept,
    ...(g.choices.length ? { [`a.${g.question}`]: g.choices.join(",") } : {}),
    ...(g.number_1 === null ? {} : { [`n.${g.question}`]: `${g.number_1}${g.unit ? ` ${g.unit}` : ""}` }),
    ...(g.text.trim() ? { [`t.${g.question}`]: g.text.trim() } : {}),
  };
}
/** A choice tapped: what is not known stands alone, and so does a choice where one is asked for. */
export function tapped(q: Pick<TriageQuestion, "several">, choices: readonly string[], key: string): string[] {
  if (choices.includes(key)) return choices.filter((c) => c !== key);
  if (!q.several || stands_alone(key)) return [key];
  return [...choices.filter((c) => !stands_alone(c)), key];
}
export function request_of(form: Form, told: TriageRequest["told"]): TriageRequest {
  const answers = given(form).map(({ question, choices, number_1, unit, text }) => ({ question, ...(choices.length ? { choices } : {}), ...(number_1 === null ? {} : { number_1, ...(unit ? { unit } : {}) }), ...(text ? { text } : {}) }));
  const may_i = (form.may ?? "").split(",").filter(Boolean);
  return { ...(form.caller ? { caller: form.caller } : {}), answers, ...(may_i.length ? { may_i } : {}), ...(told?.length ? { told } : {}) };
}

interface Told {
  key: string;
  at: string;
}
/** When each sentence was first told in this call. */
export function told_of(box: Box, call: string): Told[] {
  try {
    const list = JSON.parse((call && box.getItem(`call:${call}`)) || "[]") as Told[];
    return Array.isArray(list) ? list : [];
  } catch {
    return [];
  }
}
const most_calls = 50;
export function keep_told(box: Box, call: string, told: readonly Told[]): void {
  let calls: string[] = [];
  try {
    calls = JSON.parse(box.getItem("calls") ?? "[]") as string[];
  } catch {
    calls = [];
  }
  const next = [call, ...calls.filter((c) => c !== call)];
  for (const old of next.slice(most_calls)) box.removeItem(`call:${old}`);
  box.setItem("calls", JSON.stringify(next.slice(0, most_calls)));
  box.setItem(`call:${call}`, JSON.stringify(told.map(({ key, at }) => ({ key, at }))));
}
