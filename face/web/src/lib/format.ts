// How numbers are written. The digits come from the band: never more than the band can carry.
import type { Number as Figure } from "../wire";

const minus = "\u2212";
const thin = "\u202f";

/** Decimal places that a band of this half width leaves meaningful: one digit of the band, two when it starts with 1. */
export function places(plus_minus: number): number {
  if (!(plus_minus > 0) || !Number.isFinite(plus_minus)) return 0;
  const exponent = Math.floor(Math.log10(plus_minus) + 1e-9);
  const leading = plus_minus / 10 ** exponent;
  return Math.max(0, -(leading < 1.95 ? exponent - 1 : exponent));
}

/** A plain number with a set count of decimals, a true minus sign and groups of three from 10,000 on. */
export function fixed(value: number, decimals: number): string {
  const text = Math.abs(value).toFixed(Math.min(Math.max(decimals, 0), 8));
  const [whole, part] = text.split(".");
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, thin) : whole;
  const shown = part === undefined ? grouped : `${grouped}.${part}`;
  return value < 0 && /[1-9]/.test(shown) ? minus + shown : shown;
}

/** Three significant digits, for numbers that state no band. */
export function plain(value: number): string {
  if (value === 0) return "0";
  if (Number.isInteger(value) && Math.abs(value) < 1e6) return fixed(value, 0);
  const exponent = Math.floor(Math.log10(Math.abs(value)));
  if (exponent < -4) return `${fixed(value / 10 ** exponent, 1)} × 10${raised(exponent)}`;
  return trimmed(fixed(value, Math.max(0, 2 - exponent)));
}
function trimmed(text: string): string {
  return text.includes(".") ? text.replace(/0+$/, "").replace(/\.$/, "") : text;
}
function raised(exponent: number): string {
  const digits = "⁰¹²³⁴⁵⁶⁷⁸⁹";
  return (exponent < 0 ? "⁻" : "") + [...String(Math.abs(exponent))].map((d) => digits[+d]).join("");
}

export interface Written {
  value: string;
  band: string;
  unit: string;
}
/** A figure as it stands on the page. */
export function written(n: Figure): Written {
  if (n.value === null || !Number.isFinite(n.value)) return { value: "not stated", band: "", unit: "" };
  if (!(n.plus_minus > 0)) return { value: n.unit === "pH" ? fixed(n.value, 1) : plain(n.value), band: "", unit: n.unit };
  const decimals = places(n.plus_minus);
  return { value: fixed(n.value, decimals), band: fixed(n.plus_minus, decimals), unit: n.unit };
}
export function as_text(n: Figure): string {
  const w = written(n);
  const band = w.band ? ` ± ${w.band}` : "";
  return w.unit === "pH" ? `pH ${w.value}${band}` : `${w.value}${band}${w.unit && w.unit !== "1" ? ` ${w.unit}` : ""}`;
}

/** Seconds in the words of a workshop. */
export function duration(seconds: number): string {
  if (!Number.isFinite(seconds)) return "not stated";
  if (seconds < 1) return seconds <= 0 ? "0 s" : "under 1 s";
  if (seconds < 100) return `${fixed(seconds, 0)} s`;
  if (seconds < 5400) return `${trimmed(fixed(seconds / 60, seconds < 600 && seconds % 60 >= 6 ? 1 : 0))} min`;
  if (seconds < 48 * 3600) return `${trimmed(fixed(seconds / 3600, 1))} h`;
  return `${trimmed(fixed(seconds / 86400, 1))} days`;
}
/** How long a test takes, from its minutes: what is read a day later is two minutes of work. */
export function test_time(minutes: number): string {
  if (!(minutes > 0)) return "";
  if (minutes >= 1440) return `2 min of work, read after ${trimmed(fixed(minutes / 60, 1))} h`;
  const count = (n: number, word: string) => (n ? `${n} ${word}${n === 1 ? "" : "s"}` : "");
  const whole = Math.max(1, Math.round(minutes));
  return `about ${[count(Math.floor(whole / 60), "hour"), count(whole % 60, "minute")].filter(Boolean).join(" ")}`;
}
/** Depth in the unit people picture. */
export function depth(um: number): string {
  return um >= 1000 ? `${fixed(um / 1000, 2)} mm` : `${fixed(um, um > 0 && um < 10 ? 1 : 0)} µm`;
}
/** How many times stronger a pH difference is; each unit is a factor of ten. */
export function times(units: number): string {
  const factor = 10 ** Math.abs(units);
  if (factor < 1.95) return "about the same";
  if (factor < 9.5) return `about ${factor.toFixed(0)} times`;
  const exponent = Math.floor(Math.log10(factor) + 1e-9);
  let lead = Math.round(factor / 10 ** exponent);
  let power = exponent;
  if (lead === 10) {
    lead = 1;
    power += 1;
  }
  if (power < 6) return `about ${fixed(lead * 10 ** power, 0)} times`;
  if (power < 9) return `about ${fixed(lead * 10 ** (power - 6), 0)} million times`;
  if (power < 12) return `about ${fixed(lead * 10 ** (power - 9), 0)} thousand million times`;
  return `about 10${raised(power)} times`;
}
/** Keeps a number and its unit on one line. */
export function glue(text: string): string {
  return text.replace(/(\d) (?=(?:%|°C|[µm]m|cm²|mg|mL|g|h|s|min|days?|mmol|sprays|wipes|grams)(?![a-z]))/g, "$1\u00a0").replace(/\bpH (?=\d)/g, "pH\u00a0");
}
export function day(iso: string): string {
  return iso.slice(0, 16).replace("T", " ");
}
