// Words for people and phones.
import type { Role } from "../wire";

export const role_words: Record<Role, string> = { none: "not signed in", reader: "reader", technician: "technician", owner: "owner" };
export const role_notes: Record<Exclude<Role, "none">, string> = {
  reader: "looks at everything, judges and compares, changes nothing",
  technician: "records, keeps and changes the work",
  owner: "all of it, and lets others in",
};

/** Eight pairs to a line, as phones show it and as the first page on the phone does. */
export function fingerprint_lines(fingerprint: string): string[] {
  const pairs = fingerprint.split(":");
  return Array.from({ length: Math.ceil(pairs.length / 8) }, (_, i) => pairs.slice(8 * i, 8 * i + 8).join(":"));
}

/** How long ago, in the coarsest words that are true. */
export function ago(iso: string, now: number): string {
  const minutes = Math.floor((now - Date.parse(iso)) / 60000);
  if (!(minutes >= 6)) return "just now";
  if (minutes < 60) return `${minutes} min ago`;
  if (minutes < 48 * 60) return `${Math.floor(minutes / 60)} h ago`;
  return `${Math.floor(minutes / 1440)} days ago`;
}

/** The code behind the hash of a pairing address; empty when there is none. */
export const code_of = (hash: string): string => (/^#[A-Za-z0-9_-]{22}$/.test(hash) ? hash.slice(1) : "");
export const qr_image = (svg: string): string => `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`;
