// The one place that talks to the server. Pages ask here; parts never do.
import type { AnalyseAnswer, AnalyseRequest, Asked, Calibration, CompareAnswer, CompareRequest, DigestAnswer, ImportAnswer, IdentifyAnswer, IdentifyRequest, IdentifyWords, InspectAnswer, InspectionWords, InspectRequest, JudgeAnswer, JudgementRow, JudgeRequest, KeptJudgement, Leather, Liquid, MeterCheck, LookKind, MeterNow, NetworkState, OwnLimit, PairingAnswer, PersonRow, PieceRow, ProtectAnswer, ProtectRequest, ProductAnswer, RateRow, RebalanceAnswer, RebalanceRequest, RefineAnswer, RefineRequest, RemedyAnswer, Role, SessionRow, SafetyPlaceNow, SessionState, SheetCorrection, SheetRow, ShelfMeetings, ShelfAnswer, ShelfName, ShelfRequest, ShopTest, MeetAnswer, MeetRequest, TitrateAnswer, TitrateRequest, TouchAnswer, TouchRequest, SpotAnswer, SpotDue, SpotRequest, TriageAnswer, TriageQuestions, TriageRequest, Work } from "./wire";

import type { AdviseAnswer, DiagnoseAnswer } from "./api.gen";
import type { advice_of, diagnosis_of } from "./lib/damage";
import type { WorkLine } from "./lib/work";

/** A refusal as RFC 9457 sends it; `where` names the field. */
export interface Problem {
  title: string;
  detail: string;
  status: number;
  where: string;
}
export class Refused extends Error {
  constructor(readonly problem: Problem) {
    super(problem.detail || problem.title);
  }
}

let ask_for_sign_in = (): void => {};
/** What to do when the program wants somebody to sign in. */
export const on_sign_in_needed = (run: () => void): void => void (ask_for_sign_in = run);

async function reach(method: "GET" | "POST", path: string, takes: string, body?: unknown, signal?: AbortSignal): Promise<Response> {
  let reply: Response;
  try {
    reply = await fetch(path, {
      method,
      signal,
      headers: body === undefined ? { Accept: takes } : { "Content-Type": body instanceof Blob ? "application/octet-stream" : "application/json", Accept: takes },
      body: body === undefined ? undefined : body instanceof Blob ? body : JSON.stringify(body),
    });
  } catch (fault) {
    if (signal?.aborted) throw fault;
    throw new Refused({ title: "The program does not answer.", detail: "Is it still running? Start it again, then try once more. What you typed is kept.", status: 0, where: "" });
  }
  if (reply.ok) return reply;
  if (reply.status === 401 && !path.startsWith("/api/session") && !path.startsWith("/api/pairings")) ask_for_sign_in();
  const p = ((await reply.json().catch(() => null)) ?? {}) as Partial<Problem>;
  throw new Refused({ title: p.title ?? "The program could not answer.", detail: p.detail ?? `It sent status ${reply.status}.`, status: reply.status, where: p.where ?? "" });
}
async function call<T>(method: "GET" | "POST", path: string, body?: unknown, signal?: AbortSignal): Promise<T> {
  const reply = await reach(method, path, "application/json", body, signal);
  return (await reply.json().catch(() => null)) as T;
}

export interface Upload {
  have_bytes: number;
  done: boolean;
}
export interface Named {
  key: string;
  name: string;
  note?: string;
}
export interface Source {
  key: string;
  citation: string;
}
type Items<T> = { items: T[] };

const once = new Map<string, Promise<unknown>>();
/** Lists that do not change while the page is open are asked for once. */
function kept<T>(path: string, ask: () => Promise<T[]> = () => call<Items<T>>("GET", path).then((a) => a.items)): Promise<T[]> {
  let found = once.get(path) as Promise<T[]> | undefined;
  if (!found) {
    found = ask();
    found.catch(() => once.delete(path));
    once.set(path, found);
  }
  return found;
}
/** The same for one object. */
function kept_one<T>(path: string): Promise<T> {
  return kept<T>(path, () => call<T>("GET", path).then((a) => [a])).then((a) => a[0]);
}
/** A whole list, page by page: a shelf has no last row that may be left out. */
async function all<T extends { id: string }>(path: string): Promise<T[]> {
  const page = 200;
  const out: T[] = [];
  for (;;) {
    const after = out.length ? `&after=${encodeURIComponent(out[out.length - 1].id)}` : "";
    const { items } = await call<Items<T>>("GET", `${path}?limit=${page}${after}`);
    out.push(...items);
    if (items.length < page) return out;
  }
}

