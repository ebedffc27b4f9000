// Where the result of a test is written down: the names are those of the program, the fields those of the form.
const fields: Record<string, string> = {
  "Water drop": "water_drop",
  "Weigh what was used": "count",
  "Weigh the cloth": "wiped",
  "Measure the area": "area",
  "Read the liquid": "read_ph",
  "Surface pH": "surface_ph",
  "Small extract": "extract_ph",
  Thickness: "thickness",
};
/** The field of the form; empty where the result is looked at and not written down. */
export function place_of_test(name: string): string {
  return fields[name] ?? "";
}
const kinds: Record<string, string> = {
  "Water drop": "water_drop",
  "Weigh what was used": "weight_used",
  "Weigh the cloth": "cloth_weight",
  "Read the liquid": "product_ph",
  "Surface pH": "control_ph",
  "Surface pH of the place": "surface_ph",
  "Reading next day": "surface_ph",
  "Small extract": "extract_ph",
  "Drops of weak acid": "product_drops",
  Thickness: "thickness",
};
/** The kind of reading that a test gives; empty where it is none. */
export function kind_of_test(name: string): string {
  return kinds[name] ?? "";
}
