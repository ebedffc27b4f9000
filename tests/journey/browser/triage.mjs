// Journeys of a call: people first, one question at a time, what to say now beside it.
//
//     node triage.mjs BINARY [PATTERN]      PICTURES=FOLDER also keeps screenshots
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { begin_walk, pc, phone, plain_spaces } from "./walk.mjs";

const { base, context_of, open, get, post, shot, open_to_all, journey, end } = await begin_walk("triage");
const words = await get("/api/triage_questions");
const question = (key) => words.questions.find((q) => q.key === key);
const choice = (q, key) => question(q).choices.find((c) => c.key === key).name;
const asks = (page) => page.locator(".ask h2").innerText();
/** Taps an answer as a thumb does; where several may be true, goes on. */
async function answer(page, q, ...keys) {
  await page.locator(".ask h2", { hasText: question(q).asks }).waitFor();
  for (const key of keys) await page.locator(".ask .choice", { hasText: new RegExp(`^${choice(q, key).replace(/[.*+?^${}()|[\]\\]/g, "\\$&")}$`) }).click();
  const at_once = !question(q).several || keys.some((k) => ["none", "nothing", "dont_know"].includes(k));
  if (!at_once) await page.locator(".ask .next", { hasText: "Next question" }).click();
  await page.locator(".ask h2", { hasNotText: question(q).asks }).waitFor();
}

for (const viewport of [phone, pc])
  await journey(`nothing is asked before the safety question, and what is said is the program's, word for word: ${viewport.width} px`, async () => {
    const context = await context_of(viewport);
    const page = await open(context, "/");
    await page.getByRole("link", { name: "Somebody is calling" }).click();
    await page.locator(".ask h2").waitFor();
    assert.equal(await asks(page), words.questions[0].asks);
    assert.equal(await page.locator(".ask input:visible").count(), 0, "a form stands before the safety question");
    await answer(page, "people", "none");
    await page.getByRole("heading", { name: "Say now" }).waitFor();
    const { body } = await post("/api/triage", { answers: [{ question: "people", choices: ["none"] }] });
    const said = (await page.locator(".say .aloud").allInnerTexts()).map(plain_spaces);
    assert.deepEqual(said, body.say.map((s) => plain_spaces(s.sentence)));
    assert.deepEqual((await page.locator(".never li > p").allInnerTexts()).map(plain_spaces), body.never.map((s) => plain_spaces(s.sentence)));
    assert.equal(await asks(page), body.next[0].asks);
    await shot(page, `call-${viewport.width}`);
    await context.close();
  });

await journey("two products that met cover the screen, and only a stated yes leads on", async () => {
  const context = await context_of(phone);
  const page = await open(context, "/triage");
  await page.locator(".ask .choice", { hasText: choice("people", "mixed") }).click();
  await page.locator(".ask .next").click();
  const cover = page.getByRole("alertdialog");
  await cover.waitFor();
  await shot(page, "call-stop", false);
  await page.keyboard.press("Escape");
  assert.ok(await cover.isVisible(), "Escape closed the stop");
  assert.ok(await cover.getByRole("button", { name: "Back to the choices" }).isDisabled());
  await cover.getByRole("checkbox").check();
  await cover.getByRole("button", { name: "Back to the choices" }).click();
  await cover.waitFor({ state: "detached" });
  // It stays in sight, and the next question is whether everybody is safe.
  await page.locator("section.stop").waitFor();
  assert.equal(await asks(page), question("safe").asks);
  await context.close();
});

await journey("a whole call by keyboard alone, “don’t know” to everything but the people", async () => {
  const context = await context_of(pc);
  const page = await open(context, "/triage");
  await page.locator(".ask .choice").first().waitFor();
  const press = async (name) => {
    for (let i = 0; i < 60; i++) {
      await page.keyboard.press("Tab");
      if (await page.evaluate((n) => document.activeElement?.closest(".ask") && document.activeElement.textContent.trim() === n, name)) return page.keyboard.press("Enter");
    }
    throw new Error(`the Tab key does not reach “${name}”`);
  };
  await press(choice("people", "none"));
  const asked = new Set();
  for (let i = 0; i < words.questions.length + 1; i++) {
    await page.waitForFunction((seen) => !seen.includes(document.querySelector(".ask h2")?.textContent ?? seen[0]), [...asked, question("people").asks]);
    const now = await asks(page);
    if (now === "Nothing more to ask") break;
    asked.add(now);
    assert.equal(await page.evaluate(() => document.activeElement?.tagName), "H2", `the keyboard is not at “${now}”`);
    await press("Don’t know");
  }
  assert.equal(await asks(page), "Nothing more to ask");
  assert.ok(asked.size > 3, `only ${asked.size} questions were asked`);
  assert.ok((await page.locator(".say .aloud").count()) > 0);
  await context.close();
});

