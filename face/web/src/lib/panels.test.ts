import { describe, expect, it } from "vitest";
import { centre, mark_spots, narrow, parse_values, path, thin_shapes } from "./panels";

const square = [0, 0, 10, 0, 10, 10, 0, 10];
const strip = [0, 10, 10, 10, 10, 12, 0, 12];
const shape = (panel: string, points: number[]) => ({ panel, points, lines: [], light_1: 1 });
const view = { key: "v", name: "View", width_1: 10, height_1: 12, shapes: [shape("A", square), shape("B", strip), shape("", strip), shape("A", [0, 0, 1, 0, 1, 1])] };

describe("panels on a drawing", () => {
  it("have their mark in the middle of their largest shape", () => {
    expect(centre(square)).toEqual({ x: 5, y: 5, area: 100 });
    expect(mark_spots(view).get("A")).toMatchObject({ x: 5, y: 5 });
    expect([...mark_spots(view).keys()]).toEqual(["A", "B"]);
    expect(centre([0, 0, 4, 2])).toMatchObject({ x: 2, y: 1, area: 0 });
  });
  it("get a rim where a finger would not meet them", () => {
    expect(narrow(strip)).toBe(2);
    const thin = thin_shapes(view, 4, 40);
    expect(thin.map((t) => [t.shape.panel, t.rim])).toEqual([["B", 8], ["A", 9]]);
  });
  it("are drawn as they come", () => expect(path([0, 0, 1, 0, 1, 1])).toBe("M0 0 L1 0 L1 1 Z"));
});

describe("readings typed in a row", () => {
  it("may be parted by blanks, semicolons or a comma and a blank", () => {
    for (const text of ["4.1 4.3 4.2", "4.1; 4.3;4.2", "4,1 4,3 4,2", "4.1, 4.3, 4.2"]) expect(parse_values(text)).toEqual({ ok: true, value: [4.1, 4.3, 4.2] });
    expect(parse_values("-0.5")).toEqual({ ok: true, value: [-0.5] });
  });
  it("are asked for again when they cannot be read", () => {
    expect(parse_values("").ok).toBe(false);
    expect(parse_values("4.1 x").ok).toBe(false);
  });
});
