// Journeys of bringing a leather back: from the call to the bench card, with readings, clocks that survive, and refusals.
//
//     node bring_back.mjs BINARY [PATTERN]      PICTURES=FOLDER also keeps screenshots
import assert from "node:assert/strict";
import { begin_walk, pc, phone, plain_spaces } from "./walk.mjs";

const { base, context_of, open, get, post, shot, open_to_all, journey, end } = await begin_walk("bring-back");

// Concentrate left on both arms of a chair, three days ago; degreaser on a sofa, sticky, yesterday; arms rotted by skin oil.
const story = {
  chair: "people=well&liquid=demo_concentrate&leather=demo_club&count=40 g&area=1800 cm²&dwell=8 min&wiped=20 %&ago=3 days&r0_kind=surface_ph&r0_value=7.6&r0_at=72&r1_kind=control_ph&r1_value=4.6",
  sofa: "people=well&liquid=demo_degreaser&leather=demo_sofa&count=30 g&area=7500 cm²&dwell=10 min&wiped=70 %&ago=1 day&tacky=yes&r0_kind=surface_ph&r0_value=8.9&r0_at=24",
  rot: "people=well&nothing=yes&leather=demo_wing&treat=1800 cm²&weak=42 %&r0_kind=surface_ph&r0_value=3.3&r0_at=24",
};
const answered = (page) => page.locator("section[aria-label=Plan]:not(.stale):not(.rough) .sentence").waitFor({ timeout: 150000 });
const text_of = async (locator) => plain_spaces(await locator.innerText());
/** The last whole plan that came to the page. */
function listen(page) {
  const got = { plan: null, rough: null };
  page.on("response", async (r) => {
    if (!/\/api\/(rebalance$|running\/)/.test(r.url()) || !r.ok()) return;
    const body = await r.json().catch(() => null);
    const plan = body?.answer ?? (body?.ways ? body : null);
    if (!plan?.ways || r.request().postDataJSON?.()?.asked?.length) return;
    got[plan.preliminary ? "rough" : "plan"] = plan;
  });
  return got;
}
async function add_reading(page, name, value) {
  await page.locator("#step-read > h2 > button").click();
  const add = page.getByRole("button", { name: "Add a reading" });
  if (await add.isVisible()) await add.click();
  await page.locator("#step-read").getByRole("button", { name, exact: true }).click();
  await page.locator("#step-read").getByLabel(/^It showed/).fill(value);
  await page.locator("#step-read").getByRole("button", { name: "Add the reading" }).click();
}
const seconds = (text) => text.split(":").reduce((sum, part) => 60 * sum + Number(part), 0);
const clock_of = async (page) => seconds(/[\d:]+$/.exec(await page.locator(".clock .time").innerText())[0]);

const kinds = (await get("/api/look_kinds")).items;
const kind = (key) => kinds.find((k) => k.key === key);

