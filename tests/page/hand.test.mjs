/** Points under the hand: drag, keys, undo, reload, a program that goes away. */
import assert from "node:assert/strict";
import test from "node:test";
import { before_the_picture, onlooker, saved_reading, served, side } from "./at_hand.mjs";
import { Person } from "./person.mjs";
import { sample_horse, samples, shot } from "./program.mjs";
import { expect_soon } from "./soon.mjs";

const places = side.landmarks;
const first_four = ["ground-heel", "ground-toe", "p3-tip", "p3-palmar-process"];

/** A fresh reader before the side view with four points placed: palmar angle is measured. */
async function four_points(t, name, size = "laptop") {
  const { page, person, seen } = await before_the_picture(t, name, { size });
  for (const id of first_four) {
    assert.equal(await person.asked(), id);
    await person.tap(places[id].px);
    await expect_soon(async () => (await person.asked()) !== id);
  }
  await person.saved();
  await person.measured();
  assert.notEqual(await person.number("palmar-angle"), null);
  return { page, person, seen };
}

/** @param {import("playwright-core").Page} page the selected point, by its row in the list */
async function drag(page, person, px, by) {
  const from = await person.on_screen(px);
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  for (let step = 1; step <= 6; ++step) await page.mouse.move(from.x + (by.x * step) / 6, from.y + (by.y * step) / 6);
  return () => page.mouse.up();
}

test("the number follows while a point is dragged, and undo and redo bring the old and new one", async (t) => {
  const { page, person, seen } = await four_points(t, "Drag");
  const before = (await person.number("palmar-angle"))?.value;
  const let_go = await drag(page, person, places["p3-palmar-process"].px, { x: 0, y: -30 });
  await expect_soon(async () => ((await person.number("palmar-angle"))?.value ?? 0) > before + 3);
  await shot(page, "hand-1-drag");
  await let_go();
  await person.saved();
  await person.measured();
  const moved = (await person.number("palmar-angle"))?.value;
  await page.keyboard.press("Control+z");
  await expect_soon(async () => (await person.number("palmar-angle"))?.value === before);
  await page.keyboard.press("Control+Shift+Z");
  await expect_soon(async () => (await person.number("palmar-angle"))?.value === moved);
  await page.getByRole("button", { name: "Undo" }).click();
  await expect_soon(async () => (await person.number("palmar-angle"))?.value === before);
  assert.deepEqual(seen.complaints, []);
});

test("arrow keys move the chosen point by one screen pixel, ten with Shift, finer when nearer", async (t) => {
  const { page, person } = await four_points(t, "Keys");
  const saved_tip = async () => {
    await person.saved();
    return (await saved_reading(page, "Keys")).landmarks["p3-tip"];
  };
  await page.locator(".hand").focus();
  for (const key of ["Escape", "Tab", "Tab", "Tab"]) await page.keyboard.press(key);
  const { scale } = await person.on_screen([0, 0]);
  const start = await saved_tip();
  await page.keyboard.press("ArrowRight");
  await expect_soon(async () => Math.abs((await saved_tip()).x - start.x - 1 / scale) < 1e-6);
  await page.keyboard.press("Shift+ArrowUp");
  await expect_soon(async () => Math.abs((await saved_tip()).y - start.y + 10 / scale) < 1e-6);
  await person.come_nearer(places["p3-tip"].px, 4);
  const nearer = (await person.on_screen([0, 0])).scale;
  await page.locator(".hand").focus();
  const before = await saved_tip();
  await page.keyboard.press("ArrowLeft");
  await expect_soon(async () => Math.abs((await saved_tip()).x - before.x + 1 / nearer) < 1e-6);
});

test("a point can be placed, skipped, chosen again and removed by keyboard alone", async (t) => {
  const { page, person } = await four_points(t, "Keyboard");
  await page.locator(".hand").focus();
  const asked = await person.asked();
  await page.keyboard.press("Enter");
  await expect_soon(async () => (await person.asked()) !== asked);
  await page.keyboard.press("Delete");
  await expect_soon(async () => (await person.asked()) === asked);
  await page.keyboard.press("s");
  await expect_soon(async () => (await person.asked()) !== asked);
  await page.getByRole("button", { name: "Points", exact: true }).last().click();
  const row = page.locator(`.points li[data-id="${asked}"]`);
  assert.equal(await row.getAttribute("data-state"), "skipped");
  await shot(page, "hand-2-points");
  await row.getByRole("button").first().press("Enter");
  await expect_soon(async () => (await person.asked()) === asked);
});

