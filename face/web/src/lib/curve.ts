// Small curves: where things lie and how they are written. Never more digits than the band beside them can carry.
import type { Number as Figure } from "../wire";
import { fixed, places } from "./format";

export interface Point {
  x: number;
  y: number;
  /** Outside what the model covers: drawn broken. */
  rough?: boolean;
}

/** Round steps of 1, 2 or 5 that lie inside [from, to], about `count` of them. */
export function round_ticks(from: number, to: number, count = 4): number[] {
  const span = to - from;
  if (!(span > 0)) return [from];
  const raw = span / count;
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = power * ([1, 2, 5].find((m) => m * power >= raw * 0.999) ?? 10);
  const out: number[] = [];
  for (let k = Math.ceil(from / step - 1e-9); k * step <= to + 1e-9 * span; k++) out.push(k === 0 ? 0 : Number((k * step).toPrecision(12)));
  return out;
}
/** A round figure as a tick, with the decimals its step needs. */
export function tick_text(value: number, ticks: readonly number[]): string {
  const step = ticks.length > 1 ? Math.abs(ticks[1] - ticks[0]) : Math.abs(value) || 1;
  return fixed(value, Math.max(0, -Math.floor(Math.log10(step) + 1e-9)));
}

/** Where the curve passes a height, read between its points; null where it never does. */
export function crossing(points: readonly Point[], y: number): number | null {
  for (let i = 0; i < points.length; i++) {
    if (points[i].y === y) return points[i].x;
    const next = points[i + 1];
    if (next && (points[i].y - y) * (next.y - y) < 0) return points[i].x + ((y - points[i].y) / (next.y - points[i].y)) * (next.x - points[i].x);
  }
  return null;
}
/** Height of the curve at a place, read between its points; null outside. Points stand in rising order of x. */
export function height(points: readonly Point[], x: number): number | null {
  for (let i = 0; i + 1 < points.length; i++) {
    const a = points[i];
    const b = points[i + 1];
    if (x >= a.x && x <= b.x) return b.x === a.x ? a.y : a.y + ((x - a.x) / (b.x - a.x)) * (b.y - a.y);
  }
  return null;
}

/** The part of a titration that answers a question: from where the liquid stands to the target, and as far again on both
 *  sides, so that one steep end does not press the rest flat. */
export function of_interest(points: readonly Point[], target: number): Point[] {
  const goal = crossing(points, target);
  if (goal === null || !points.length) return [...points];
  const wide = Math.max(Math.abs(goal), Math.abs(points[0].x), Math.abs(points[points.length - 1].x)) * 0.02;
  const reach = Math.max(Math.abs(goal), wide);
  const near = points.filter((p) => p.x >= Math.min(0, goal) - 0.6 * reach && p.x <= Math.max(0, goal) + 0.6 * reach);
  return near.length > 3 ? near : [...points];
}

/** An amount to two significant digits, and never finer than the band that is stated for its kind. */
export function amount_text(value: number, band: number): string {
  if (!(Math.abs(value) > 0)) return "0";
  const last = Math.floor(Math.log10(Math.abs(value))) - 1;
  if (last > 0) return fixed(Math.round(value / 10 ** last) * 10 ** last, 0);
  return fixed(value, Math.min(-last, places(band)));
}
/** A pH on a curve: one decimal, none where the band is wider. */
export function ph_text(ph: number, of: Figure): string {
  return fixed(ph, Math.min(1, places(of.plus_minus)));
}
/** Where the pH goes while the water leaves, in one sentence; points in rising order of water left, `of` the stated pH. */
export function drying_sentence(points: readonly Point[], of: Figure): string {
  const first = points[points.length - 1].y;
  const last = points[0].y;
  const seen = Math.max(0.15, of.plus_minus);
  const low = Math.min(...points.map((p) => p.y));
  const high = Math.max(...points.map((p) => p.y));
  const say = (ph: number) => `pH ${ph_text(ph, of)}`;
  if (high - low < seen) return `It stays near ${say(first)} while the water leaves.`;
  const dip = Math.min(first, last) - low >= seen ? low : high - Math.max(first, last) >= seen ? high : null;
  return `It goes from ${say(first)}${dip === null ? "" : ` by way of ${say(dip)}`} to ${say(last)} while the water leaves.`;
}
