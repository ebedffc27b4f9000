// Something that takes the program long: handed in, looked after while it runs, taken away or broken off.
import type { Work } from "../wire";

export interface WorkLine<Request, Answer> {
  begin: (request: Request, signal: AbortSignal) => Promise<{ id: string }>;
  look: (id: string, signal: AbortSignal) => Promise<Work<Answer>>;
  drop: (id: string) => Promise<unknown>;
  /** What is thrown where it ended without an answer. */
  fault: (problem: unknown) => unknown;
}
/** Between two looks: soon at first, so that a short piece of work is not waited for. */
export const look_after_ms = [100, 200, 300, 500];
const rest = (ms: number, signal: AbortSignal) =>
  new Promise<void>((done, broken) => {
    const over = () => { clearTimeout(timer); signal.removeEventListener("abort", over); if (signal.aborted) broken(signal.reason); else done(); };
    const timer = setTimeout(over, signal.aborted ? 0 : ms);
    signal.addEventListener("abort", over);
  });

export async function at_length<Request, Answer>(line: WorkLine<Request, Answer>, request: Request, signal: AbortSignal, told: (done_1: number, doing: string) => void): Promise<Answer> {
  const { id } = await line.begin(request, signal);
  try {
    for (let looks = 0; ; looks++) {
      const { done_1, doing, finished, answer, problem } = await line.look(id, signal);
      if (answer) return answer;
      if (finished) throw line.fault(problem);
      told(done_1, doing);
      await rest(look_after_ms[Math.min(looks, look_after_ms.length - 1)], signal);
    }
  } catch (fault) {
    // Nobody waits for it any more: the bench computer shall not go on for nothing.
    if (signal.aborted) void line.drop(id).catch(() => {});
    throw fault;
  }
}
