// A share of the cases as people say it, and as it is written. The program says it the same way in its sentences.
import { fixed } from "./format";

/** “about 7 in 10”; at the ends the words of the program. */
export function in_words(share: number): string {
  if (share >= 0.995) return "practically all";
  if (share >= 0.95) return "more than 19 in 20";
  if (share < 0.005) return "next to none";
  if (share < 0.05) return "fewer than 1 in 20";
  return `about ${Math.min(9, Math.max(1, Math.round(10 * share)))} in 10`;
}
/** In per cent; decimals only where a share lies so near to none or all that whole ones would hide it. */
export function pct(share: number): string {
  if (share <= 0) return "0 %";
  if (share >= 1) return "100 %";
  if (share < 0.001) return "under 0.1 %";
  if (share > 0.999) return "over 99.9 %";
  const near_an_end = share < 0.0095 || share > 0.9905;
  return `${fixed(100 * share, near_an_end ? 1 : 0)} %`;
}
/** Both, for one line: “about 7 in 10 (71 %)”. */
export function chance_text(share: number): string {
  return `${in_words(share)} (${pct(share)})`;
}

/** Parts of one bar, in order, from shares that stand inside each other: what lasts within what is passed at all. */
export function parts_of(passed: number, lasting: number): { lasting: number; back: number; within: number } {
  const p = Math.min(1, Math.max(0, passed));
  const l = Math.min(p, Math.max(0, lasting));
  return { lasting: l, back: p - l, within: 1 - p };
}
