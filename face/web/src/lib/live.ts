// Asking while something is still being moved: few cases while it moves; when it rests, few at first, so that there is
// something to read, then all of them. One question is under way at a time; an older one is broken off, but not so often
// that nothing would ever be answered.
export interface Told<Answer> {
  ask: (question: string, rough: boolean, signal: AbortSignal) => Promise<Answer>;
  show: (answer: Answer, question: string, rough: boolean) => void;
  fail: (fault: unknown) => void;
  /** Since when an answer is being worked out that is waited for; null when none is. */
  busy: (since: number | null) => void;
}
/** Waits before asking: while it moves, and when it rests; and how long a rough question may take before a newer one
 *  breaks it off. Milliseconds of patience, not of the story. */
export const pace = { moving_ms: 60, resting_ms: 150, patience_ms: 900 };

export interface Live {
  move(question: string): void;
  rest(question: string): void;
  stop(): void;
}
export function live<Answer>(told: Told<Answer>): Live {
  let wanted = "";
  /** The question whose rough answer is on the page. */
  let roughly = "";
  let moving = false;
  let waiting: ReturnType<typeof setTimeout> | undefined;
  let running: { control: AbortController; question: string; rough: boolean; since: number } | null = null;

  function halt(): void {
    clearTimeout(waiting);
    waiting = undefined;
    running?.control.abort();
    running = null;
    told.busy(null);
  }
  function start(rough: boolean, since = Date.now()): void {
    waiting = undefined;
    if (running) {
      if (moving && running.rough && Date.now() - running.since < pace.patience_ms) return;
      running.control.abort();
    }
    const mine = { control: new AbortController(), question: wanted, rough, since };
    running = mine;
    told.busy(moving ? null : since);
    const over = () => {
      if (running !== mine) return false;
      running = null;
      return true;
    };
    told.ask(mine.question, rough, mine.control.signal).then(
      (answer) => {
        if (!over()) return;
        told.show(answer, mine.question, rough);
        roughly = rough ? mine.question : "";
        if (!rough) told.busy(null);
        else if (!moving) start(false, since);
        else if (wanted !== mine.question && waiting === undefined) start(true);
      },
      (fault: unknown) => {
        if (!over() || mine.control.signal.aborted) return;
        told.busy(null);
        told.fail(fault);
      },
    );
  }
  return {
    move(question) {
      wanted = question;
      // A full answer to an older question helps nobody any more.
      if (!moving || (running && !running.rough)) halt();
      moving = true;
      waiting ??= setTimeout(() => start(true), pace.moving_ms);
    },
    rest(question) {
      halt();
      moving = false;
      wanted = question;
      waiting = setTimeout(() => start(roughly !== question), pace.resting_ms);
    },
    stop() {
      halt();
      moving = false;
    },
  };
}
