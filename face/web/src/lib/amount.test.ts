import { describe, expect, it } from "vitest";
import { hand_cm2, parse_area_cm2, parse_count, parse_number, parse_parts_water, parse_pct, parse_span, parse_time_s, type Read, write_parts_water, write_span, write_time } from "./amount";

const value = <T>(r: Read<T>): T => {
  if (!r.ok) throw new Error(r.why);
  return r.value;
};
const why = <T>(r: Read<T>): string => {
  if (r.ok) throw new Error(`was read as ${JSON.stringify(r.value)}`);
  return r.why;
};

describe("numbers", () => {
  it("take a decimal comma or a decimal point", () => {
    expect(value(parse_number("2,5"))).toBe(2.5);
    expect(value(parse_number(" 2.5 "))).toBe(2.5);
    expect(value(parse_number("0,125"))).toBe(0.125);
    expect(value(parse_number(",5"))).toBe(0.5);
    expect(value(parse_number("\u22121,2"))).toBe(-1.2);
  });
  it("take groups that can be read one way only", () => {
    expect(value(parse_number("12 500"))).toBe(12500);
    expect(value(parse_number("1,250.5"))).toBe(1250.5);
  });
  it("send back what can be read two ways, with both ways to write it", () => {
    expect(why(parse_number("1,000"))).toContain("1000 or 1.");
    expect(why(parse_number("12,500"))).toContain("12500 or 12.5.");
  });
  it("send back what is none", () => {
    for (const text of ["", "ten", "1.2.3", "1e5", "--2", "5-7", "<5"]) expect(parse_number(text).ok, text).toBe(false);
  });
});

describe("areas", () => {
  it("count a hand as 175 cm²", () => {
    expect(hand_cm2).toBe(175);
    expect(value(parse_area_cm2("5 hands", "cm2"))).toBe(875);
    expect(value(parse_area_cm2("2", "hands"))).toBe(350);
  });
  it("read metric and inch units, whatever the field shows", () => {
    expect(value(parse_area_cm2("900", "cm2"))).toBe(900);
    expect(value(parse_area_cm2("900 cm²", "hands"))).toBe(900);
    expect(value(parse_area_cm2("0,09 m2", "cm2"))).toBe(900);
    expect(value(parse_area_cm2("1 sq ft", "cm2"))).toBe(929.0304);
    expect(value(parse_area_cm2("1in²", "cm2"))).toBe(6.4516);
  });
  it("send back a unit of another kind with the remedy", () => {
    expect(why(parse_area_cm2("5 min", "cm2"))).toContain("cm²");
    expect(why(parse_area_cm2("some", "cm2"))).toContain("no number");
  });
});

describe("times", () => {
  it("are minutes when bare, else what they say", () => {
    expect(value(parse_time_s("2"))).toBe(120);
    expect(value(parse_time_s("90 s"))).toBe(90);
    expect(value(parse_time_s("1,5 h"))).toBe(5400);
    expect(value(parse_time_s("1 day"))).toBe(86400);
  });
  it("are written so that they read back the same", () => {
    for (const s of [1, 30, 90, 120, 600, 3600, 86400]) expect(value(parse_time_s(write_time(s)))).toBe(s);
  });
});

describe("amounts", () => {
  it("count what is chosen, and a typed unit wins", () => {
    expect(value(parse_count("5", "sprays"))).toEqual({ amount: "sprays", count: 5 });
    expect(value(parse_count("10 g", "sprays"))).toEqual({ amount: "grams", count: 10 });
    expect(value(parse_count("2 wipes", "grams"))).toEqual({ amount: "cloth_wipes", count: 2 });
  });
  it("take a metric teaspoon as 5 mL", () => {
    expect(value(parse_count("2 tsp", "sprays"))).toEqual({ amount: "grams", count: 10 });
  });
  it("count grams on a square metre out for the area", () => {
    expect(value(parse_count("50 g/m2", "sprays", 900))).toEqual({ amount: "grams", count: 4.5 });
    expect(value(parse_count("12,5 g/m²", "sprays", 10000))).toEqual({ amount: "grams", count: 12.5 });
  });
  it("send back what is none", () => {
    expect(parse_count("50 g/m2", "sprays").ok).toBe(false);
    for (const text of ["1/2 cup", "some", "3 hands"]) expect(parse_count(text, "sprays").ok, text).toBe(false);
  });
});

describe("dilutions", () => {
  it("are parts of water to one part of product", () => {
    expect(value(parse_parts_water("neat"))).toBe(0);
    expect(value(parse_parts_water("1:10"))).toBe(10);
    expect(value(parse_parts_water("2 : 5"))).toBe(2.5);
    expect(value(parse_parts_water("1 to 4"))).toBe(4);
    expect(value(parse_parts_water("10"))).toBe(10);
    expect(value(parse_parts_water("10 parts of water"))).toBe(10);
    expect(value(parse_parts_water("5 %"))).toBe(19);
    expect(value(parse_parts_water("100%"))).toBe(0);
  });
  it("are written so that they read back the same", () => {
    for (const p of [0, 1, 2.5, 10, 50, 1000]) expect(value(parse_parts_water(write_parts_water(p)))).toBe(p);
  });
  it("send back what is none", () => {
    for (const text of ["0 %", "120 %", "0:5", "weak", "1:", ":5"]) expect(parse_parts_water(text).ok, text).toBe(false);
  });
});

describe("shares", () => {
  it("are per cent with or without the sign", () => {
    expect(value(parse_pct("2,5 %"))).toBe(2.5);
    expect(value(parse_pct("40"))).toBe(40);
  });
});

describe("a range", () => {
  const pct = (t: string) => parse_span(t, parse_pct, 0, 100);
  it("is read as data sheets print it", () => {
    for (const t of ["1 to 5 %", "1–5", "1 - 5 %", "≥ 1 - < 5 %", "1 % to 5 %", ">=1-<5", "1...5"]) expect(pct(t), t).toEqual({ ok: true, value: { from: 1, to: 5 } });
    expect(pct("2,5")).toEqual({ ok: true, value: { from: 2.5 } });
    expect(pct("0,1–0,5 %")).toEqual({ ok: true, value: { from: 0.1, to: 0.5 } });
    expect(pct("< 5 %")).toEqual({ ok: true, value: { from: 0, to: 5 } });
    expect(pct("> 30")).toEqual({ ok: true, value: { from: 30, to: 100 } });
    expect(parse_span("-0.5 to 1", parse_number)).toEqual({ ok: true, value: { from: -0.5, to: 1 } });
  });
  it("is asked again where an end is missing or the ends are turned round", () => {
    expect(pct("5 to 1").ok).toBe(false);
    expect(parse_span("< 11", parse_number).ok).toBe(false);
    expect(pct("some to many").ok).toBe(false);
  });
  it("is written as it is read", () => {
    expect([write_span(1, 5), write_span(2.5, null)]).toEqual(["1 to 5", "2.5"]);
  });
});