for (const viewport of [phone, pc])
  await journey(`from the call to the bench card, read, and planned anew: ${viewport.width} px`, async () => {
    const context = await context_of(viewport);
    const page = await open(context, "/triage?a.people=none&a.piece=armchair&a.product=all_purpose&a.since=nothing&a.wet=dry&a.when=days&a.seen=darker&a.surface=varied&a.neat=neat&n.dose=40 ml&n.area=1800 cm2&n.left_on=8 min&a.wiped=dry_cloth");
    const got = listen(page);
    await page.getByRole("link", { name: "Bring it back" }).click();
    await page.getByRole("button", { name: "No, everyone is well" }).click();
    await answered(page);
    // On a phone the story is one line; it opens to be changed.
    if (viewport === phone) await page.locator("button.story").click();
    await page.locator("#step-use > h2 > button").click();
    await page.getByRole("textbox", { name: "When was that?" }).fill("3 days");
    await page.getByRole("textbox", { name: "When was that?" }).press("Enter");
    await page.getByRole("button", { name: "Done with the use" }).click();
    if (viewport === phone && (await page.locator("button.story").isVisible())) await page.locator("button.story").click();
    await add_reading(page, kind("surface_ph").name, "7,6");
    await add_reading(page, kind("control_ph").name, "4.6");
    got.plan = null;
    const rough = page.locator("section[aria-label=Plan].rough .note");
    await rough.waitFor();
    assert.match(await rough.innerText(), /^preliminary, from 64 cases/);
    assert.equal(await page.getByRole("button", { name: "To the bench" }).count(), 0, "a preliminary plan leads to the bench");
    await answered(page);
    const { plan } = got;
    assert.ok(plan, "no whole plan was seen");
    assert.equal(await text_of(page.locator("section[aria-label=Plan] .sentence")), plain_spaces(plan.sentence));
    assert.equal(await text_of(page.locator("section[aria-label=Plan] .sure")), plain_spaces(plan.how_sure));
    const shown = await page.locator(".plates th[scope=row] .name").allInnerTexts();
    assert.deepEqual(shown.map((s) => s.toLowerCase()), plan.ways.filter((w) => w.possible).map((w) => w.name.toLowerCase()));
    for (const w of plan.ways.filter((w) => !w.possible)) assert.ok(plain_spaces(await page.locator("main").innerText()).includes(plain_spaces(w.refused)), `the reason against ${w.name} is missing`);
    await shot(page, `plan-${viewport.width}`);

    await page.getByRole("button", { name: "To the bench" }).click();
    for (let i = 0; i < plan.card.length && !plan.card[i].reading; i++) {
      const step = plan.card[i];
      const card = page.locator("article.step");
      assert.equal(await text_of(card.locator("h2")), plain_spaces(step.title));
      if (step.amount.unit) assert.ok(await card.locator(".amount").isVisible());
      if (step.caution) assert.ok((await text_of(card.locator(".caution"))).includes(plain_spaces(step.caution)));
      for (const button of await card.locator(".big").all()) assert.ok((await button.boundingBox()).height >= 56, "a target on the card is smaller than a glove");
      if (step.clock_s > 0) {
        await card.getByRole("button", { name: "Start the clock" }).click();
        const before = await clock_of(page);
        assert.ok(before <= step.clock_s && before >= step.clock_s - 3);
        await page.waitForTimeout(1500);
        await page.reload();
        await card.locator("h2").waitFor();
        const after = await clock_of(page);
        assert.ok(after < before && after > before - 20, `the clock stood at ${before}, after the reload at ${after}`);
        assert.equal(await card.getByRole("button", { name: "Start the clock" }).count(), 0);
      }
      await shot(page, `card-${i + 1}-${viewport.width}`, false);
      await card.locator(".done").click();
      if (plan.card[i + 1]) await card.locator("h2", { hasText: plan.card[i + 1].title }).waitFor();
    }
    // On to the reading that the card asks for.
    for (let i = 0; i < plan.card.length && !(await page.locator("article.step .expected").count()); i++) await page.locator("article.step .done").click();
    const field = page.locator("article.step .expected");
    await field.waitFor();
    const want = plan.expected.at(-1);
    for (const line of [want.if_higher, want.if_lower].filter(Boolean)) assert.ok((await text_of(field)).includes(plain_spaces(line)));
    await shot(page, `card-reading-${viewport.width}`, false);
    await page.locator("article.step .value input").fill(want.reading.median.toFixed(1));
    await page.getByRole("button", { name: "Keep the reading" }).click();
    got.plan = null;
    await page.getByRole("button", { name: "Go on", exact: true }).click();
    await answered(page);
    assert.equal(got.plan?.refined.readings.length, 3, "the reading of the card is not counted in");
    await page.getByRole("button", { name: /new card|Back to the card/ }).first().waitFor();
    await context.close();
  });

