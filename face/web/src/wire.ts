// The words of the wire as the face uses them: names for the lists of words, and the lists that are never empty inside.
import type * as gen from "./api.gen";

export type { AnalyseAnswer, Balance, Band, Basis, Chance, Dose, Fan, Harm, Influence, Sure, Ingredient, Leather, LimitCheck, Liquid, NetworkState, NextTest, PairingAnswer, PersonRow, SessionRow, SessionState, Number, Reason, Rinse, Stop, Use } from "./api.gen";
export type Standing = gen.Basis["standing"];
export type Grade = gen.JudgeAnswer["grade"];
export type WaterDrop = gen.Leather["water_drop"];
export type Role = gen.PersonRow["role"];
export type Amount = gen.Dose["amount"];

/** A solved profile: depths, times and film thickness are always numbers; what is coloured may be missing. */
export type Profile = Omit<gen.Profile, "depth_um" | "time_s" | "film_um"> & { depth_um: number[]; time_s: number[]; film_um: number[] };
export type JudgeAnswer = Omit<gen.JudgeAnswer, "profile"> & { profile: Profile };
export type JudgementRow = Omit<gen.JudgementRow, "grade"> & { grade: Grade };
export type KeptJudgement = { row: JudgementRow; request: gen.JudgeRequest; answer: JudgeAnswer };

/** Where there is nothing to state, the program sends null. */
export type CompareRow = Omit<gen.CompareRow, "liquid_ph" | "reserve_mmol_m2"> & { liquid_ph: number | null; reserve_mmol_m2: number | null };
export type CompareAnswer = Omit<gen.CompareAnswer, "rows"> & { rows: CompareRow[] };

/** What a request may leave out: the server fills it in and says so. */
export type Asked<T> = { [K in keyof T]?: T[K] extends number[][] ? T[K] : T[K] extends (infer Item)[] ? Asked<Item>[] : T[K] extends object ? Asked<T[K]> : T[K] };
export type { CoverSaw, CoverShare, IdentifyAnswer, IdentifyRequest, IdentifyWords } from "./api.gen";
export type { Calibration, Clash, FamilyMeasure, InspectionWords, MeterCheck, MeterNow, PieceFamily, PieceRow, ReadingNow, Word } from "./api.gen";
/** Outlines and readings hold numbers only. */
type Whole<T> = T extends (number | null)[] ? number[] : T extends (infer Item)[] ? Whole<Item>[] : T extends object ? { [K in keyof T]: Whole<T[K]> } : T;
export type DrawnShape = Whole<gen.DrawnShape>;
export type DrawnView = Whole<gen.DrawnView>;
export type MakeUp = Whole<gen.MakeUp>;
export type Reading = Whole<gen.Reading>;
export type Agreed = Whole<gen.Agreed>;
export type PanelNow = Whole<gen.PanelNow>;
export type EntryNow = Whole<gen.EntryNow>;
export type InspectAnswer = Whole<gen.InspectAnswer>;
/** An entry as it is typed: the program fills in the rest. */
export type Entry = { [K in keyof gen.Entry]?: Asked<Whole<NonNullable<gen.Entry[K]>>> } & { did: gen.Entry["did"] };
export type InspectRequest = { piece: string; entries: Entry[] };
export type { BenchStep, Change, Expected, LedgerRow, Misfit, ReadingFit, RemedyAnswer, RinsePlan, ShopTest, TestWorth, TriageAnswer, TriageGiven, TriageHeard, TriageMayI, TriageQuestion, TriageQuestions, TriageSentence, WayAnswer, Weighing, Window } from "./api.gen";
export type RefineAnswer = gen.RefineAnswer;
export type RebalanceAnswer = Omit<gen.RebalanceAnswer, "section"> & { section: Profile | null };
export type Look = Asked<Omit<gen.Look, "kind" | "value_1">> & Pick<gen.Look, "kind" | "value_1">;
export type Pass = Asked<gen.Pass>;
export type RefineRequest = Asked<Omit<gen.RefineRequest, "happened" | "readings">> & { happened: JudgeRequest; readings?: Look[] };
export type RebalanceRequest = Asked<Omit<gen.RebalanceRequest, "known">> & { known: RefineRequest };
/** Of what was told, only which and when goes back; the words are the program's own. */
export type TriageRequest = Asked<Omit<gen.TriageRequest, "told">> & { told?: Pick<gen.TriageTold, "key" | "at">[] };
export type { LookKind } from "./api.gen";
/** Something done at length: how far it is, what it is at, and in the end the answer or why there is none. */
export interface Work<Answer> {
  done_1: number;
  doing: string;
  finished: boolean;
  answer?: Answer;
  problem?: unknown;
}
export type JudgeRequest = Asked<gen.JudgeRequest>;
export type AnalyseRequest = Asked<gen.AnalyseRequest>;
export type CompareRequest = Asked<gen.CompareRequest>;

/** The defaults of the program, to show them beside the fields. They are not sent: the program fills them in itself, and
 *  a browser journey compares these with what it filled in. */
export const use_defaults: gen.Use = {
  parts_water: 0,
  hardness_mg_l: 0,
  dose: { amount: "sprays", count: 5, area_cm2: 900 },
  dwell_s: 120,
  wiped_off_pct: 50,
  rinse: { passes: 0, water_g_m2: 30, blotted_pct: 60, wait_s: 60, hardness_mg_l: 0 },
  repeats: 1,
  interval_h: 24,
  rest_h: 24,
  air_c: 20,
  humidity_pct: 50,
  air_speed_m_s: 0.1,
};
export type { OwnLimit, ProtectAnswer, ProtectRequest, SafetyPart, SafetyPlaceNow, Vapour } from "./api.gen";
export type { DigestAnswer, SheetCorrection, SheetFact, SheetIngredient, SheetPage, SheetPlace, SheetRow } from "./api.gen";
export type { MeetAnswer, MeetRequest, ShelfMeetings, TitrateAnswer, TitrateRequest, TouchAnswer, TouchCell, TouchColumn, TouchRequest, TouchRow } from "./api.gen";
export type { ImportAnswer, LotNow, ProductAnswer, ShelfAnswer, ShelfEntry, ShelfFact, ShelfName, ShelfRequest, ShelfRow, ToSee } from "./api.gen";

export type { RateRow, SignWords, SpotClass, SpotDue, SpotNow, SpotProduct, SpotWait } from "./api.gen";
export type SpotAnswer = Whole<gen.SpotAnswer>;
export type SpotRequest = Asked<gen.SpotRequest>;
