// Which reasons of a judgement stand open, and which may be folded away.
import type { Reason } from "../wire";

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
