/** Trying a trim and a shoe on the picture: grips, bars, limits that push back, and what becomes a plan. */
import assert from "node:assert/strict";
import test from "node:test";
import { onlooker, served } from "./at_hand.mjs";
import { Person } from "./person.mjs";
import { sample_horse, shot } from "./program.mjs";
import { expect_soon, two_frames } from "./soon.mjs";

/** Somebody before a picture of the sample's first visit, trying. */
async function trying(t, size, by, picture = "left fore, side view") {
  const { page, context } = await onlooker.page(size, served.address);
  t.after(() => context.close());
  const person = new Person(page, by);
  await person.open_horse(sample_horse);
  await person.open_picture("2 March 2026", picture);
  await person.say_name("Ada Example"); // who has read the sample case
  await page.locator('.tabs [data-tab="try"]').click();
  await page.locator("canvas[data-grips]").waitFor();
  return { page, person };
}

/** Where a grip is on the page. @param {import("playwright-core").Page} page @param {string} variable */
async function grip(page, variable) {
  const canvas = page.locator("canvas[data-grips]");
  const box = await canvas.boundingBox();
  const at = JSON.parse(await canvas.getAttribute("data-grips")).find((each) => each.variable === variable);
  return { x: box.x + at.x, y: box.y + at.y };
}

/** @param {import("playwright-core").Page} page @param {"mouse" | "touch"} by @param {{x: number, y: number}} from
 * @param {{x: number, y: number}} way @param {() => Promise<void>} [meanwhile] before the hand lets go */
async function pull(page, by, from, way, meanwhile = async () => {}) {
  const steps = Array.from({ length: 8 }, (_, n) => ({ x: from.x + (way.x * (n + 1)) / 8, y: from.y + (way.y * (n + 1)) / 8 }));
  if (by === "mouse") {
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    for (const { x, y } of steps) await page.mouse.move(x, y);
    await meanwhile();
    await page.mouse.up();
    return;
  }
  const session = await page.context().newCDPSession(page);
  const send = (type, touchPoints) => session.send("Input.dispatchTouchEvent", { type, touchPoints });
  await send("touchStart", [from]);
  for (const each of steps) await send("touchMove", [each]);
  await meanwhile();
  await send("touchEnd", []);
}

const bar = (page, name) => page.locator(`.bar input[name="${name}"]`);
const amount = async (page, name) => Number(await bar(page, name).inputValue());

for (const [size, by] of /** @type {const} */ ([["laptop", "mouse"], ["tablet", "touch"], ["upright", "touch"]]))
  test(`pulling a grip moves its bar and the numbers, and a limit holds it with a sentence, ${size}`, async (t) => {
    const { page, person } = await trying(t, size, by);
    await page.getByRole("button", { name: "Back to nothing" }).click();
    await expect_soon(async () => (await amount(page, "trim_toe_mm")) === 0);
    assert.match(await page.locator(".tried").innerText(), /Nothing is changed yet/);
    await shot(page, `trying-begin-${size}`);

    // Up the toe's wall, by about two millimetres of this picture.
    const { scale } = await person.on_screen([0, 0]);
    await pull(page, by, await grip(page, "trim_toe_mm"), { x: 13 * scale, y: -15 * scale });
    await expect_soon(async () => (await amount(page, "trim_toe_mm")) > 0);
    assert.equal(await page.locator(".held-back").isVisible(), false);
    await expect_soon(async () => /Palmar angle/.test(await page.locator(".tried .expected").first().innerText()));
    await shot(page, `trying-some-${size}`);

    // Far beyond what any limit lets. Truth: never more than eight millimetres at a visit (docs/plan.md).
    await pull(page, by, await grip(page, "trim_toe_mm"), { x: 50, y: -140 }, async () => {
      await page.locator(".held-back").waitFor();
      await expect_soon(async () => (await amount(page, "trim_toe_mm")) <= 8);
      await shot(page, `trying-held-${size}`);
    });
    await expect_soon(async () => (await amount(page, "trim_toe_mm")) <= 8);
    assert.ok((await amount(page, "trim_toe_mm")) > 0);
    assert.match(await page.locator(".held-back").innerText(), /Off the toe is held at .*mm/);
  });

