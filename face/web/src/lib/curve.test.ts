import { describe, expect, it } from "vitest";
import { amount_text, crossing, height, of_interest, ph_text, round_ticks, tick_text } from "./curve";

describe("a small curve", () => {
  const falling = [{ x: -10, y: 12 }, { x: 0, y: 9 }, { x: 4, y: 7 }, { x: 20, y: 3 }];
  it("is read between its points", () => {
    expect(crossing(falling, 8)).toBe(2);
    expect(crossing(falling, 3)).toBe(20);
    expect(crossing(falling, 2)).toBe(null);
    expect(height(falling, -5)).toBe(10.5);
    expect(height(falling, 21)).toBe(null);
  });
  it("has round ticks inside its ends", () => {
    expect(round_ticks(-13, 77)).toEqual([0, 50]);
    expect(round_ticks(-0.013, 0.027, 4)).toEqual([-0.01, 0, 0.01, 0.02]);
    expect(round_ticks(5, 5)).toEqual([5]);
    expect(tick_text(-0.01, [-0.01, 0, 0.01])).toBe("\u22120.01");
    expect(tick_text(50, [0, 50])).toBe("50");
  });
  it("shows the way to the target, not the far ends", () => {
    const long = Array.from({ length: 201 }, (_, i) => ({ x: i - 100, y: 12 - i / 20 }));
    const near = of_interest(long, 6);
    expect([near[0].x, near[near.length - 1].x]).toEqual([-12, 32]);
    expect(of_interest(long, 1)).toEqual(long);
  });
});

describe("amounts on a curve", () => {
  it("carry two digits and never more than their band", () => {
    expect(amount_text(146.3, 2.9)).toBe("150");
    expect(amount_text(14.63, 0.1)).toBe("15");
    expect(amount_text(1.463, 0.1)).toBe("1.5");
    expect(amount_text(0.1463, 0.2)).toBe("0.1");
    expect(amount_text(-0.463, 1.21)).toBe("\u22120.5");
    expect(amount_text(0, 0.1)).toBe("0");
  });
  it("give a pH one decimal, or none where the band is wider", () => {
    const figure = { value: 7.71, plus_minus: 0.02, unit: "pH", standing: "derived" as const, band_from: "" };
    expect(ph_text(7.71, figure)).toBe("7.7");
    expect(ph_text(7.71, { ...figure, plus_minus: 2.3 })).toBe("8");
  });
});
