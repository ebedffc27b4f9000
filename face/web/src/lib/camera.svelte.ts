// The photographs of one open piece that are on their way.
import { api, Refused } from "../api";
import { forget, keep, kept_for, send, sha256_hex, type Sending } from "./upload";

const retry_ms = 4000;

export interface OnItsWay {
  id: string;
  name: string;
  size: number;
  have: number;
  look: string;
  refused: string;
}

export class Camera {
  moving = $state<OnItsWay[]>([]);
  trouble = $state("");
  #closed = false;
  #busy = false;
  #timer = 0;

  constructor(
    readonly piece: string,
    /** Told when a photograph is there whole. */
    readonly arrived: () => void,
  ) {
    if (this.able) void this.go_on();
  }
  /** Hashing and keeping need a secure address: this machine, or the shop network over TLS. */
  readonly able = typeof crypto !== "undefined" && crypto.subtle !== undefined && typeof indexedDB !== "undefined";
  close(): void {
    this.#closed = true;
    clearTimeout(this.#timer);
    for (const m of this.moving) URL.revokeObjectURL(m.look);
  }
  /** Keeps files in the browser first. Gives their ids, each once. */
  async take(files: readonly File[], arrival: Sending["arrival"]): Promise<string[]> {
    const ids: string[] = [];
    for (const file of files) {
      const id = await sha256_hex(file);
      if (ids.includes(id)) continue;
      ids.push(id);
      await keep({ id, piece: this.piece, name: file.name, arrival, bytes: file });
    }
    void this.go_on();
    return ids;
  }
  async throw_away(id: string): Promise<void> {
    await forget(id);
    this.moving = this.moving.filter((m) => m.id !== id);
  }
  async go_on(): Promise<void> {
    if (this.#busy || this.#closed) return;
    this.#busy = true;
    clearTimeout(this.#timer);
    let again = false;
    const all = await kept_for(this.piece).catch(() => [] as Sending[]);
    for (const photo of all) {
      if (this.moving.some((m) => m.id === photo.id)) continue;
      this.moving = [...this.moving, { id: photo.id, name: photo.name, size: photo.bytes.size, have: 0, look: URL.createObjectURL(photo.bytes), refused: photo.refused ?? "" }];
    }
    for (const photo of all) {
      if (this.#closed || photo.refused) continue;
      const set = (change: Partial<OnItsWay>) => (this.moving = this.moving.map((m) => (m.id === photo.id ? { ...m, ...change } : m)));
      try {
        await send(api.photo_line, photo, (have) => set({ have }));
        await this.throw_away(photo.id);
        this.trouble = "";
        this.arrived();
      } catch (e) {
        const problem = e instanceof Refused ? e.problem : { status: 0, title: "", detail: String(e) };
        if (problem.status >= 400 && problem.status < 500) {
          await keep({ ...photo, refused: problem.detail });
          set({ refused: problem.detail });
        } else {
          this.trouble = problem.detail || problem.title;
          again = true;
        }
      }
    }
    this.#busy = false;
    if (again && !this.#closed) this.#timer = window.setTimeout(() => void this.go_on(), retry_ms);
  }
}