/** Long work on one verb. */
const line = <Request, Answer>(verb: string): WorkLine<Request, Answer> => ({
  begin: (request, signal) => call<{ id: string }>("POST", `/api/${verb}/begin`, request, signal),
  look: (id, signal) => call<Work<Answer>>("GET", `/api/running/${encodeURIComponent(id)}`, undefined, signal),
  drop: (id) => call<unknown>("POST", `/api/running/${encodeURIComponent(id)}/cancel`, {}),
  fault: (problem) => new Refused({ title: "It could not be worked out.", detail: "", status: 0, where: "", ...((problem as Partial<Problem>) ?? {}) }),
});

export const api = {
  judge: (request: JudgeRequest, signal?: AbortSignal) => call<JudgeAnswer>("POST", "/api/judge", request, signal),
  analyse: (request: AnalyseRequest, signal?: AbortSignal) => call<AnalyseAnswer>("POST", "/api/analyse", request, signal),
  compare: (request: CompareRequest, signal?: AbortSignal) => call<CompareAnswer>("POST", "/api/compare", request, signal),
  /** The same comparison as a table to take away. */
  compare_csv: (request: CompareRequest, signal?: AbortSignal) => reach("POST", "/api/compare.csv", "text/csv, application/problem+json", request, signal).then((r) => r.blob()),
  triage: (request: TriageRequest, signal?: AbortSignal) => call<TriageAnswer>("POST", "/api/triage", request, signal),
  triage_questions: () => kept_one<TriageQuestions>("/api/triage_questions"),
  triage_pdf: (request: TriageRequest, paper: "a4" | "letter") => reach("POST", `/api/triage.pdf?paper=${paper}`, "application/pdf, application/problem+json", request).then((r) => r.blob()),
  protect: (request: Asked<ProtectRequest>, signal?: AbortSignal) => call<ProtectAnswer>("POST", "/api/protect", request, signal),
  /** The card on one page, or the note for the household. */
  protect_pdf: (request: Asked<ProtectRequest>, kind: "protect" | "protect_note", paper: "a4" | "letter") => reach("POST", `/api/${kind}.pdf?paper=${paper}`, "application/pdf, application/problem+json", request).then((r) => r.blob()),
  safety_places: () => kept<SafetyPlaceNow>("/api/safety_places"),
  own_limits: () => call<Items<OwnLimit>>("GET", "/api/own_limits").then((a) => a.items),
  /** A limit of the shop's own; without a value it is taken back. */
  keep_own_limit: (limit: OwnLimit) => call<unknown>("POST", "/api/own_limits", limit),
  refine: (request: RefineRequest, signal?: AbortSignal) => call<RefineAnswer>("POST", "/api/refine", request, signal),
  diagnose: (request: ReturnType<typeof diagnosis_of>, signal?: AbortSignal) => call<DiagnoseAnswer>("POST", "/api/diagnose", request, signal),
  advise: (request: ReturnType<typeof advice_of>, signal?: AbortSignal) => call<AdviseAnswer>("POST", "/api/advise", request, signal),
  rebalance: (request: RebalanceRequest, signal?: AbortSignal) => call<RebalanceAnswer>("POST", "/api/rebalance", request, signal),
  /** The same at length: handed in, looked after, broken off. */
  rebalance_line: line<RebalanceRequest, RebalanceAnswer>("rebalance"),
  refine_line: line<RefineRequest, RefineAnswer>("refine"),
  rebalance_pdf: (request: RebalanceRequest, paper: "a4" | "letter") => reach("POST", `/api/rebalance.pdf?paper=${paper}`, "application/pdf, application/problem+json", request).then((r) => r.blob()),
  look_kinds: () => kept<LookKind>("/api/look_kinds"),
  remedies: () => kept<RemedyAnswer>("/api/remedies"),
  shop_tests: () => call<Items<ShopTest>>("GET", "/api/bench").then((a) => a.items),
  keep_shop_test: (test: ShopTest) => call<unknown>("POST", "/api/bench", test),
  liquids: () => kept<Liquid>("/api/liquids", () => all<Liquid>("/api/liquids")),
  leathers: () => kept<Leather>("/api/leathers", () => all<Leather>("/api/leathers")),
  /** Puts a record on the shelf and forgets the list that was read before; with an id it replaces that record. */
  keep_liquid: (liquid: JudgeRequest["liquid"]) => call<{ id: string }>("POST", "/api/liquids", liquid).finally(() => once.delete("/api/liquids")),
  keep_leather: (leather: JudgeRequest["leather"]) => call<{ id: string }>("POST", "/api/leathers", leather).finally(() => once.delete("/api/leathers")),
  leather_classes: () => kept<Named>("/api/leather_classes"),
  tannages: () => kept<Named>("/api/tannages"),
  sources: () => kept<Source>("/api/sources"),
  judgements: (after = "", limit = 50) =>
    call<Items<JudgementRow>>("GET", `/api/judgements?limit=${limit}${after ? `&after=${encodeURIComponent(after)}` : ""}`).then((a) => a.items),
  judgement: (id: string) => call<KeptJudgement>("GET", `/api/judgements/${encodeURIComponent(id)}`),
  bin: (id: string) => call<unknown>("POST", `/api/judgements/${encodeURIComponent(id)}/bin`, {}),
  restore: (id: string) => call<unknown>("POST", `/api/judgements/${encodeURIComponent(id)}/restore`, {}),
  digest: (file: Blob, name: string, by_hand: boolean) => call<DigestAnswer>("POST", `/api/digest?name=${encodeURIComponent(name)}${by_hand ? "&by_hand=true" : ""}`, file),
  sheets: (after = "", limit = 50) => call<Items<SheetRow>>("GET", `/api/sheets?limit=${limit}${after ? `&after=${encodeURIComponent(after)}` : ""}`).then((a) => a.items),
  sheet: (id: string) => call<DigestAnswer>("GET", `/api/sheets/${encodeURIComponent(id)}`),
  correct_sheet: (id: string, c: Pick<SheetCorrection, "id" | "key" | "value" | "how">) => call<DigestAnswer>("POST", `/api/sheets/${encodeURIComponent(id)}/corrections`, c),
  /** Puts a liquid on the shelf, so the list that was read before is forgotten. */
  shelve_sheet: (id: string) => call<Liquid>("POST", `/api/sheets/${encodeURIComponent(id)}/shelf`, {}).finally(() => once.delete("/api/liquids")),
  /** The whole shelf, page by page: what has to be seen to first comes first. */
  shelf: async (): Promise<ShelfAnswer> => {
    const whole = await call<ShelfAnswer>("GET", "/api/shelf?limit=200");
    for (let after = whole.after; after; ) {
      const next = await call<ShelfAnswer>("GET", `/api/shelf?limit=200&after=${encodeURIComponent(after)}`);
      whole.products.push(...next.products);
      after = next.after;
    }
    return whole;
  },
  to_see: () => call<ShelfAnswer>("GET", "/api/shelf?limit=1"),
  product: (id: string) => call<ProductAnswer>("GET", `/api/shelf/${encodeURIComponent(id)}`),
  shelf_enter: (entries: ShelfRequest["entries"]) => call<ProductAnswer>("POST", "/api/shelf/entries", { entries }).finally(() => once.delete("/api/liquids")),
  shelf_find: (code: string) => call<ShelfName>("GET", `/api/shelf/find?name=${encodeURIComponent(code)}`),
  shelf_import: (text: string, take: boolean) => call<ImportAnswer>("POST", "/api/shelf/import", { text, take }).finally(() => once.delete("/api/liquids")),
  bin_sheet: (id: string) => call<unknown>("POST", `/api/sheets/${encodeURIComponent(id)}/bin`, {}),
  restore_sheet: (id: string) => call<unknown>("POST", `/api/sheets/${encodeURIComponent(id)}/restore`, {}),
  touch: (request: Partial<TouchRequest>) => call<TouchAnswer>("POST", "/api/touch", request),
  touch_line: line<Partial<TouchRequest>, TouchAnswer>("touch"),
  touch_pdf: (request: Partial<TouchRequest>, paper: "a3" | "a4" | "tabloid" | "letter") => reach("POST", `/api/touch.pdf?paper=${paper}`, "application/pdf, application/problem+json", request).then((r) => r.blob()),
  meet: (request: { things: ({ liquid: { id: string } } & Partial<Omit<MeetRequest["things"][number], "liquid">>)[] } & Partial<Omit<MeetRequest, "things">>) => call<MeetAnswer>("POST", "/api/meet", request),
  shelf_meetings: () => call<ShelfMeetings>("GET", "/api/meet/shelf"),
  titrate: (request: Pick<TitrateRequest, "liquid"> & Partial<TitrateRequest>) => call<TitrateAnswer>("POST", "/api/titrate", request),
  inspect: (request: InspectRequest) => call<InspectAnswer>("POST", "/api/inspect", request),
  piece: (id: string) => call<InspectAnswer>("GET", `/api/pieces/${encodeURIComponent(id)}`),
  pieces: (after = "", limit = 50) => call<Items<PieceRow>>("GET", `/api/pieces?limit=${limit}${after ? `&after=${encodeURIComponent(after)}` : ""}`).then((a) => a.items),
  spot: (request: SpotRequest) => call<SpotAnswer>("POST", "/api/spot", request),
  spots_due: () => call<Items<SpotDue>>("GET", "/api/spots").then((a) => a.items),
  spot_rates: () => call<Items<RateRow>>("GET", "/api/spots/rates").then((a) => a.items),
  bin_piece: (id: string) => call<unknown>("POST", `/api/pieces/${encodeURIComponent(id)}/bin`, {}),
  restore_piece: (id: string) => call<unknown>("POST", `/api/pieces/${encodeURIComponent(id)}/restore`, {}),
  identify: (request: IdentifyRequest) => call<IdentifyAnswer>("POST", "/api/identify", request),
  identify_words: () => kept_one<IdentifyWords>("/api/identify_words"),
  inspection_words: () => kept_one<InspectionWords>("/api/inspection_words"),
  meters: () => call<Items<MeterNow>>("GET", "/api/meters").then((a) => a.items),
  keep_meter: (name: string) => call<{ id: string }>("POST", "/api/meters", { name }),
  calibrate: (c: Partial<Calibration>) => call<MeterCheck>("POST", "/api/calibrate", c),
  photo_line: {
    begin: (sha256: string, bytes: number, name: string, arrival: string) => call<Upload>("POST", "/api/photos", { sha256, bytes, name, arrival }),
    append: async (id: string, offset: number, part: Blob) => {
      const reply = await reach("POST", `/api/photos/${id}/bytes?offset=${offset}`, "application/json", part);
      return (await reply.json()) as Upload;
    },
  },
  session: () => call<SessionState>("GET", "/api/session"),
  sign_in: (name: string, password: string, device: string) => call<SessionState>("POST", "/api/session", { name, password, device }),
  sign_out: () => call<unknown>("POST", "/api/session/end", {}),
  change_password: (present: string, password: string) => call<SessionState>("POST", "/api/session/password", { present, password }),
  sessions: () => call<Items<SessionRow>>("GET", "/api/sessions").then((a) => a.items),
  end_session: (id: string) => call<unknown>("POST", `/api/sessions/${encodeURIComponent(id)}/end`, {}),
  people: () => call<Items<PersonRow>>("GET", "/api/people").then((a) => a.items),
  add_person: (name: string, role: Role, password: string) => call<{ id: string }>("POST", "/api/people", { name, role, password }),
  set_role: (id: string, role: Role) => call<unknown>("POST", `/api/people/${encodeURIComponent(id)}/role`, { role }),
  set_password: (id: string, password: string) => call<unknown>("POST", `/api/people/${encodeURIComponent(id)}/password`, { password }),
  remove_person: (id: string) => call<unknown>("POST", `/api/people/${encodeURIComponent(id)}/remove`, {}),
  unlock_person: (id: string) => call<unknown>("POST", `/api/people/${encodeURIComponent(id)}/unlock`, {}),
  network: () => call<NetworkState>("GET", "/api/network"),
  network_on: (name: string) => call<unknown>("POST", "/api/network/on", { name }),
  network_off: () => call<unknown>("POST", "/api/network/off", {}),
  new_pairing: (host: string) => call<PairingAnswer>("POST", "/api/pairings", { host }),
  pair: (code: string, device: string) => call<SessionState>("POST", "/api/pairings/use", { code, device }),
  about: () => call<{ version?: string }>("GET", "/api/about"),
};
