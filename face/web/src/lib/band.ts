// Bands of a quantity in words and on a common scale.
import type { Band } from "../wire";
import { fixed, places } from "./format";

/** Decimals that nine in ten of the cases leave meaningful; a pH never with more than one. */
export function band_places(b: Band): number {
  const most = b.unit === "pH" ? 1 : 3;
  return Math.min(most, Math.max(b.unit === "pH" ? 1 : 0, places((b.high_90 - b.low_90) / 2)));
}
/** “pH 7.6, nine in ten between 7.2 and 8.0”, or with its unit behind. */
export function band_text(b: Band): string {
  if (!b.unit) return "not computed";
  const say = (v: number) => fixed(v, band_places(b));
  const unit = b.unit === "pH" || b.unit === "1" ? "" : ` ${b.unit}`;
  const start = b.unit === "pH" ? "pH " : "";
  if (b.high_90 - b.low_90 <= 0) return `${start}${say(b.median)}${unit}`;
  return `${start}${say(b.median)}${unit}, nine in ten between ${say(b.low_90)} and ${say(b.high_90)}${unit}`;
}
/** Short, for beside a field: “pH 6.1 to 6.7”. */
export function span_text(b: Band): string {
  const say = (v: number) => fixed(v, band_places(b));
  return `${b.unit === "pH" ? "pH " : ""}${say(b.low_90)} to ${say(b.high_90)}${b.unit === "pH" || b.unit === "1" ? "" : ` ${b.unit}`}`;
}
/** A scale that holds all of them, with a little room; shares of its length. */
export function scale_of(values: readonly number[]): (v: number) => number {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const room = (high - low || 1) * 0.04;
  return (v) => (v - low + room) / (high - low + 2 * room || 1);
}
