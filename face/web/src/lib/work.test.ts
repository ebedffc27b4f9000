import { describe, expect, it, vi } from "vitest";
import { at_length, look_after_ms, type WorkLine } from "./work";

type Line = WorkLine<string, string>;
const running = { done_1: 0.1, doing: "", finished: false };
const over = { ...running, done_1: 1, finished: true, answer: "whole" };
const line = (more: Partial<Line> = {}): Line => ({ begin: async () => ({ id: "w1" }), look: async () => over, drop: vi.fn(async () => {}), fault: (e) => `told: ${e}`, ...more });
const never = new AbortController().signal;

describe("work that takes long", () => {
  it("is looked at until its answer is there, and tells how far it is", async () => {
    vi.useFakeTimers();
    const states = [{ done_1: 0.2, doing: "one" }, { done_1: 0.7, doing: "two" }];
    let i = 0;
    const told: [number, string][] = [];
    const got = at_length(line({ look: async () => (i < 2 ? { ...running, ...states[i++] } : over) }), "q", never, (d, w) => told.push([d, w]));
    await vi.advanceTimersByTimeAsync(look_after_ms[0] + look_after_ms[1]);
    expect(await got).toBe("whole");
    expect(told).toEqual([[0.2, "one"], [0.7, "two"]]);
    vi.useRealTimers();
  });
  it("says why where it ended without an answer", async () => {
    await expect(at_length(line({ look: async () => ({ ...over, answer: undefined, problem: "too little" }) }), "q", never, () => {})).rejects.toBe("told: too little");
  });
  it("passes a refusal on", async () => {
    await expect(at_length(line({ begin: () => Promise.reject("wrong") }), "q", never, () => {})).rejects.toBe("wrong");
    await expect(at_length(line({ look: () => Promise.reject("lost") }), "q", never, () => {})).rejects.toBe("lost");
  });
  it("is dropped when it is broken off, and only then", async () => {
    const control = new AbortController();
    const l = line({ look: async () => running });
    const got = at_length(l, "q", control.signal, () => control.abort());
    await expect(got).rejects.toBeDefined();
    expect(l.drop).toHaveBeenCalledExactlyOnceWith("w1");
    const whole = line();
    await at_length(whole, "q", never, () => {});
    expect(whole.drop).not.toHaveBeenCalled();
  });
});