await journey("a pass that is done stands in the story once, is undone, and is counted in when the plan is made anew", async () => {
  const context = await context_of(phone);
  const page = await context.newPage();
  const got = listen(page);
  await page.goto(`${base}/rebalance?${story.chair}`);
  await answered(page);
  const { plan } = got;
  const rinse = plan.ways.find((w) => w.recommended)?.rinse;
  assert.ok(rinse, `nothing is laid on here: ${plan.sentence}`);
  await page.getByRole("button", { name: "To the bench" }).click();
  const last = plan.card.findLastIndex((s) => s.pass === 1 && !s.reading);
  for (let i = 0; i <= last; i++) {
    assert.ok(!page.url().includes("p0_liquid"), "the pass stands there before it is done");
    await page.locator("article.step h2", { hasText: plan.card[i].title }).waitFor();
    await page.locator("article.step .done").click();
  }
  await page.waitForFunction(() => location.search.includes("p0_liquid"));
  const at = new URL(page.url()).searchParams;
  assert.deepEqual([at.get("p0_liquid"), Number(at.get("p0_g")), Number(at.get("p0_dwell")), Number(at.get("p0_blot"))], [rinse.liquid_id, rinse.g_m2, rinse.dwell_s, rinse.blotted_pct]);
  // Undone it is as if it had not been; done again it is there once.
  await page.getByRole("button", { name: "Undo" }).click();
  await page.waitForFunction(() => !location.search.includes("p0_liquid"));
  await page.locator("article.step .done").click();
  await page.waitForFunction(() => location.search.includes("p0_liquid") && !location.search.includes("p1_liquid"));
  const until = plan.card.findIndex((s) => s.reading);
  for (let i = last + 1; i < until; i++) {
    await page.locator("article.step h2", { hasText: plan.card[i].title }).waitFor();
    await page.locator("article.step .done").click();
  }
  await page.locator("article.step .value input").fill(plan.expected.at(-1).reading.median.toFixed(1));
  await page.getByRole("button", { name: "Keep the reading" }).click();
  const asked = page.waitForRequest((r) => r.url().endsWith("/api/rebalance/begin"));
  await page.getByRole("button", { name: "Go on", exact: true }).click();
  const { known } = (await asked).postDataJSON();
  assert.equal(known.passes.length, new Set(plan.card.slice(0, until).map((s) => s.pass).filter((n) => n > 0)).size, "each pass that was done, once");
  for (const p of known.passes) assert.equal(p.liquid.id, rinse.liquid_id);
  assert.equal(known.readings.length, 3, "two of the story and that of the card");
  await context.close();
});

await journey("a clock that ran out while the page was away says so, and nothing blinks", async () => {
  const context = await context_of(phone);
  const page = await context.newPage();
  await page.clock.install();
  await page.goto(`${base}/rebalance?${story.chair}`);
  await answered(page);
  await page.getByRole("button", { name: "To the bench" }).click();
  const card = page.locator("article.step");
  for (let i = 0; i < 8 && !(await page.getByRole("button", { name: "Start the clock" }).count()); i++) await card.locator(".done").click();
  await page.getByRole("button", { name: "Start the clock" }).click();
  const left = await clock_of(page);
  await page.clock.fastForward(1000 * (left + 5));
  await page.getByText("The time is over.", { exact: true }).waitFor();
  assert.match(await page.title(), /^Time is over/);
  assert.equal(await page.evaluate(() => document.getAnimations().length), 0, "something moves");
  await shot(page, "card-over", false);
  await context.close();
});

await journey("a plan that takes long shows how far it is, and is broken off", async () => {
  const context = await context_of(pc);
  const page = await open(context, `/rebalance?${story.chair}`);
  await page.locator("section[aria-label=Plan].rough").waitFor({ timeout: 120000 });
  await page.getByRole("progressbar").waitFor();
  await page.getByRole("button", { name: "Cancel" }).click();
  await page.getByText("Cancelled; what stands here is preliminary.").waitFor();
  assert.equal(await page.getByRole("progressbar").count(), 0);
  await page.getByRole("button", { name: "Work it out" }).click();
  await answered(page);
  await context.close();
});

await journey("what people ask leave for is refused with its reason, in place", async () => {
  const context = await context_of(phone);
  const page = await open(context, `/rebalance?${story.chair}`);
  await page.locator("summary", { hasText: "May I" }).click();
  const remedies = (await get("/api/remedies")).items;
  for (const key of ["vinegar", "bicarbonate", "hair_dryer", "more_soap"]) {
    const r = remedies.find((x) => x.key === key);
    await page.locator(".chip", { hasText: r.asked }).click();
    await page.locator(".refused", { hasText: r.asked }).waitFor({ timeout: 120000 });
  }
  const { body } = await post("/api/rebalance", { known: { happened: { liquid: { id: "demo_concentrate" }, leather: { id: "demo_club" } } }, members: 64, asked: ["vinegar"] });
  assert.ok((await text_of(page.locator(".refused").first())).includes(plain_spaces(body.remedies[0].sentence)));
  await shot(page, "may-i-360");
  await context.close();
});

await journey("vinegar after bleach covers the screen", async () => {
  const context = await context_of(phone);
  const page = await open(context, "/rebalance?people=well&liquid=demo_bleach&leather=demo_club&meets=demo_vinegar");
  const cover = page.getByRole("alertdialog");
  await cover.waitFor();
  assert.ok(await cover.getByRole("button", { name: "Back to the choices" }).isDisabled());
  await shot(page, "bleach-360", false);
  await context.close();
});

