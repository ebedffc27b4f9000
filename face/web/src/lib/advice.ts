// What the reader does first with a judgement: the line above the verdict, and which reasons may be folded away.
import type { Grade, Harm, Reason } from "../wire";

const first_words: Record<Grade, string> = {
  stays_within: "No limit is passed, used like this",
  comes_back: "Passes a limit for a while, then comes back",
  lasting: "Do not use it like this",
  deep: "Keep it off, it goes deep",
  unknown: "Not known yet: test first",
  stop: "Stop: read this first",
};
/** The first line of an answer. What cannot be told is named where the grade alone would sound harmless. */
export function advice(grade: Grade, reasons: readonly Reason[], harms: readonly Harm[] = []): string {
  const has = (...kinds: string[]) => reasons.some((r) => kinds.includes(r.kind));
  if (grade === "stop") return first_words.stop;
  if (has("oxidiser")) return "Keep it off: it bleaches";
  const harmless = grade === "stays_within" || grade === "comes_back";
  if (!harmless) return first_words[grade];
  const unknown = harms.filter((h) => h.grade === "unknown").length;
  if (unknown) return `${first_words[grade]}; ${unknown === 1 ? "one thing is" : `${unknown} things are`} not known`;
  if (has("not_known", "unknown_part")) return `${first_words[grade]}; part of it is not known`;
  if (has("solvent")) return `${first_words[grade]}; test the finish first`;
  if (has("more_than_a_pass", "more_than_holds")) return `${first_words[grade]}; use less at a time`;
  if (has("liquid_below_floor")) return `${first_words[grade]}; mind dye and metal`;
  return first_words[grade];
}

export interface Sorted {
  because: Reason[];
  cautions: Reason[];
  rest: Reason[];
}
/** What decides or adds, at most `most`, stands open; so does every caution; only notes and what is left over may be folded. */
export function sort_reasons(reasons: readonly Reason[], most = 3): Sorted {
  const carries = (r: Reason) => r.weight === "decides" || r.weight === "adds";
  const because = reasons.filter(carries).slice(0, most);
  const cautions = reasons.filter((r) => r.weight === "caution");
  return { because, cautions, rest: reasons.filter((r) => !because.includes(r) && !cautions.includes(r)) };
}