await journey("an answer is changed by tapping it, undone, and the address brings all of it back", async () => {
  const context = await context_of(phone);
  const page = await open(context, "/triage");
  await answer(page, "people", "none");
  await answer(page, "piece", "armchair");
  const heard = page.locator("#heard button", { hasText: question("piece").name });
  await heard.click();
  await page.locator(".ask h2", { hasText: question("piece").asks }).waitFor();
  await page.locator(".ask .choice", { hasText: choice("piece", "sofa") }).first().click();
  await page.locator("#heard button", { hasText: choice("piece", "sofa") }).waitFor();
  assert.match(page.url(), /a\.piece=sofa/);
  await page.getByRole("button", { name: "Undo the last answer" }).click();
  await page.getByRole("button", { name: "Undo the last answer" }).click();
  await page.locator("#heard button", { hasText: choice("piece", "armchair") }).waitFor();
  const told = await page.locator(".say summary").first().innerText();
  const again = await open(context, page.url().slice(base.length));
  await again.locator("#heard button", { hasText: choice("piece", "armchair") }).waitFor();
  assert.equal(await again.locator(".say summary").first().innerText(), told, "what was told has lost its time");
  await context.close();
});

await journey("what may not be done is refused in the words of the program, and leave is asked in place", async () => {
  const context = await context_of(phone);
  const page = await open(context, "/triage?a.people=none&a.product=all_purpose");
  await page.locator("summary", { hasText: "May I" }).click();
  const { body } = await post("/api/triage", { answers: [{ question: "people", choices: ["none"] }, { question: "product", choices: ["all_purpose"] }], may_i: ["vinegar", "hair_dryer", "bicarbonate"] });
  for (const m of body.may_i) {
    assert.equal(m.yes, false, m.key);
    await page.locator(".chip", { hasText: words.may_i.find((w) => w.key === m.key).name }).click();
    await page.locator(".refused", { hasText: m.answer }).waitFor();
  }
  await context.close();
});

await journey("a call is kept as a piece once, goes onto paper, and leads on with what was told", async () => {
  const context = await context_of(phone);
  const page = await open(context, "/triage?a.people=none&a.piece=armchair&a.product=all_purpose&a.wet=dry&a.when=days&a.seen=darker&a.surface=varied&n.dose=40 ml&n.area=10 hands&n.left_on=8 min");
  await page.getByLabel("What the shop calls the piece").fill("Club chair of the call");
  await page.getByRole("button", { name: "Keep as a piece" }).click();
  await page.getByText("Kept as a piece.").waitFor();
  await page.getByRole("button", { name: "Keep what is new" }).click();
  await page.getByText("Kept as a piece.").waitFor();
  const pieces = (await get("/api/pieces?limit=200")).items.filter((p) => p.name === "Club chair of the call");
  assert.equal(pieces.length, 1, "kept once");
  const [file] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "One page, A4 (PDF)" }).click()]);
  assert.equal(readFileSync(await file.path()).subarray(0, 5).toString(), "%PDF-");
  await page.getByRole("link", { name: "Bring it back" }).click();
  await page.getByRole("heading", { level: 1, name: "Bring it back" }).waitFor();
  // What was told goes on; whether people are well is asked again.
  assert.match(page.url(), /count=40/);
  await page.getByRole("button", { name: "No, everyone is well" }).waitFor();
  await context.close();
});

for (const [name, viewport, more] of [["desk, light", pc, {}], ["desk, dark", pc, { colorScheme: "dark" }], ["phone, light", phone, {}], ["phone, dark", phone, { colorScheme: "dark" }], ["320 px", { width: 320, height: 640 }, {}], ["bench", phone, { theme: "bench" }]])
  await journey(`a call has no barrier: ${name}`, async () => {
    const { theme, ...look } = more;
    const context = await context_of(viewport, look);
    if (theme) await context.addInitScript((t) => localStorage.setItem("theme", t), theme);
    for (const [what, path] of [["begun", "/triage"], ["answered", "/triage?a.people=none&a.piece=armchair&a.product=all_purpose&a.wet=dry&a.when=days&n.dose=40 ml&n.area=10 hands&may=vinegar"], ["stopped", "/triage?a.people=mixed"], ["today", "/"]]) {
      const page = await open(context, path);
      await (path === "/" ? page.locator(".doors") : page.locator(".ask h2")).waitFor();
      if (what === "answered") await page.locator(".refused").waitFor();
      await open_to_all(page, `${what}, ${name}`);
      if (what === "stopped") {
        await page.getByRole("alertdialog").getByRole("checkbox").check();
        await page.getByRole("alertdialog").getByRole("button").last().click();
        await open_to_all(page, `after the stop, ${name}`);
      }
      await shot(page, `call-${what}-${name.replace(/\W+/g, "-")}`);
      await page.close();
    }
    await context.close();
  });

await end();