const from_calls = [
  ["a sticky sofa after degreaser", "a.people=none&a.piece=sofa&a.product=degreaser&a.since=nothing&a.wet=dry&a.when=yesterday&a.seen=sticky,dull&a.surface=even_shine&n.dose=30 ml&n.area=7500 cm2&n.left_on=10 min&a.wiped=damp_cloth", async (page) => add_reading(page, kind("surface_ph").name, "8.9"), "Let it air"],
  ["arms rotted by skin oil", "a.people=none&a.piece=wing_chair&a.product=none&a.cleaned=body_oil&a.seen=darker,cracks&a.wet=dry&a.surface=varied", async (page) => {
    await page.locator("#step-leather .tile", { hasText: /Wing chair/ }).first().click();
    await add_reading(page, kind("surface_ph").name, "3.3");
  }, ""],
];
for (const [name, call, tell, first_step] of from_calls)
  await journey(`${name}: from the call to the card, and the page says what the program says`, async () => {
    const context = await context_of(pc);
    const page = await open(context, `/triage?${call}`);
    const got = listen(page);
    await page.getByRole("link", { name: "Bring it back" }).click();
    await page.getByRole("button", { name: "No, everyone is well" }).click();
    await tell(page);
    await answered(page);
    assert.ok(got.plan && !got.plan.stop, "no plan came");
    assert.equal(await text_of(page.locator("section[aria-label=Plan] .sentence")), plain_spaces(got.plan.sentence));
    const best = got.plan.ways.find((w) => w.recommended);
    assert.equal((await page.locator("section[aria-label=Plan] .advice").innerText()).toLowerCase(), best.name.toLowerCase());
    await shot(page, `plan-${name.split(" ").pop()}`);
    await page.getByRole("button", { name: "To the bench" }).click();
    await page.locator("article.step h2", { hasText: got.plan.card[0].title }).waitFor();
    if (first_step) assert.equal(got.plan.card[0].title, first_step);
    await context.close();
  });

