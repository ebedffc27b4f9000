import { describe, expect, it } from "vitest";
import { clock_words, still_words } from "./clock";

describe("times of spots", () => {
  const now = new Date(2026, 2, 2, 9, 0, 0);
  const at = (h: number, m = 0) => new Date(2026, 2, 2, h, m).toISOString();
  it("says how long still, rounded up, and nothing once it is over", () => {
    expect(still_words(at(9, 20), now)).toBe("20 min");
    expect(still_words(at(12), now)).toBe("3 h");
    expect(still_words(at(12, 20), now)).toBe("3 h 20 min");
    expect(still_words(at(9), now)).toBe("");
  });
  it("names the day where it is another", () => {
    expect(clock_words(at(12), now)).not.toContain(",");
    expect(clock_words(new Date(2026, 2, 3, 9).toISOString(), now)).toContain(",");
  });
});
