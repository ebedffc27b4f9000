import { describe, expect, it } from "vitest";
import { amount_text, crossing, drying_sentence, height, of_interest, ph_text, round_ticks, tick_text } from "./curve";

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

describe("the way of the pH while a liquid dries", () => {
  const ph = { value: 9.5, plus_minus: 0.02, unit: "pH", standing: "derived" as const, band_from: "" };
  const path = (...from_wet: number[]) => from_wet.map((y, i) => ({ x: 100 - 30 * i, y })).reverse();
  it("is told with the dip between its ends, and not made up where there is none", () => {
    expect(drying_sentence(path(9.9, 9.13, 9.98), ph)).toBe("It goes from pH 9.9 by way of pH 9.1 to pH 10.0 while the water leaves.");
    expect(drying_sentence(path(4, 5.5, 4.2), ph)).toBe("It goes from pH 4.0 by way of pH 5.5 to pH 4.2 while the water leaves.");
    expect(drying_sentence(path(2.41, 2.5, 2.8), ph)).toBe("It goes from pH 2.4 to pH 2.8 while the water leaves.");
    expect(drying_sentence(path(5.99, 6.02, 5.98), ph)).toBe("It stays near pH 6.0 while the water leaves.");
    expect(drying_sentence(path(7.4, 7.9, 8), { ...ph, plus_minus: 0.8 })).toBe("It stays near pH 7.4 while the water leaves.");
  });
});
