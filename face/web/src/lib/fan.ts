// Bands along depth or time: which points can be drawn, where they lie, and how they are said.
import type { Fan } from "../wire";
import { depth, duration, fixed, places } from "./format";

export interface FanPoint {
  at: number;
  median: number;
  low_50: number;
  high_50: number;
  low_90: number;
  high_90: number;
}
/** The points of which every figure is there, in rising order of depth or time. */
export function points_of(fan: Fan): FanPoint[] {
  const out: FanPoint[] = [];
  fan.at.forEach((at, i) => {
    const all = [at, fan.median[i], fan.low_50[i], fan.high_50[i], fan.low_90[i], fan.high_90[i]];
    if (all.some((v) => v == null || !Number.isFinite(v))) return;
    const [a, median, low_50, high_50, low_90, high_90] = all as number[];
    out.push({ at: a, median, low_50, high_50, low_90, high_90 });
  });
  return out.sort((a, b) => a.at - b.at);
}
export const is_depth = (fan: Fan) => fan.along === "depth_um";

/** Short names for choosing between several. */
export function short_name(fan: Fan): string {
  return ({ depth_worst: "depth, at its worst", depth_end: "depth, at the end", surface: "surface over time", upper_leather: "upper leather over time", grain: "grain over time", surface_before: "surface, before the readings", surface_after: "surface, after them", depth_now_before: "depth, before the readings", depth_now_after: "depth, after them" } as Record<string, string>)[fan.key] ?? fan.title;
}

/** Where a place lies between the ends, 0 to 1. What soaks in goes with the square root of time, so depth is drawn finer
 *  near the top; time is drawn by its logarithm from seconds on, so that the first minute does not vanish beside a day. */
export function placed(fan: Fan, at: number, last: number): number {
  if (!(last > 0)) return 0;
  const v = Math.min(Math.max(0, at), last);
  return is_depth(fan) ? Math.sqrt(v / last) : Math.log1p(v / 5) / Math.log1p(last / 5);
}
const depth_marks = [0, 10, 50, 100, 250, 500, 1000, 1500, 2000, 3000, 4000, 6000];
const time_marks = [0, 10, 60, 600, 3600, 6 * 3600, 24 * 3600, 3 * 86400, 7 * 86400, 30 * 86400];
/** Round places for the axis that stand at least `apart` (of its length) from each other. */
export function marks_of(fan: Fan, last: number, apart = 0.07): number[] {
  const out: number[] = [];
  for (const m of is_depth(fan) ? depth_marks : time_marks) {
    if (m > last * 1.001) break;
    if (!out.length || placed(fan, m, last) - placed(fan, out[out.length - 1], last) >= apart) out.push(m);
  }
  return out;
}
/** `start` is what the beginning of time is called: before the wetting, or now. */
export const place_text = (fan: Fan, at: number, start = "before"): string => (is_depth(fan) ? depth(at) : at <= 0 ? start : duration(at));
export const mark_text = (fan: Fan, at: number): string => (at <= 0 ? "0" : is_depth(fan) ? (at >= 1000 ? `${at / 1000} mm` : `${at} µm`) : duration(at));

/** A value with the decimals that the spread around it leaves meaningful; a pH never with more than one. */
export function value_text(fan: Fan, value: number, p: FanPoint): string {
  const most = fan.unit === "pH" ? 1 : 3;
  return fixed(value, Math.min(most, Math.max(fan.unit === "pH" ? 1 : 0, places((p.high_90 - p.low_90) / 2))));
}
/** One place in words: the middle case, half of them, nine in ten. */
export function said_at(fan: Fan, p: FanPoint, start = "before"): string {
  const say = (v: number) => value_text(fan, v, p);
  const unit = fan.unit === "pH" || !fan.unit ? "" : ` ${fan.unit}`;
  return `${place_text(fan, p.at, start)}: ${fan.unit === "pH" ? "pH " : ""}${say(p.median)}${unit} in the middle case; half of the cases lie between ${say(p.low_50)} and ${say(p.high_50)}, nine in ten between ${say(p.low_90)} and ${say(p.high_90)}`;
}
/** The whole fan in words: where it begins, where it lies farthest from its beginning (or its end), where it ends. */
export function summary(fan: Fan, start = "before"): string {
  const points = points_of(fan);
  if (!points.length) return `${fan.title}: nothing to show.`;
  const rest = is_depth(fan) ? points[points.length - 1] : points[0];
  const far = points.reduce((a, b) => (Math.abs(b.median - rest.median) > Math.abs(a.median - rest.median) + 1e-9 ? b : a), rest);
  const told = [points[0], far, points[points.length - 1]].filter((p, i, all) => all.indexOf(p) === i).sort((a, b) => a.at - b.at);
  return `${fan.title}. ${told.map((p) => said_at(fan, p, start)).join(". ")}.`;
}
/** The point nearest to a place on the picture. */
export function nearest_point(fan: Fan, points: readonly FanPoint[], share: number, last: number): number {
  let best = 0;
  points.forEach((p, i) => {
    if (Math.abs(placed(fan, p.at, last) - share) < Math.abs(placed(fan, points[best].at, last) - share)) best = i;
  });
  return best;
}