test("points are there after a reload, and so are undo and redo", async (t) => {
  const { page, person } = await four_points(t, "Reload");
  const before = await person.number("palmar-angle");
  await page.reload();
  await expect_soon(async () => (await person.number("palmar-angle"))?.value === before?.value);
  await expect_soon(async () => (await person.placed_points()) === 4);
  await page.getByRole("button", { name: "Undo" }).click();
  await expect_soon(async () => (await person.placed_points()) === 3);
  await person.saved();
  await page.reload();
  await expect_soon(async () => (await person.placed_points()) === 3);
  await page.getByRole("button", { name: "Redo" }).click();
  await expect_soon(async () => (await person.placed_points()) === 4);
});

test("points placed while the program is away survive a reload and are saved when it is back", async (t) => {
  const { page, person } = await four_points(t, "Away");
  await served.kill();
  const next = await person.asked();
  await person.tap(places[next].px);
  await page.locator('.keeping[data-state="waiting"]').waitFor();
  await shot(page, "hand-3-away");
  assert.equal(await person.placed_points(), 5);
  await served.serve();
  await page.reload();
  await person.saved();
  await expect_soon(async () => (await person.placed_points()) === 5);
  assert.deepEqual(Object.keys((await saved_reading(page, "Away")).landmarks).sort(), [...first_four, next].sort());
});

test("an answer that is older than what was saved meanwhile takes no point away", async (t) => {
  const { page, person } = await four_points(t, "Overtaken");
  await served.kill();
  await person.tap(places[await person.asked()].px);
  await page.locator('.keeping[data-state="waiting"]').waitFor();
  // The reading is asked for, then the points are saved, then the answer arrives.
  let reloaded = false, asked, saved;
  const is_asked = new Promise((resolve) => (asked = resolve));
  const is_saved = new Promise((resolve) => (saved = resolve));
  await page.route(/\/readings\/[^/]*$/, async (route) => {
    if (!reloaded) return route.abort();
    if (route.request().method() === "PUT") {
      await is_asked;
      await route.fulfill({ response: await route.fetch() });
      return saved();
    }
    const answer = await route.fetch();
    asked();
    await is_saved;
    await new Promise((resolve) => setTimeout(resolve, 200));
    await route.fulfill({ response: answer });
  });
  await served.serve();
  reloaded = true;
  await page.reload();
  await is_saved;
  await new Promise((resolve) => setTimeout(resolve, 1500));
  await person.saved();
  assert.equal(await person.placed_points(), 5);
});

test("without a reload, too, the page saves and measures as soon as the program is back, and no old number stands meanwhile", async (t) => {
  const { page, person } = await four_points(t, "Back");
  const before = (await person.number("palmar-angle"))?.value;
  await page.locator('.number[data-id="palmar-angle"]').click();
  const angle_stands = async () => /\d°/.test((await person.hand.getAttribute("data-labels")) ?? "");
  await expect_soon(angle_stands);
  await served.kill();
  const let_go = await drag(page, person, places["p3-palmar-process"].px, { x: 0, y: -30 });
  await let_go();
  await page.locator('.keeping[data-state="waiting"]').waitFor();
  await page.getByText("The numbers of these points aren't there yet").waitFor();
  assert.equal(await page.locator("button.number").count(), 0);
  await expect_soon(async () => !(await angle_stands()));
  await shot(page, "hand-4-no-numbers");
  await served.serve();
  await person.saved();
  await person.measured();
  assert.ok(((await person.number("palmar-angle"))?.value ?? 0) > before + 3);
  await expect_soon(angle_stands);
  await page.locator(".notice").waitFor({ state: "hidden" });
});

