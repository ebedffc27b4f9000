// Colour readings typed or read in from a file: L*, a*, b*, one place a line.
import { parse_number, type Read } from "./amount";

export interface Lab {
  l: number;
  a: number;
  b: number;
}
const most = 200;
const fail = (why: string): Read<Lab[]> => ({ ok: false, why });

/** CGATS.17 text (ISO 28178): a data format with LAB_L, LAB_A, LAB_B, then the data. */
function from_cgats(text: string): Read<Lab[]> {
  const between = (a: string, b: string) => new RegExp(`^\\s*${a}\\s*$([\\s\\S]*?)^\\s*${b}\\s*$`, "m").exec(text)?.[1];
  const format = between("BEGIN_DATA_FORMAT", "END_DATA_FORMAT")?.trim().split(/\s+/);
  const data = between("BEGIN_DATA", "END_DATA");
  if (!format || data === undefined) return fail("The file begins like colour data and has no BEGIN_DATA_FORMAT and BEGIN_DATA.");
  const at = ["LAB_L", "LAB_A", "LAB_B"].map((f) => format.indexOf(f));
  if (at.includes(-1)) return fail("The file holds no LAB_L, LAB_A and LAB_B. Let the instrument save L*a*b* as well.");
  const out: Lab[] = [];
  for (const line of data.split("\n").map((l) => l.trim()).filter(Boolean)) {
    const cells = line.match(/"[^"]*"|\S+/g) ?? [];
    const [l, a, b] = at.map((i) => Number(cells[i]));
    if (![l, a, b].every(Number.isFinite)) return fail(`“${line.slice(0, 60)}” holds no three numbers where the format says.`);
    out.push({ l, a, b });
  }
  return out.length && out.length <= most ? { ok: true, value: out } : fail(out.length ? `More than ${most} readings: pick those of this panel.` : "The file holds no data.");
}

/** Lines as people type or paste them: "38.2 4.6 9.8", "38,2; 4,6; 9,8", a CSV with a head. */
export function parse_lab(text: string): Read<Lab[]> {
  if (/BEGIN_DATA|^CGATS/m.test(text)) return from_cgats(text.replace(/\r/g, ""));
  const out: Lab[] = [];
  for (const line of text.split(/\r?\n/).map((l) => l.trim()).filter(Boolean)) {
    if (!out.length && /[A-Za-z]/.test(line) && !/\d/.test(line.replace(/[A-Za-z*_]+\d*/g, ""))) continue; // a head
    const cells = line.includes(";") ? line.split(";") : /\s/.test(line) && !/,\s/.test(line) ? line.split(/\s+/) : line.split(/,\s*/);
    const read = cells.map((c) => c.trim()).filter(Boolean).map(parse_number);
    const bad = read.find((r) => !r.ok);
    if (bad && !bad.ok) return bad;
    if (read.length !== 3) return fail(`“${line.slice(0, 60)}” holds ${read.length} numbers. Write L*, a* and b*, one place a line, like “38.2 4.6 9.8”.`);
    const [l, a, b] = read.map((r) => (r.ok ? r.value : NaN));
    out.push({ l, a, b });
  }
  if (!out.length) return fail("Write L*, a* and b*, one place a line, like “38.2 4.6 9.8”.");
  return out.length <= most ? { ok: true, value: out } : fail(`More than ${most} readings: pick those of this panel.`);
}
