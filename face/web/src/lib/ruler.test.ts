import { describe, expect, it } from "vitest";
import { at_depth, nearest, ph_window, place, rows, stack_layers, together } from "./ruler";

describe("the ruler", () => {
  it("places linearly and holds its ends", () => {
    expect(place(7, 2, 12, 100)).toBe(50);
    expect(place(1, 2, 12, 100)).toBe(0);
    expect(place(13, 2, 12, 100)).toBe(100);
  });
  it("opens a whole-unit window that holds every reading", () => {
    for (const values of [[4.5], [2.2, 12.8], [13.5], [], [NaN, 5], [-0.5, 14.5]]) {
      const [from, to] = ph_window(values);
      expect(Number.isInteger(from) && Number.isInteger(to)).toBe(true);
      expect(to - from).toBeGreaterThanOrEqual(8);
      for (const v of values.filter(Number.isFinite)) {
        expect(v).toBeGreaterThanOrEqual(from);
        expect(v).toBeLessThanOrEqual(to);
      }
    }
  });
  it("gives labels rows in which none touches another", () => {
    const x = [10, 12, 14, 60, 200, 61];
    const got = rows(x, 40);
    for (let i = 0; i < x.length; i++) for (let k = 0; k < i; k++) if (got[i] === got[k]) expect(Math.abs(x[i] - x[k])).toBeGreaterThanOrEqual(40);
    expect(Math.max(...got)).toBe(2);
  });
  it("gives wide labels the room they need", () => {
    const x = [10, 40, 75, 76];
    const wide = [20, 60, 20, 20];
    const got = rows(x, wide);
    for (let i = 0; i < x.length; i++) for (let k = 0; k < i; k++) if (got[i] === got[k]) expect(Math.abs(x[i] - x[k])).toBeGreaterThanOrEqual((wide[i] + wide[k]) / 2);
    expect(rows([10, 100], [20, 60])).toEqual([0, 0]);
  });
  it("draws marks of one value as one, and others apart", () => {
    expect(together([50, 20, 50.4, 90, 20])).toEqual([[1, 4], [0, 2], [3]]);
    expect(together([])).toEqual([]);
    expect(together([1, 2, 3, 4], 1).flat().sort()).toEqual([0, 1, 2, 3]);
  });
});

describe("the section", () => {
  const layers = [
    { name: "finish", top_um: 0, bottom_um: 20 },
    { name: "grain", top_um: 20, bottom_um: 320 },
    { name: "corium", top_um: 320, bottom_um: 1220 },
  ];
  it("keeps grain and corium true to scale and says how far the finish is stretched", () => {
    const [film, finish, grain, corium] = stack_layers(layers, 50, 400);
    expect(film.bottom).toBe(finish.top);
    expect(corium.bottom).toBeCloseTo(400, 9);
    expect((corium.bottom - corium.top) / (grain.bottom - grain.top)).toBeCloseTo(3, 9);
    expect(grain.stretch).toBe(1);
    const scale = (grain.bottom - grain.top) / 300;
    expect(finish.stretch).toBeCloseTo((finish.bottom - finish.top) / (20 * scale), 9);
    expect(finish.stretch).toBeGreaterThan(1);
  });
  it("stays inside the picture with a thick finish, near or whole", () => {
    for (const finish of [0.5, 20, 40, 90, 300])
      for (const grain of [150, 300]) {
        const drawn = stack_layers([{ name: "finish", top_um: 0, bottom_um: finish }, { name: "grain", top_um: finish, bottom_um: finish + grain }], 50, 380);
        expect(drawn[drawn.length - 1].bottom).toBeCloseTo(380, 9);
        expect(drawn[1].bottom - drawn[1].top).toBeGreaterThanOrEqual(33.9);
        expect(drawn[1].stretch).toBeGreaterThanOrEqual(1 - 1e-12);
        expect(drawn[2].stretch).toBe(1);
      }
  });
  it("draws an unfinished leather without a finish", () => {
    expect(stack_layers(layers.slice(1).map((l) => ({ ...l, top_um: l.top_um - 20, bottom_um: l.bottom_um - 20 })), 0, 400).map((l) => l.name)).toEqual(["film", "grain", "corium"]);
  });
  it("reads between cells and holds the ends", () => {
    expect(at_depth([0, 10, 20], [4, 6, 5], 5)).toBe(5);
    expect(at_depth([0, 10, 20], [4, 6, 5], 15)).toBe(5.5);
    expect(at_depth([5, 10], [4, 6], 0)).toBe(4);
    expect(at_depth([5, 10], [4, 6], 99)).toBe(6);
    expect(at_depth([], [], 1)).toBe(null);
  });
  it("finds the nearest moment", () => {
    expect(nearest([0, 10, 100], 54)).toBe(1);
    expect(nearest([0, 10, 100], 56)).toBe(2);
  });
});
