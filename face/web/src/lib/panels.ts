// Where panels lie on a drawing: for marks, for fingers, and for the numbers that are typed about them.
import type { DrawnShape, DrawnView } from "../wire";
import { parse_number, type Read } from "./amount";

export interface Spot {
  x: number;
  y: number;
}
/** Area and centre of an outline x, y, x, y …; the centre of its box where it has no area. */
export function centre(points: readonly number[]): Spot & { area: number } {
  let area = 0;
  let x = 0;
  let y = 0;
  for (let i = 0; i < points.length; i += 2) {
    const j = (i + 2) % points.length;
    const cross = points[i] * points[j + 1] - points[j] * points[i + 1];
    area += cross / 2;
    x += ((points[i] + points[j]) * cross) / 6;
    y += ((points[i + 1] + points[j + 1]) * cross) / 6;
  }
  if (Math.abs(area) > 1e-9) return { x: x / area, y: y / area, area: Math.abs(area) };
  const xs = points.filter((_, i) => i % 2 === 0);
  const ys = points.filter((_, i) => i % 2 === 1);
  return { x: (Math.min(...xs) + Math.max(...xs)) / 2, y: (Math.min(...ys) + Math.max(...ys)) / 2, area: 0 };
}
/** The narrower side of the box round an outline. */
export function narrow(points: readonly number[]): number {
  const xs = points.filter((_, i) => i % 2 === 0);
  const ys = points.filter((_, i) => i % 2 === 1);
  return Math.min(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys));
}
export const path = (points: readonly number[], closed = true) => points.reduce((d, v, i) => d + (i % 2 ? ` ${v}` : `${i ? " L" : "M"}${v}`), "") + (closed ? " Z" : "");
/** For each panel of a view its largest shape: there its mark stands. */
export function mark_spots(view: DrawnView): Map<string, Spot> {
  const best = new Map<string, Spot & { area: number }>();
  for (const s of view.shapes) {
    if (!s.panel) continue;
    const c = centre(s.points);
    if (c.area > (best.get(s.panel)?.area ?? -1)) best.set(s.panel, c);
  }
  return best;
}
/** Shapes that are smaller than a finger at this scale, with the width of a rim that makes them large enough. */
export function thin_shapes(view: DrawnView, scale: number, finger = 40): { shape: DrawnShape; rim: number }[] {
  return view.shapes.flatMap((shape) => {
    const px = narrow(shape.points) * scale;
    return shape.panel && px < finger ? [{ shape, rim: (finger - px) / scale }] : [];
  });
}
/** Readings as people type them: "4.1 4.3 4,2" or "4.1; 4.3"; a comma between figures with points parts them. */
export function parse_values(text: string): Read<number[]> {
  const parts = text.trim().split(/\s*;\s*|\s+|,\s+/).filter(Boolean);
  if (!parts.length) return { ok: false, why: "Type what the instrument showed, like “4.1 4.3 4.2”." };
  const out: number[] = [];
  for (const part of parts) {
    const read = parse_number(part);
    if (!read.ok) return read;
    out.push(read.value);
  }
  return { ok: true, value: out };
}