await journey("what the readings tell: each against the rest, before and after, and what the shop has is kept", async () => {
  const context = await context_of(phone);
  const page = await open(context, `/refine?${story.chair}`);
  const got = { refined: null };
  page.on("response", async (r) => {
    if (!/\/api\/running\//.test(r.url())) return;
    const { answer } = await r.json().catch(() => ({}));
    if (answer?.changes) got.refined = answer;
  });
  await page.reload();
  await page.locator("section[aria-label=Finding]:not(.rough) .sentence").waitFor({ timeout: 150000 });
  assert.equal(await text_of(page.locator("section[aria-label=Finding] .sentence")), plain_spaces(got.refined.sentence));
  assert.equal(await page.locator(".word").count(), got.refined.readings.length);
  assert.equal(await page.locator("li p.name").count() >= got.refined.changes.length, true);
  await shot(page, "refine-360");
  const test = got.refined.next[0];
  const box = page.getByLabel(new RegExp(`we can do it: ${test.name}`)).first();
  await box.uncheck();
  await page.waitForFunction(async (name) => (await (await fetch("/api/bench")).json()).items.find((t) => t.name === name)?.have === false, test.name);
  await page.getByLabel(new RegExp(`we can do it: ${test.name}`)).first().check();
  await page.waitForFunction(async (name) => (await (await fetch("/api/bench")).json()).items.find((t) => t.name === name)?.have === true, test.name);
  await context.close();
});

await journey("with a piece, what is laid on and read stands in its record, and undoing takes it back", async () => {
  const panel = "SC1-top";
  const { body: piece } = await post("/api/inspect", { entries: [{ did: "make_up", make_up: { name: "Chair of the bench", family: "armchair" } }, { did: "panels", facts: { panels: [panel], material: "aniline", tannage: "chrome" } }] });
  const context = await context_of(phone);
  const page = await open(context, `/pieces/${piece.piece}`);
  const list = page.locator("details.list");
  await list.locator("summary").click();
  await list.locator("label").filter({ has: page.locator(".quiet", { hasText: new RegExp(`^${panel}(,|$)`) }) }).locator("input").check();
  await page.getByRole("link", { name: "Bring it back" }).click();
  await page.getByRole("button", { name: "No, everyone is well" }).click();
  await page.locator("#step-liquid .tile", { hasText: /Saddlery soap/ }).click();
  await page.locator("section[aria-label=Plan]").waitFor({ timeout: 150000 });
  await page.getByText("Chair of the bench").first().waitFor();
  if (await page.locator("button.story").isVisible()) await page.locator("button.story").click();
  await add_reading(page, kind("thickness").name, "1,2");
  const entries = async () => (await get(`/api/pieces/${piece.piece}`)).entries;
  const until = async (test, what) => {
    for (let i = 0; i < 100; i++) {
      if (test(await entries())) return;
      await page.waitForTimeout(100);
    }
    throw new Error(`never: ${what}`);
  };
  await until((all) => all.some((e) => e.entry.reading?.kind === "thickness" && e.entry.reading.panel === panel), "the reading in the record");
  assert.doesNotMatch(page.url(), /r0_kind/, "the reading counts twice");
  // The same card, made of a plan that lays something on.
  await page.goto(`${base}/rebalance?${story.chair}&piece=${piece.piece}&panel=${panel}`);
  await answered(page);
  await page.getByRole("button", { name: "To the bench" }).click();
  for (let i = 0; i < 12 && !/p0_liquid/.test(page.url()); i++) await page.locator("article.step .done").click();
  assert.match(page.url(), /p0_liquid/, "nothing was laid on");
  await until((all) => all.some((e) => e.state === "stands" && e.entry.did === "laid" && e.entry.laid.panels.includes(panel)), "the pass in the record");
  await page.getByRole("button", { name: "Undo" }).click();
  await until((all) => all.some((e) => e.state === "taken_back" && e.entry.did === "laid"), "the pass taken back");
  await context.close();
});

// Barriers are looked for on real answers, asked for once and given again in every look.
const asked_once = {};
const once = async (path, body) => (asked_once[path + JSON.stringify(body)] ??= (await post(path, body)).body);
for (const [name, viewport, more] of [["desk, light", pc, {}], ["desk, dark", pc, { colorScheme: "dark" }], ["phone, light", phone, {}], ["phone, dark", phone, { colorScheme: "dark" }], ["320 px", { width: 320, height: 640 }, {}], ["bench", phone, { theme: "bench" }]])
  await journey(`bringing back has no barrier: ${name}`, async () => {
    const { theme, ...look } = more;
    const context = await context_of(viewport, look);
    if (theme) await context.addInitScript((t) => localStorage.setItem("theme", t), theme);
    const given = (answer) => ({ status: 200, contentType: "application/json", body: JSON.stringify(answer) });
    const asked = {};
    for (const verb of ["rebalance", "refine"]) {
      await context.route(`**/api/${verb}`, async (r) => r.fulfill(given(await once(`/api/${verb}`, r.request().postDataJSON()))));
      await context.route(`**/api/${verb}/begin`, async (r) => {
        asked[verb] = { ...r.request().postDataJSON(), members: 64 };
        await r.fulfill(given({ id: verb }));
      });
      await context.route(`**/api/running/${verb}`, async (r) => r.fulfill(given({ done_1: 1, doing: "", finished: true, answer: { ...(await once(`/api/${verb}`, asked[verb])), preliminary: false } })));
    }
    const file = name.replace(/\W+/g, "-");
    const page = await open(context, "/rebalance");
    await open_to_all(page, `begun, ${name}`);
    for (const [what, address] of [["chair", story.chair], ["sofa", story.sofa]]) {
      await page.goto(`${base}/rebalance?${address}&may=vinegar`);
      await page.locator(".refused").waitFor({ timeout: 150000 });
      await answered(page);
      await open_to_all(page, `the plan for the ${what}, ${name}`);
      await shot(page, `plan-${what}-${file}`);
    }
    await page.getByRole("button", { name: "To the bench" }).click();
    for (let i = 0; i < 12 && !(await page.locator("article.step .expected").count()); i++) {
      await open_to_all(page, `step ${i + 1} of the card, ${name}`);
      await shot(page, `card-${i + 1}-${file}`, false);
      await page.locator("article.step .done").click();
    }
    await open_to_all(page, `a reading on the card, ${name}`);
    await shot(page, `card-reading-${file}`);
    await page.goto(`${base}/refine?${story.chair}`);
    await page.locator("section[aria-label=Finding]:not(.rough) .sentence").waitFor({ timeout: 150000 });
    await open_to_all(page, `the readings, ${name}`);
    await shot(page, `refine-${file}`);
    await context.close();
  });

await end();
