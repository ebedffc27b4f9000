import { describe, expect, it } from "vitest";
import { back_field_of, build_rebalance, build_refine, hours_since, judged_part, looks_of, now_of, over_by, parse_hours, passes_of, rows_of, said_when, with_pass, with_reading, without_row } from "./back";
import { from_search, to_search, type Form } from "./request";

const noon = Date.parse("2026-03-04T12:00:00Z");
const told: Form = { people: "well", liquid: "a17", leather: "chair", count: "40 g", area: "1800 cm²", dwell: "8 min", wiped: "20 %", ago: "3 days" };

describe("when it happened", () => {
  it("takes days, hours and weeks, and bare numbers as hours", () => {
    expect(["3 days", "5 h", "20 min", "36", "2 weeks"].map((t) => parse_hours(t))).toEqual([72, 5, 0.33, 36, 336].map((value) => ({ ok: true, value })));
    expect(parse_hours("long ago")).toEqual({ ok: false, why: "Write a time like “3 days”, “5 h” or “20 min”." });
  });
  it("goes on from the moment at which it was told", () => {
    expect(hours_since(told, noon)).toBe(72);
    expect(hours_since({ ...told, told: "2026-03-04T09:00Z" }, noon)).toBe(75);
    expect(hours_since({}, noon)).toBe(24);
  });
  it("does not run backwards where a clock is wrong", () => expect(hours_since({ ...told, told: "2026-03-05T09:00Z" }, noon)).toBe(72));
  it("says when a reading was taken", () => expect([said_when(72, 72), said_when(48, 72), said_when(0, 72)]).toEqual(["now", "24 h ago", "before it happened"]));
});

describe("a pass that was worked faster than its clocks", () => {
  const pass = { liquid: "water", g_m2: 30, dwell_s: 60, blotted_pct: 60, at_h: 72 };
  it("is left as it is where its time has passed", () => expect(over_by(73, pass, [])).toEqual(pass));
  it("ended by now", () => expect(over_by(72, pass, [])).toEqual({ ...pass, at_h: 72 - 60 / 3600 }));
  it("began when the one before was over, and now is not before its end", () => {
    const second = over_by(72, pass, [over_by(72, pass, [])]);
    expect(second.at_h).toBeCloseTo(72, 9);
    expect(now_of(with_pass({ ago: "3 days" }, second), noon)).toBeCloseTo(72 + 60 / 3600, 9);
    expect(now_of({ ago: "3 days" }, noon)).toBe(72);
  });
});

describe("readings and passes in the address", () => {
  const read = with_reading(with_reading(told, { kind: "surface_ph", value_1: 7.6, at_h: 72 }), { kind: "product_drops", value_1: 31, drops: { product_ml: 2, acid: "acetic acid", acid_pct: 5, drop_ml: 0.05, end_ph: 5.5 } });
  const done = with_pass(read, { liquid: "clean-water", g_m2: 30, dwell_s: 60, blotted_pct: 60, at_h: 73.5 });
  it("come back as they went in", () => {
    const again = from_search(to_search(done).toString());
    expect(looks_of(again).map((r) => r.value)).toEqual([
      { kind: "surface_ph", value_1: 7.6, at_h: 72 },
      { kind: "product_drops", value_1: 31, at_h: 0, drops: { product_ml: 2, acid: "acetic acid", acid_pct: 5, drop_ml: 0.05, end_ph: 5.5 } },
    ]);
    expect(passes_of(again)).toEqual([{ row: 0, value: { liquid: "clean-water", g_m2: 30, dwell_s: 60, blotted_pct: 60, at_h: 73.5 } }]);
  });
  it("leave the others as they are when one is taken out", () => {
    const left = without_row(done, "r", 0);
    expect(looks_of(left).map((r) => r.value.kind)).toEqual(["product_drops"]);
    const more = with_reading(left, { kind: "control_ph", value_1: 4.6, at_h: 72 });
    expect(rows_of(more, "r")).toEqual([1, 2]);
    expect(back_field_of("known.readings[1].value_1", more)).toBe("r2_value");
  });
  it("do not go to the page that judges", () => expect(judged_part({ ...done, piece: "x", may: "vinegar" })).toEqual({ people: "well", liquid: "a17", leather: "chair", count: "40 g", area: "1800 cm²", dwell: "8 min", wiped: "20 %" }));
});

describe("the request", () => {
  it("holds only what was said", () => {
    const { request } = build_rebalance({ people: "well", liquid: "a17", leather: "chair" }, undefined, noon);
    expect(request).toEqual({ known: { happened: { liquid: { id: "a17" }, leather: { id: "chair" } }, now_h: 24 } });
  });
  it("treats what was wetted, unless another area is said", () => {
    expect(build_rebalance(told, undefined, noon).request?.area_cm2).toBe(1800);
    expect(build_rebalance({ ...told, treat: "0.25 m²" }, undefined, noon).request?.area_cm2).toBe(2500);
  });
  it("says how the leather stands and what is wished", () => {
    const { request } = build_rebalance({ ...told, tacky: "yes", spot: "yes", spot_g: "25 g/m2", weak: "40 %", did: "vinegar,steam", win_high: "pH 5", piece: "p", panel: "SC1" }, undefined, noon);
    expect(request).toMatchObject({ tacky: true, spot_passed: true, spot_g_m2: 25, fibre_weak_pct: 40, history: ["vinegar", "steam"], window_high_ph: 5, known: { piece: "p", panel: "SC1", now_h: 72 } });
    expect(request?.still_wet).toBeUndefined();
  });
  it("needs no liquid where nothing was laid on, and names what met it not at all", () => {
    const { request } = build_refine({ people: "well", nothing: "yes", leather: "chair", meets: "bleach" }, undefined, noon);
    expect(request?.nothing_laid).toBe(true);
    expect(request?.happened.liquid?.id).toBeUndefined();
    expect(request?.happened.meets).toBeUndefined();
  });
  it("tells what cannot be read at its field, and asks nothing then", () => {
    const { request, problems } = build_rebalance({ ...told, ago: "a while", weak: "half" }, undefined, noon);
    expect(request).toBeNull();
    expect(Object.keys(problems).sort()).toEqual(["ago", "weak"]);
  });
  it("finds the field that the program names", () => {
    expect(["known.happened.use.dwell_s", "area_cm2", "known.now_h", "known.happened.liquid.id"].map((w) => back_field_of(w, told))).toEqual(["dwell", "treat", "ago", "liquid"]);
  });
});
