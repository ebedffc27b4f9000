// Journeys of a covering: found on a panel test by test, kept there, and told what it may be called.
//
//     node identify.mjs BINARY|http://ADDRESS [PATTERN]      PICTURES=FOLDER also keeps screenshots
import assert from "node:assert/strict";
import { begin_walk, pc, phone, plain_spaces } from "./walk.mjs";

const walk = await begin_walk("identify");
const { journey, open, context_of, open_to_all, post, get, shot } = walk;

/** A piece, and the address of the page for one of its panels; opened from the piece as a person would. */
async function at_panel(page, family, name, extra) {
  const made = await post("/api/inspect", { entries: [{ did: "make_up", make_up: { name, family } }, ...extra] });
  assert.equal(made.status, 200, JSON.stringify(made.body));
  return { id: made.body.piece, panel: made.body.panels[0].code };
}
/** Chooses a test by its name and taps an answer; waits until the page has answered. */
async function see(page, test, words) {
  const more = page.getByText("Another test, or an answer to change");
  const select = page.getByRole("combobox", { name: "Test", exact: true });
  if (!(await select.isVisible())) await more.click();
  await select.selectOption(test);
  const reply = page.waitForResponse((r) => r.url().endsWith("/api/identify"));
  await page.getByRole("button", { name: words, exact: true }).click();
  const answer = await (await reply).json();
  await page.waitForFunction((s) => document.querySelector(".sentence")?.textContent === s, answer.sentence);
  return answer;
}

await journey("an aniline chair is told from its panel, and judge takes it (C1)", async () => {
  const context = await context_of(phone);
  const page = await open(context, "/pieces");
  const { id, panel } = await at_panel(page, "armchair", "Tan club chair", []);
  await post("/api/inspect", { piece: id, entries: [{ did: "reading", reading: { kind: "water_drop", panel, values: [6] } }] });
  await page.goto(`${walk.base}/identify?piece=${id}&panel=${encodeURIComponent(panel)}`);
  await page.locator(".sentence").waitFor();
  await open_to_all(page, "first test at 360");
  await shot(page, "identify-first-360");
  assert.equal(await page.getByRole("button", { name: "under 10 seconds" }).count(), 0, "the drop that stands on the piece is not asked again");
  let answer;
  for (const [test, words] of [["sheen", "matt, not the same everywhere"], ["look", "open pores, no two alike"], ["nap", "no"], ["nail", "a paler line that stays"], ["edge", "fibre right through, tighter at the top"], ["blotter", "nothing"]]) answer = await see(page, test, words);
  assert.equal(answer.families[0].key, "aniline");
  assert.ok(answer.families[0].chance.value >= 90, `aniline ${answer.families[0].chance.value} %`);
  await page.getByRole("button", { name: /^Keep it on/ }).click();
  await page.getByText("Written onto the panel.").waitFor();
  await shot(page, "identify-c1-360");
  await open_to_all(page, "a covering that is told");
  const piece = await get(`/api/pieces/${id}`);
  const now = piece.panels.find((p) => p.code === panel);
  assert.equal(now.leather.leather_class, "aniline");
  assert.ok(piece.entries.some((e) => e.entry.did === "identified" && e.entry.identified.high_pct > e.entry.identified.low_pct));
  await context.close();
});

await journey("a peeling board is told and not called leather (C10)", async () => {
  const context = await context_of(phone, { colorScheme: "dark" });
  const page = await open(context, "/pieces");
  const { id, panel } = await at_panel(page, "sofa", "Peeling sofa", []);
  await page.goto(`${walk.base}/identify?piece=${id}&panel=${encodeURIComponent(panel)}&age=since_2005`);
  await page.locator(".sentence").waitFor();
  let answer;
  for (const [test, words] of [["damage", "a film comes off in sheets"], ["edge", "pressed, powdery, short fibres"], ["drop", "not in 10 minutes"], ["label", "it says bonded, PU or textile"]]) answer = await see(page, test, words);
  const share = (key) => answer.families.find((f) => f.key === key).chance.value;
  assert.equal(answer.families[0].key, "bonded");
  assert.ok(share("bonded") + share("coated_textile") > 97);
  assert.equal(answer.is_leather, false);
  await page.getByText("What it may be called").click();
  assert.match(plain_spaces(await page.locator("main").innerText()), /not leather/);
  await shot(page, "identify-c10-360-dark");
  await open_to_all(page, "a board, dark");
  await context.close();
});

await journey("an answer is taken back, and the address holds the rest", async () => {
  const context = await context_of(pc);
  const page = await open(context, "/identify?saw=look.open&saw=drop.under_10_s");
  await page.locator(".sentence").waitFor();
  await page.getByRole("button", { name: "Undo the last answer" }).click();
  await page.waitForFunction(() => !location.search.includes("drop"));
  assert.match(page.url(), /look\.open/);
  const took = await page.evaluate(async () => {
    const began = performance.now();
    await fetch("/api/identify", { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify({ saw: [{ test: "look", answers: ["open"] }, { test: "nap", answers: ["no"] }] }) }).then((r) => r.json());
    return performance.now() - began;
  });
  console.log(`        asked and answered in the page: ${took.toFixed(0)} ms`);
  await open_to_all(page, "at 1440");
  await shot(page, "identify-1440");
  await context.close();
});

await walk.end();
