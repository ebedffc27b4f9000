// Places things along a scale.

/** Linear map from [from, to] onto [0, length], ends held. */
export function place(value: number, from: number, to: number, length: number): number {
  const t = (value - from) / (to - from);
  return Math.min(Math.max(t, 0), 1) * length;
}

/** Whole-unit window that holds all values, at least `least` wide, within the pH scale. */
export function ph_window(values: readonly number[], least = 8): [number, number] {
  const good = values.filter(Number.isFinite);
  let from = Math.floor(Math.min(3, ...good) - 0.25);
  let to = Math.ceil(Math.max(8, ...good) + 0.25);
  while (to - from < least) to < 14 ? to++ : from--;
  return [Math.max(from, -1), Math.min(to, 15)];
}

/** Rows for labels of one width, or of a width each, so that none overlaps its neighbour: greedy, left to right. */
export function rows(places: readonly number[], widths: number | readonly number[]): number[] {
  const half = (i: number) => (typeof widths === "number" ? widths : widths[i]) / 2;
  const order = places.map((x, i) => [x, i] as const).sort((a, b) => a[0] - half(a[1]) - (b[0] - half(b[1])));
  const ends: number[] = [];
  const out = new Array<number>(places.length).fill(0);
  for (const [x, i] of order) {
    let row = ends.findIndex((end) => x - half(i) >= end);
    if (row < 0) row = ends.length;
    ends[row] = x + half(i);
    out[i] = row;
  }
  return out;
}

/** Indices of marks that would stand on one another, as groups in order; each group is drawn as one. */
export function together(places: readonly number[], within = 1): number[][] {
  const order = places.map((x, i) => [x, i] as const).sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const out: { x: number; list: number[] }[] = [];
  for (const [x, i] of order) {
    const last = out[out.length - 1];
    if (last && x - last.x <= within) last.list.push(i);
    else out.push({ x, list: [i] });
  }
  return out.map((g) => g.list.sort((a, b) => a - b));
}

export interface Drawn {
  name: string;
  top_um: number;
  bottom_um: number;
  /** Place on the picture, pixels. */
  top: number;
  bottom: number;
  /** How many times thicker than true to scale; 1 = true. */
  stretch: number;
}
/** Layers of the section on `height` pixels: grain and corium true to scale, finish and film stretched to be seen. */
export function stack_layers(layers: readonly { name: string; top_um: number; bottom_um: number }[], film_um: number, height: number): Drawn[] {
  const film_height = 30;
  const thin_height = 34;
  const solid = layers.filter((l) => l.name !== "film" && l.bottom_um > l.top_um);
  const um_of = (list: typeof solid) => list.reduce((sum, l) => sum + l.bottom_um - l.top_um, 0) || 1;
  const thin = solid.filter((l) => l.name === "finish");
  let scale = (height - film_height - thin_height * thin.length) / um_of(solid.filter((l) => l.name !== "finish"));
  // A finish thick enough to be seen as it is shares the true scale, so that the whole stays inside the picture.
  if (thin.length && um_of(thin) * scale > thin_height) scale = (height - film_height) / um_of(solid);
  const out: Drawn[] = [{ name: "film", top_um: -film_um, bottom_um: 0, top: 0, bottom: film_height, stretch: 0 }];
  let y = film_height;
  for (const l of solid) {
    const um = l.bottom_um - l.top_um;
    const tall = l.name === "finish" ? Math.max(thin_height, um * scale) : um * scale;
    out.push({ ...l, top: y, bottom: y + tall, stretch: tall / (um * scale) });
    y += tall;
  }
  return out;
}

/** Value at a depth from cell centres; ends held; null where nothing is known. */
export function at_depth(depth_um: readonly number[], values: readonly (number | null)[], um: number): number | null {
  if (!depth_um.length) return null;
  if (um <= depth_um[0]) return values[0];
  let low = 0;
  let high = depth_um.length - 1;
  if (um >= depth_um[high]) return values[high];
  while (high - low > 1) {
    const mid = (low + high) >> 1;
    if (depth_um[mid] <= um) low = mid;
    else high = mid;
  }
  const a = values[low];
  const b = values[high];
  if (a === null || b === null) return a ?? b;
  return a + ((um - depth_um[low]) / (depth_um[high] - depth_um[low])) * (b - a);
}
/** Index of the time nearest to `seconds`. */
export function nearest(time_s: readonly number[], seconds: number): number {
  let best = 0;
  for (let i = 1; i < time_s.length; i++) if (Math.abs(time_s[i] - seconds) < Math.abs(time_s[best] - seconds)) best = i;
  return best;
}
