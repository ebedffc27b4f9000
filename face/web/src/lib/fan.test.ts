import { describe, expect, it } from "vitest";
import { answer } from "../fixtures/judgement";
import { marks_of, nearest_point, placed, points_of, said_at, summary } from "./fan";

const [by_depth, by_time] = answer.sure.fans;

describe("a fan", () => {
  it("draws only points of which every figure is there", () => {
    const holed = { ...by_depth, median: by_depth.median.map((v, i) => (i === 2 ? null : v)) };
    expect(points_of(holed)).toHaveLength(by_depth.at.length - 1);
    expect(points_of({ ...by_depth, at: [], median: [] })).toEqual([]);
  });
  it("begins at nought, ends at one and never turns back, along depth and along time", () => {
    for (const fan of [by_depth, by_time]) {
      const last = fan.at[fan.at.length - 1] as number;
      const places = points_of(fan).map((p) => placed(fan, p.at, last));
      expect(placed(fan, 0, last)).toBe(0);
      expect(placed(fan, last, last)).toBe(1);
      expect([...places].sort((a, b) => a - b)).toEqual(places);
    }
  });
  it("marks its axis from seconds to a day, with room between the marks", () => {
    expect(marks_of(by_time, 86400)).toEqual([0, 10, 60, 600, 3600, 21600, 86400]);
    const at = marks_of(by_depth, 1100).map((m) => placed(by_depth, m, 1100));
    for (let i = 1; i < at.length; i++) expect(at[i] - at[i - 1]).toBeGreaterThanOrEqual(0.07);
  });
  it("is said in words with no digit that its spread cannot bear", () => {
    const p = points_of(by_depth)[1];
    expect(said_at(by_depth, p)).toBe("40 µm: pH 8.1 in the middle case; half of the cases lie between 7.8 and 8.4, nine in ten between 7.3 and 8.9");
    expect(summary(by_time, "now")).toMatch(/^what a drop on the surface would read\. now: pH 4\.4 /);
    expect(summary(by_time)).toMatch(/^what a drop on the surface would read\. before: pH 4\.4 .* 5 min: pH 8\.1 .* 24 h: pH 5\.1 /);
    expect(said_at({ ...by_depth, unit: "g/m²" }, { at: 0, median: 55.27, low_50: 49, high_50: 62, low_90: 41, high_90: 74 })).toMatch(/: 55 g\/m² in the middle case/);
  });
  it("finds the point under a finger", () => {
    const points = points_of(by_depth);
    expect(nearest_point(by_depth, points, 0, 1100)).toBe(0);
    expect(nearest_point(by_depth, points, 1, 1100)).toBe(points.length - 1);
  });
});
