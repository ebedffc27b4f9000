// "Who says so?": what was tapped, shown by the one dialog of the page.
import type { Basis, Number as Figure } from "../wire";

export interface Asked {
  title: string;
  basis?: Basis;
  figure?: Figure;
}
export const who = $state<{ asked: Asked | null }>({ asked: null });
export function who_says(asked: Asked): void {
  who.asked = asked;
}