test("by keyboard: a bar goes to what the limits let, and no point of the reading moves", async (t) => {
  const { page } = await trying(t, "laptop", "mouse");
  const posts = [];
  page.on("request", (request) => request.method() === "PUT" && posts.push(request.url()));
  const wedge = bar(page, "wedge_deg");
  await wedge.focus();
  for (let n = 0; n < 9; ++n) await page.keyboard.press("ArrowRight");
  await page.locator(".held-back").waitFor();
  // Truth: all wedges together four degrees (docs/plan.md).
  await expect_soon(async () => (await amount(page, "wedge_deg")) <= 4);
  assert.ok((await amount(page, "wedge_deg")) > 0);
  assert.deepEqual(posts, []);
});

/** The outlook says the program's week six, and its lever at breakover is what the line's own two
 * lengths make it. Truth: joint centre to breakover, after over before (docs/plan.md, "Levers").
 * @param {import("playwright-core").Page} page @param {import("playwright-core").Locator} line */
async function outlook_is_right(page, line) {
  const [, case_id, , visit] = page.url().split("#/")[1].split("/");
  const answer = await page.request.get(`${served.address}/api/cases/${case_id}/visits/${visit}/plan`);
  const [{ week, predictions }] = (await answer.json()).outlooks;
  assert.equal(week, 6);
  const number = (/** @type {string} */ text) => Number.parseFloat(text.replace("\u2212", "-"));
  const rows = await page.locator(".outlook tr").evaluateAll((all) => all.map((each) => [...each.children].map((cell) => cell.textContent)));
  assert.ok(rows.length >= 2, JSON.stringify(rows));
  for (const [title, before, , after] of rows) {
    const said = predictions.find((each) => each.title === title);
    assert.ok(said, title);
    assert.ok(Math.abs(number(before) - said.before) <= 0.05 + 1e-9 && Math.abs(number(after) - said.after) <= 0.05 + 1e-9, title);
  }
  const [, before, , after] = await line.locator("tr", { hasText: "Joint centre to breakover" }).locator("th, td").allTextContents();
  const less = Math.round(100 * (1 - number(after) / number(before)));
  const lever = page.locator(".outlook .levers dt", { hasText: "When the heel leaves the ground" });
  assert.equal(await lever.locator("xpath=following-sibling::dd[1]").textContent(), `${less} % less`);
}

test("what is put in the plan stands there as it was held, said to be set by hand, and the way back is one tap", async (t) => {
  const { page } = await trying(t, "laptop", "mouse");
  await page.getByRole("button", { name: "Back to nothing" }).click();
  await expect_soon(async () => (await amount(page, "breakover_back_mm")) === 0);
  await bar(page, "breakover_back_mm").focus();
  for (const wanted of [1, 2, 3]) {
    await page.keyboard.press("ArrowRight");
    await expect_soon(async () => (await amount(page, "breakover_back_mm")) === wanted);
  }
  await page.getByRole("button", { name: "Put in the plan" }).click();
  const line = page.locator(".proposal", { hasText: "Set by hand on the picture by Ada Example" });
  await line.waitFor();
  assert.match(await line.innerText(), /breakover 3 mm back by the shoe/);
  await page.locator(".outlook").first().waitFor();
  await shot(page, "trying-plan-laptop");
  await outlook_is_right(page, line);
  await page.locator('[data-key^="try-"]', { hasText: "left fore, side view" }).click();
  await expect_soon(async () => (await amount(page, "breakover_back_mm")) === 3);
});

