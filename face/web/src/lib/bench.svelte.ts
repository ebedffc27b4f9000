// One piece that is open: what the program says stands, what waits to be sent, and the sending.
import { api, Refused } from "../api";
import type { Entry, InspectAnswer } from "../wire";
import { device, draft, keep_draft, put_in, refuse, refused_one, take_out, waiting, type Draft, type Waiting } from "./outbox";
import { uuid7 } from "./uuid";

const retry_ms = [1000, 2000, 5000, 10000];

export class Bench {
  answer = $state<InspectAnswer | null>(null);
  outbox = $state<Waiting[]>([]);
  draft = $state<Draft>({});
  trouble = $state("");
  sending = $state(false);
  #failures = 0;
  #timer = 0;
  #closed = false;

  constructor(readonly id: string) {
    this.outbox = waiting(localStorage, id);
    this.draft = draft(localStorage, id);
    void this.send();
  }
  close(): void {
    this.#closed = true;
    clearTimeout(this.#timer);
  }
  /** Looks again: another device may have entered something. */
  look(): void {
    if (!this.sending) void this.send();
  }
  type(field: string, value: string): void {
    this.draft = { ...this.draft, [field]: value };
    keep_draft(localStorage, this.id, this.draft);
  }
  clear_draft(start: string): void {
    this.draft = Object.fromEntries(Object.entries(this.draft).filter(([k]) => !k.startsWith(start)));
    keep_draft(localStorage, this.id, this.draft);
  }
  /** Written down here first, then sent. Gives the id. */
  enter(part: Omit<Entry, "id" | "at" | "device" | "seen">): string {
    const entry: Entry = { ...part, id: uuid7(), at: new Date().toISOString(), device: device(localStorage, uuid7), seen: this.answer?.last ?? 0 };
    this.outbox = put_in(localStorage, this.id, [entry]);
    void this.send();
    return entry.id ?? "";
  }
  throw_away(id: string): void {
    this.outbox = take_out(localStorage, this.id, [id]);
  }
  send_again(): void {
    this.outbox = this.outbox.map(({ entry }) => ({ entry }));
    void this.send();
  }
  async send(): Promise<void> {
    if (this.sending || this.#closed) return;
    this.sending = true;
    clearTimeout(this.#timer);
    const entries = this.outbox.filter((w) => !w.refused).slice(0, 50).map((w) => w.entry);
    try {
      this.answer = await (entries.length ? api.inspect({ piece: this.id, entries }) : api.piece(this.id));
      if (entries.length) this.outbox = take_out(localStorage, this.id, entries.map((e) => e.id ?? ""));
      this.trouble = "";
      this.#failures = 0;
    } catch (e) {
      const problem = e instanceof Refused ? e.problem : { status: 0, where: "", title: String(e), detail: "" };
      const about = refused_one(problem.where, entries);
      if (about) this.outbox = refuse(localStorage, this.id, about, problem.detail);
      else this.trouble = `${problem.title} ${problem.detail}`;
      if (!about && problem.status >= 400 && problem.status < 500) {
        this.sending = false;
        return; // asking again would give the same
      }
      this.#timer = window.setTimeout(() => void this.send(), about ? 0 : retry_ms[Math.min(this.#failures++, retry_ms.length - 1)]);
      this.sending = false;
      return;
    }
    this.sending = false;
    if (this.outbox.some((w) => !w.refused)) void this.send();
  }
}