test("brightness changes by drag in its mode, and no point moves", async (t) => {
  const { page, person } = await four_points(t, "Bright");
  const grey = () => page.locator(".stage canvas").first().evaluate((canvas) => {
    const { data } = canvas.getContext("2d").getImageData(canvas.width / 2, canvas.height / 2, 1, 1);
    return data[0];
  });
  const before = await grey();
  await page.getByRole("button", { name: "Brightness" }).click();
  const let_go = await drag(page, person, places["p3-tip"].px, { x: 0, y: -120 });
  await let_go();
  await expect_soon(async () => (await grey()) > before);
  assert.equal(await person.placed_points(), 4);
  await page.locator('.keeping[data-state="saved"]').waitFor();
});

test("two fingers zoom without leaving a point behind", async (t) => {
  const { person } = await four_points(t, "Pinch", "tablet");
  const before = (await person.on_screen([0, 0])).scale;
  const at = await person.on_screen(places["p3-tip"].px);
  await person.pinch(at, 2);
  await expect_soon(async () => (await person.on_screen([0, 0])).scale > 1.5 * before);
  assert.equal(await person.placed_points(), 4);
});

test("touching a line lights its number, touching the number again puts it out", async (t) => {
  const { page, person } = await four_points(t, "Light");
  await page.locator('.number[data-id="palmar-angle"]').click();
  const row = page.locator('.number[data-id="palmar-angle"]');
  await expect_soon(async () => (await row.getAttribute("aria-pressed")) === "true");
  await row.click();
  await expect_soon(async () => (await row.getAttribute("aria-pressed")) === "false");
  await person.saved();
});

test("a new horse, a visit and a picture begin from an empty page", async (t) => {
  const { page, context, seen } = await onlooker.page("tablet", served.address);
  t.after(() => context.close());
  await page.getByLabel("Name of the horse").fill("Thistle");
  await page.getByRole("button", { name: "Add horse" }).click();
  await page.getByRole("heading", { level: 1, name: "Thistle" }).waitFor();
  await shot(page, "new-1-horse");
  await page.getByLabel("What is wrong, in your words").fill("Short on the left fore");
  await page.getByLabel("What is wrong, in your words").blur();
  await page.getByRole("button", { name: "Begin a visit" }).click();
  await page.locator(".visit").waitFor();
  await page.getByText("Add pictures").locator("input").setInputFiles(`${samples}/${side.picture}`);
  await page.locator(".thumbs li").waitFor();
  await page.getByText("Add pictures").locator("input").setInputFiles({ name: "letter.dcm", mimeType: "application/dicom", buffer: Buffer.from("not a picture") });
  await page.getByRole("alert").filter({ hasText: "letter.dcm" }).waitFor();
  await shot(page, "new-2-refused");
  assert.equal(await page.locator(".thumbs li").count(), 1);
  await page.reload();
  await page.getByRole("heading", { level: 1, name: "Thistle" }).waitFor();
  assert.equal(await page.getByLabel("What is wrong, in your words").inputValue(), "Short on the left fore");
  assert.deepEqual(seen.strangers, []);
});

test("a plan is signed once every line is decided, and is frozen then", async (t) => {
  const { page, context } = await onlooker.page("laptop", served.address);
  t.after(() => context.close());
  const person = new Person(page, "mouse");
  await person.open_horse(sample_horse);
  await page.locator(".visit").first().getByRole("button", { name: "Plan" }).click();
  await person.say_name("Bo Invented");
  await page.getByRole("button", { name: /^Make/ }).click();
  await page.getByText("by Bo Invented").waitFor(); // the sample has a plan already: this is the new one
  const form = page.locator(".signing");
  await form.waitFor();
  await form.getByLabel("Name").fill("Bo Invented");
  await form.getByLabel("Registration number").fill("V 123");
  const lines = page.locator(".proposal");
  const count = await lines.count();
  assert.ok(count > 0, "the sample visit has lines to decide");
  await form.getByRole("button", { name: "Sign this version" }).click();
  await page.getByRole("alert").filter({ hasText: "not decided" }).waitFor();
  await lines.first().getByLabel("Note").fill("As discussed on the yard.");
  for (const line of await lines.all()) await line.getByLabel("Accept").check();
  await form.getByRole("button", { name: "Sign this version" }).click();
  await page.getByText("This version is frozen").waitFor();
  for (const field of await page.locator(".proposal input, .proposal textarea").all()) assert.ok(await field.isDisabled());
  await shot(page, "plan-signed");
});
