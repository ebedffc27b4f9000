// The words of the wire, as `desk/*.hpp` describes them; the unit is the suffix of the name.

export interface Basis {
  rule: string;
  source: string;
  locator: string;
  standing: 'published' | 'common_practice' | 'from_memory' | 'derived' | 'estimate' | 'measured' | 'invented';
  inputs: string;
}
export interface Number {
  value: number;
  plus_minus: number;
  unit: string;
  standing: 'published' | 'common_practice' | 'from_memory' | 'derived' | 'estimate' | 'measured' | 'invented';
  band_from: string;
}
export interface Ingredient {
  name: string;
  cas: string;
  content_pct: number | null;
  molality_mol_kg: number | null;
}
export interface Liquid {
  id: string;
  name: string;
  family: string;
  ingredients: Ingredient[];
  stated_ph: number | null;
  label_known: boolean;
  standing: 'published' | 'common_practice' | 'from_memory' | 'derived' | 'estimate' | 'measured' | 'invented';
  note: string;
}
export interface Leather {
  id: string;
  name: string;
  leather_class: string;
  tannage: string;
  thickness_mm: number | null;
  finish_um: number | null;
  surface_ph: number | null;
  extract_ph: number | null;
  shrinkage_c: number | null;
  decayed: boolean;
  standing: 'published' | 'common_practice' | 'from_memory' | 'derived' | 'estimate' | 'measured' | 'invented';
  note: string;
}
export interface Dose {
  amount: 'grams' | 'sprays' | 'cloth_wipes';
  count: number;
  area_cm2: number;
}
export interface Rinse {
  passes: number;
  water_g_m2: number;
  blotted_pct: number;
  wait_s: number;
  hardness_mg_l: number;
}
export interface Use {
  parts_water: number;
  hardness_mg_l: number;
  dose: Dose;
  dwell_s: number;
  wiped_off_pct: number;
  rinse: Rinse;
  repeats: number;
  interval_h: number;
  rest_h: number;
  air_c: number;
  humidity_pct: number;
  air_speed_m_s: number;
}
export interface Reason {
  kind: string;
  sentence: string;
  weight: string;
  basis: Basis;
}
export interface Stop {
  kind: string;
  headline: string;
  do_now: string[];
  never: string[];
  basis: Basis;
}
export interface CurvePoint {
  added_mol_kg: number;
  ph: number;
}
export interface DryingPoint {
  water_left_1: number;
  ph: number;
  ionic_strength_mol_kg: number;
  beyond_model: boolean;
}
export interface Volatile {
  name: string;
  content_pct: number;
  time_to_third_s: number;
  remark: string;
  basis: Basis;
}
export interface Solid {
  name: string;
  saturation_index_1: number;
  amount_mol_kg: number;
  basis: Basis;
}
export interface AnalyseAnswer {
  liquid: string;
  sentence: string;
  ph_refused: boolean;
  ph: Number;
  ionic_strength: Number;
  buffer_capacity: Number;
  reserve_alkalinity: Number;
  alkaline_reserve: Number;
  acid_reserve: Number;
  reserve_to_target: Number;
  target_ph: number;
  unknown_pct: number;
  titration: CurvePoint[];
  drying: DryingPoint[];
  leaves: Volatile[];
  solids: Solid[];
  stops: Stop[];
  reasons: Reason[];
  version: string;
}
export interface LimitCheck {
  name: string;
  quantity: string;
  limit: Number;
  reached: Number;
  upper: boolean;
  passed: boolean;
  decides: boolean;
  deepest_um: number;
  longest_s: number;
  basis: Basis;
}
export interface Balance {
  alkali: boolean;
  applied: Number;
  left: Number;
  takes_finish: Number;
  takes_grain: Number;
  takes_corium: Number;
  limit_ph: number;
}
export interface Layer {
  name: string;
  top_um: number;
  bottom_um: number;
}
export interface Event {
  at_s: number;
  name: string;
}
export interface Profile {
  layers: Layer[];
  depth_um: number[];
  time_s: number[];
  ph: (number | null)[][];
  alkali_mol_kg: (number | null)[][];
  water_pct: (number | null)[][];
  film_ph: (number | null)[];
  film_um: number[];
  surface_reading_ph: (number | null)[];
  events: Event[];
  mass_balance_error_1: number;
}
export interface CaseResult {
  name: string;
  differs: string;
  grade: 'stays_within' | 'comes_back' | 'over_in_grain' | 'over_at_depth' | 'unknown' | 'stop';
  deepest_um: number;
  surface_ph_end: number;
}
export interface NextTest {
  name: string;
  minutes: number;
  settles: string;
  how: string;
}
export interface ExtractCheck {
  ph_before: Number;
  ph_after: Number;
  difference_figure: Number;
  difference_applies: boolean;
  within_en13336: boolean;
  basis: Basis;
}
export interface JudgeAnswer {
  id: string;
  grade: 'stays_within' | 'comes_back' | 'over_in_grain' | 'over_at_depth' | 'unknown' | 'stop';
  sentence: string;
  how_sure: string;
  reasons: Reason[];
  stop: Stop | null;
  liquid: AnalyseAnswer;
  leather: Leather;
  use: Use;
  leather_sentence: string;
  leather_ph: Number;
  dose: Number;
  balance: Balance;
  limits: LimitCheck[];
  profile: Profile;
  extract: ExtractCheck;
  cases: CaseResult[];
  next_test: NextTest;
  sources: Basis[];
  defaults_used: string[];
  cautions: string[];
  version: string;
}
export interface JudgementRow {
  id: string;
  title: string;
  liquid: string;
  leather: string;
  grade: 'stays_within' | 'comes_back' | 'over_in_grain' | 'over_at_depth' | 'unknown' | 'stop';
  kept_at: string;
  version: string;
  demo: boolean;
}

export interface JudgeRequest {
  liquid: Liquid;
  leather: Leather;
  use: Use;
  keep: boolean;
  title: string;
}
export interface AnalyseRequest {
  liquid: Liquid;
  parts_water: number;
  hardness_mg_l: number;
  liquid_c: number;
  air: 'closed' | 'open';
  target_ph: number;
  meets: string[];
}
export interface KeptJudgement {
  row: JudgementRow;
  request: JudgeRequest;
  answer: JudgeAnswer;
}

