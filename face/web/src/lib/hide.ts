// Draws the cut through the hide. Colour says the quantity, texture says the layer; the caller writes the numbers.
import type { Profile } from "../wire";
import { ph_css, shade_css } from "./colour";
import { at_depth, type Drawn } from "./ruler";

export type Quantity = "ph" | "alkali_mol_kg" | "water_pct";

/** Largest size of a quantity over the whole story, for its colour scale. */
export function largest(profile: Profile, quantity: Quantity): number {
  let top = 0;
  for (const line of profile[quantity]) for (const v of line) if (v !== null && Math.abs(v) > top) top = Math.abs(v);
  return top || 1;
}
function colour(quantity: Quantity, value: number | null, top: number): string | null {
  if (value === null) return null;
  return quantity === "ph" ? ph_css(value) : shade_css(Math.abs(value) / top);
}

/** Same marks on every machine: a small fixed generator, no chance. */
function dice(seed: number): () => number {
  let s = seed >>> 0;
  return () => {
    s = (Math.imul(s, 1664525) + 1013904223) >>> 0;
    return s / 4294967296;
  };
}

function grain_texture(pen: CanvasRenderingContext2D, width: number, top: number, bottom: number, ink: string): void {
  const roll = dice(11);
  pen.strokeStyle = ink;
  pen.lineWidth = 0.8;
  pen.globalAlpha = 0.34;
  for (let i = 0; i < (width * (bottom - top)) / 190; i++) {
    const x = roll() * width;
    const y = top + roll() * (bottom - top);
    const long = 4 + roll() * 7;
    const lean = (roll() - 0.5) * 5;
    pen.beginPath();
    pen.moveTo(x, y);
    pen.quadraticCurveTo(x + long / 2, y + lean, x + long, y + (roll() - 0.5) * 3);
    pen.stroke();
  }
  pen.globalAlpha = 0.5;
  pen.lineWidth = 1.2;
  const follicles = Math.max(2, Math.round(width / 110));
  for (let i = 0; i < follicles; i++) {
    const x = ((i + 0.35 + roll() * 0.3) / follicles) * width;
    const deep = top + (bottom - top) * (0.55 + roll() * 0.3);
    pen.beginPath();
    pen.moveTo(x - 3, top);
    pen.bezierCurveTo(x - 1, top + 10, x + 5, deep - 16, x + 7, deep);
    pen.bezierCurveTo(x + 11, deep - 14, x + 5, top + 10, x + 4, top);
    pen.stroke();
  }
  pen.globalAlpha = 1;
}
function corium_texture(pen: CanvasRenderingContext2D, width: number, top: number, bottom: number, ink: string): void {
  // Bundles of fibres that cross each other: one bundle per field of a loose grid, so that none crowds another.
  const roll = dice(29);
  const field = 34;
  pen.strokeStyle = ink;
  pen.lineWidth = 0.9;
  pen.globalAlpha = 0.3;
  for (let row = 0; row * field * 0.62 < bottom - top; row++) {
    for (let col = -1; col * field * 1.5 < width; col++) {
      const x = (col + (row % 2) / 2 + roll() * 0.4) * field * 1.5;
      const y = top + (row + 0.2 + roll() * 0.5) * field * 0.62;
      const long = field * (1.3 + roll() * 0.8);
      const way = (row + col) % 2 ? -1 : 1;
      const lean = way * (4 + roll() * 6);
      const fall = way * long * (0.15 + roll() * 0.3);
      const strands = 3 + Math.floor(roll() * 2);
      for (let s = 0; s < strands; s++) {
        const gap = s * 2.6;
        pen.beginPath();
        pen.moveTo(x, y + gap);
        pen.bezierCurveTo(x + long * 0.3, y + lean + gap * 0.8, x + long * 0.65, y + fall - lean + gap * 1.2, x + long, y + fall + gap);
        pen.stroke();
      }
    }
  }
  pen.globalAlpha = 1;
}
function clipped(pen: CanvasRenderingContext2D, width: number, l: Drawn, draw: () => void): void {
  pen.save();
  pen.beginPath();
  pen.rect(0, l.top, width, l.bottom - l.top);
  pen.clip();
  draw();
  pen.restore();
}

export interface Scene {
  profile: Profile;
  layers: Drawn[];
  at: number;
  quantity: Quantity;
  top: number;
  width: number;
  /** Colour of the page, where nothing is. */
  ground: string;
}

export function draw_hide(pen: CanvasRenderingContext2D, scene: Scene): void {
  const { profile, layers, at, quantity, top, width, ground } = scene;
  const height = layers[layers.length - 1].bottom;
  const ink = "#201812";
  pen.fillStyle = ground;
  pen.fillRect(0, 0, width, height);
  const film = layers[0];
  const film_um = profile.film_um[at] ?? 0;
  if (film_um > 0) {
    const most = Math.max(...profile.film_um);
    const tall = Math.max(3, (film.bottom - film.top - 4) * Math.sqrt(film_um / most));
    const fill = quantity === "ph" ? colour("ph", profile.film_ph[at] ?? null, 1) : null;
    pen.fillStyle = fill ?? "#bcd3dc";
    pen.beginPath();
    pen.moveTo(0, film.bottom);
    pen.lineTo(0, film.bottom - tall);
    const waves = Math.max(3, Math.round(width / 90));
    for (let i = 0; i < waves; i++) {
      pen.quadraticCurveTo(((i + 0.5) / waves) * width, film.bottom - tall + (i % 2 ? 4 : -4), ((i + 1) / waves) * width, film.bottom - tall);
    }
    pen.lineTo(width, film.bottom);
    pen.closePath();
    pen.fill();
    pen.strokeStyle = ink;
    pen.lineWidth = 1;
    pen.stroke();
  }
  const line = profile[quantity][at];
  for (const l of layers.slice(1)) {
    for (let y = Math.floor(l.top); y < l.bottom; y++) {
      const um = l.top_um + ((y + 0.5 - l.top) / (l.bottom - l.top)) * (l.bottom_um - l.top_um);
      pen.fillStyle = colour(quantity, at_depth(profile.depth_um, line, um), top) ?? ground;
      pen.fillRect(0, y, width, 1.5);
    }
    if (l.name === "grain") clipped(pen, width, l, () => grain_texture(pen, width, l.top, l.bottom, ink));
    if (l.name === "corium") clipped(pen, width, l, () => corium_texture(pen, width, l.top, l.bottom, ink));
    if (l.name === "finish") {
      // Torn edges left and right: this layer is drawn thicker than it is.
      pen.fillStyle = ground;
      for (const [edge, way] of [[0, 1], [width, -1]] as const) {
        pen.beginPath();
        pen.moveTo(edge, l.top);
        for (let k = 0; k <= 6; k++) pen.lineTo(edge + way * (k % 2 ? 7 : 1), l.top + (k / 6) * (l.bottom - l.top));
        pen.lineTo(edge, l.bottom);
        pen.closePath();
        pen.fill();
      }
    }
    pen.strokeStyle = ink;
    pen.lineWidth = l.name === "finish" ? 2 : 1;
    pen.beginPath();
    pen.moveTo(0, l.top);
    pen.lineTo(width, l.top);
    pen.stroke();
  }
  pen.strokeStyle = ink;
  pen.lineWidth = 1;
  pen.strokeRect(0.5, film.bottom, width - 1, height - film.bottom - 0.5);
}
