import { describe, expect, it } from "vitest";
import { leather, liquid } from "../fixtures/judgement";
import { build_comparison, demo_pick, id_of, picked, toggled } from "./comparing";

describe("several at once", () => {
  it("are asked when there are two judgements to make, with one use for all", () => {
    expect(build_comparison({ liquids: "a", leathers: "x" }).request).toBe(null);
    expect(build_comparison({ liquids: "a,b", leathers: "" }).request).toBe(null);
    expect(build_comparison({ liquids: "a,b", leathers: "x" })).toEqual({ request: { liquids: [{ id: "a" }, { id: "b" }], leathers: [{ id: "x" }] }, problems: {}, count: 2 });
    const used = build_comparison({ people: "well", liquids: "a", leathers: "x,y", dilution: "1:10", dwell: "30 s" });
    expect(used.request?.uses).toEqual([{ name: "as asked", use: { parts_water: 10, dwell_s: 30 } }]);
    expect(used.count).toBe(2);
  });
  it("carry what else was on the same place, for it may not meet any of them", () => {
    expect(build_comparison({ liquids: "a,b", leathers: "x", meets: "c,d" }).request?.meets).toEqual(["c", "d"]);
  });
  it("are not asked while an entry cannot be read", () => {
    const got = build_comparison({ liquids: "a,b", leathers: "x", dwell: "soon" });
    expect(got.request).toBe(null);
    expect(Object.keys(got.problems)).toEqual(["dwell"]);
  });
  it("go in and out by a tap, in the order they were picked", () => {
    expect(toggled(["a", "b"], "c")).toBe("a,b,c");
    expect(toggled(["a", "b"], "a")).toBe("b");
    expect(picked({ liquids: "a,,b" }, "liquids")).toEqual(["a", "b"]);
  });
  it("lead back to their record only where the name is plain", () => {
    const twin = { ...liquid, id: "other" };
    expect(id_of(liquid.name, [liquid, twin], [liquid.id])).toBe(liquid.id);
    expect(id_of(liquid.name, [liquid, twin], [liquid.id, "other"])).toBe("");
  });
  it("are offered from the demo, and from nothing else", () => {
    const demo = [liquid, { ...liquid, id: "second" }];
    expect(demo_pick(demo, [leather])).toEqual({ liquids: "fixture-spray,second", leathers: "fixture-chair" });
    expect(demo_pick(demo.map((l) => ({ ...l, standing: "estimate" as const })), [leather])).toBe(null);
  });
});