test("while the program is away nothing stands for what is wished, and it comes when the program is back", async (t) => {
  const { page } = await trying(t, "laptop", "mouse");
  await page.getByRole("button", { name: "Back to nothing" }).click();
  const wedge = async (/** @type {number} */ degrees) => {
    await bar(page, "wedge_deg").fill(String(degrees));
    await bar(page, "wedge_deg").dispatchEvent("change");
  };
  await wedge(2);
  const angle = page.locator(".tried table").first().locator("tr", { hasText: "Palmar angle" });
  const expected = async () => (await angle.count()) === 1 ? angle.innerText() : "";
  await expect_soon(async () => /\d/.test(await expected()) && (await amount(page, "wedge_deg")) === 2);
  const of_two = await expected();
  await served.kill();
  await wedge(1);
  await page.getByText("What these amounts would do isn't there yet").waitFor();
  assert.equal(await page.locator(".tried table").count(), 0);
  assert.equal(await page.locator(".hand").getAttribute("data-grips"), null);
  assert.ok(await page.getByRole("button", { name: "Put in the plan" }).isDisabled());
  await shot(page, "trying-away-laptop");
  await served.serve();
  await page.getByText("What these amounts would do isn't there yet").waitFor({ state: "hidden" });
  await expect_soon(async () => /\d/.test(await expected()));
  assert.notEqual(await expected(), of_two);
  assert.equal(await amount(page, "wedge_deg"), 1);
});

test("the front view has its own amounts, and holds a side at nothing without a second picture", async (t) => {
  const { page } = await trying(t, "laptop", "mouse", "left fore, front view");
  assert.deepEqual(await page.locator(".bar input").evaluateAll((all) => all.map((each) => each.name)),
    ["trim_medial_mm", "trim_lateral_mm", "ml_wedge_deg", "extend_medial_mm", "extend_lateral_mm"]);
  await bar(page, "trim_medial_mm").focus();
  await page.keyboard.press("ArrowRight");
  await page.locator(".held-back").waitFor();
  assert.match(await page.locator(".held-back").innerText(), /held at 0/);
  await shot(page, "trying-front-laptop");
});

for (const [size, by] of /** @type {const} */ ([["laptop", "mouse"], ["upright", "touch"]]))
  test(`a shoe of the practice's list is chosen, says what it doesn't give, and stands in the plan, ${size}`, async (t) => {
    const { page } = await trying(t, size, by);
    await page.getByRole("button", { name: "Back to nothing" }).click();
    await expect_soon(async () => (await amount(page, "trim_toe_mm")) === 0);
    await page.locator(".shoe > summary").click();
    const kind = page.locator('select[name="shoe-kind"]');
    await kind.selectOption({ label: "Square-toed shoe, set back" });
    // Truth: templates/shoes/shoes.json: it sets the breakover back by 5 mm at least.
    await page.getByText("it gives 5 to 15 mm").waitFor();
    await bar(page, "breakover_back_mm").fill("6");
    await expect_soon(async () => (await amount(page, "breakover_back_mm")) === 6);
    await page.getByText("it gives 5 to 15 mm").waitFor({ state: "hidden" });
    const fitting = await kind.locator('optgroup[label="Does all that is asked"] option').allTextContents();
    assert.ok(fitting.includes("Square-toed shoe, set back") && !fitting.includes("Plain flat shoe"), fitting.join());
    await shot(page, `trying-shoe-${size}`);

    // The answer comes when the web's number is chosen and not yet written over.
    let let_come;
    const held = new Promise((resolve) => (let_come = resolve));
    await page.route(/\/try$/, (route) => held.then(() => route.fallback()));
    await kind.selectOption({ label: "Rolled-toe shoe" });
    const web = page.locator('input[name="shoe-web_mm"]');
    await two_frames(page);
    await web.selectText();
    const answered = page.waitForResponse(/\/try$/);
    let_come();
    await answered;
    await two_frames(page);
    await page.keyboard.type("24");
    await web.blur();
    await expect_soon(async () => (await page.locator(".shoe .verdict-line").count()) === 0);
    await page.getByRole("button", { name: "Put in the plan" }).click();
    const line = page.locator(".proposal", { hasText: "Rolled-toe shoe" });
    await line.waitFor();
    assert.match(await line.innerText(), /web 24 mm at the toe, toe rolled up by 2 mm/);
    await shot(page, `trying-shoe-plan-${size}`);
  });
