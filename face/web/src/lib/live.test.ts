import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { live, pace } from "./live";

interface Asked {
  question: string;
  rough: boolean;
  signal: AbortSignal;
  answer: (text: string) => void;
  refuse: (why: unknown) => void;
}
function bench() {
  const asked: Asked[] = [];
  const shown: [string, string, boolean][] = [];
  const failed: unknown[] = [];
  const busy: (number | null)[] = [];
  const it = live<string>({
    ask: (question, rough, signal) => new Promise((answer, refuse) => asked.push({ question, rough, signal, answer, refuse })),
    show: (...all) => shown.push(all),
    fail: (fault) => failed.push(fault),
    busy: (since) => busy.push(since),
  });
  return { ...it, asked, shown, failed, busy };
}
beforeEach(() => vi.useFakeTimers());
afterEach(() => vi.useRealTimers());
const last = <T>(list: T[]): T => list[list.length - 1];
const settle = () => vi.advanceTimersByTimeAsync(0);

/** Lets time pass, and what was promised come in. */
const pass = (ms: number) => vi.advanceTimersByTimeAsync(ms);
const kinds = (list: Asked[]) => list.map((a) => [a.question, a.rough, a.signal.aborted]);

describe("asking when it rests", () => {
  it("shows a rough answer first and the full one after it, with the wait counted from the first", async () => {
    const b = bench();
    b.rest("1");
    await pass(pace.resting_ms);
    expect(kinds(b.asked)).toEqual([["1", true, false]]);
    const since = last(b.busy);
    await pass(400);
    b.asked[0].answer("rough");
    await settle();
    expect(b.shown).toEqual([["rough", "1", true]]);
    expect(kinds(b.asked)).toEqual([["1", true, false], ["1", false, false]]);
    expect(last(b.busy)).toBe(since);
    b.asked[1].answer("full");
    await settle();
    expect(last(b.shown)).toEqual(["full", "1", false]);
    expect(last(b.busy)).toBe(null);
  });
  it("tells a refusal once, and not that of a question which was broken off", async () => {
    const b = bench();
    b.rest("1");
    await pass(pace.resting_ms);
    b.rest("2");
    await pass(pace.resting_ms);
    b.asked[0].refuse("broken off");
    b.asked[1].refuse("refused");
    await settle();
    expect(b.failed).toEqual(["refused"]);
    expect(b.asked).toHaveLength(2);
    b.rest("3");
    await pass(pace.resting_ms);
    b.stop();
    b.asked[2].answer("too late");
    await settle();
    expect(b.shown).toEqual([]);
  });
});

describe("asking while something moves", () => {
  it("asks roughly while it moves, and in full when it rests on what was shown already", async () => {
    const b = bench();
    for (const q of ["1", "2", "3"]) b.move(q);
    await pass(pace.moving_ms);
    expect(kinds(b.asked)).toEqual([["3", true, false]]);
    b.asked[0].answer("rough");
    await settle();
    b.rest("3");
    await pass(pace.resting_ms);
    b.asked[1].answer("full");
    await settle();
    expect(b.asked.map((a) => a.rough)).toEqual([true, false]);
    expect(b.shown).toEqual([["rough", "3", true], ["full", "3", false]]);
  });
  it("lets a rough question finish, shows it, and goes on with the newest", async () => {
    const b = bench();
    for (const q of ["1", "2", "3"]) {
      b.move(q);
      await pass(pace.moving_ms);
    }
    expect(b.asked).toHaveLength(1);
    b.asked[0].answer("one");
    await settle();
    expect(b.shown).toEqual([["one", "1", true]]);
    expect(b.asked.map((a) => a.question)).toEqual(["1", "3"]);
  });
  it("breaks a rough question off when it takes longer than one has patience for", async () => {
    const b = bench();
    b.move("1");
    await pass(pace.moving_ms + pace.patience_ms);
    b.move("2");
    await pass(pace.moving_ms);
    expect(kinds(b.asked)).toEqual([["1", true, true], ["2", true, false]]);
  });
  it("breaks a full question off at once when something moves, and says that nothing is waited for", async () => {
    const b = bench();
    b.rest("1");
    await pass(pace.resting_ms);
    b.asked[0].answer("rough");
    await settle();
    b.move("2");
    expect(b.asked[1].signal.aborted).toBe(true);
    expect(last(b.busy)).toBe(null);
    await pass(pace.moving_ms);
    expect(last(b.busy)).toBe(null);
  });
});
