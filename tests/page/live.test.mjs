/** Two people at the same picture from two devices: each sees what the other saved, neither loses a point. */
import assert from "node:assert/strict";
import test from "node:test";
import { before_the_picture, onlooker, saved_reading, served } from "./at_hand.mjs";
import { Person } from "./person.mjs";
import { shot } from "./program.mjs";
import { expect_soon } from "./soon.mjs";

const a_while = 1500; // ms, in which what shall not come would have come

/** Beside the anatomy, where nobody of the sample placed a point; each test has some of its own, for
 * the earlier ones' stay in sight. From right to left: the toe lies left of the heel.
 * @param {number} n @returns {[number, number]} */
const spot = (n) => [890 - 110 * (n % 8), 120 + 90 * Math.floor(n / 8)];

/** The same reader at the same picture on another device. */
async function also_on(t, { page: first, name }, size = "tablet") {
  const { page, seen, context } = await onlooker.page(size, first.url());
  t.after(() => context.close());
  const person = new Person(page, size === "laptop" ? "mouse" : "touch");
  await person.say_name(name);
  await page.locator(".loading").waitFor({ state: "hidden" });
  await page.locator(".work").waitFor();
  return { page, person, seen, name };
}

/** Places what is asked for next; its id. @param {{person: Person}} who @param {[number, number]} at */
async function place_next({ person }, at) {
  const id = await person.asked();
  await person.tap(at);
  await expect_soon(async () => (await person.asked()) !== id);
  return id;
}

/** When the program acknowledged the next save of points. @param {import("playwright-core").Page} page */
const saving = (page) => page.waitForResponse((answer) => answer.request().method() === "PUT" && answer.url().includes("/readings/") && answer.ok());

/** Where a picture pixel lies in the canvas above the picture. @param {Person} person @param {[number, number]} px */
async function in_canvas(person, px) {
  const [at, box] = [await person.on_screen(px), await person.hand.boundingBox()];
  return { canvas: await person.hand.elementHandle(), x: at.x - box.x, y: at.y - box.y };
}

/** In the page: bright strokes within a mark's reach. */
function is_drawn({ canvas, x, y }) {
  const density = canvas.width / canvas.clientWidth;
  const reach = Math.round(9 * density);
  const { data } = canvas.getContext("2d").getImageData(Math.round(x * density) - reach, Math.round(y * density) - reach, 2 * reach, 2 * reach);
  let bright = 0;
  for (let at = 0; at < data.length; at += 4) if (data[at + 3] > 100 && data[at] > 120) bright += 1;
  return bright > 8;
}

/** Is something drawn above the picture at this place? @param {Person} person @param {[number, number]} px */
const drawn_at = async (person, px) => person.page.evaluate(is_drawn, await in_canvas(person, px));

/** Until it is drawn on this page; how long after `since`, ms. */
async function drawn_after(since, { person }, px) {
  // Where it lies is looked up anew each time: a sentence above the picture may come or go meanwhile.
  await expect_soon(() => drawn_at(person, px));
  return performance.now() - since;
}

/** The middle one and the worst. @param {number[]} all ms */
function median_and_worst(all) {
  const sorted = [...all].sort((a, b) => a - b);
  const middle = (sorted[Math.floor((sorted.length - 1) / 2)] + sorted[Math.ceil((sorted.length - 1) / 2)]) / 2;
  return `median ${middle.toFixed(0)}, worst ${sorted.at(-1).toFixed(0)} of ${sorted.length}`;
}

/** What the program has. */
const reading_of = ({ page, name }) => saved_reading(page, name);

/** Hears nothing of others until it is let. @param {import("playwright-core").Page} page */
async function deaf(page) {
  await page.route(/\/changes\?/, () => {});
  await page.route(/\/readings\/[^/]*\/all\?/, (route) => route.abort());
  await page.evaluate(() => window.dispatchEvent(new Event("online")));
}

test("each sees the other's saved points arrive, and both readings stay whole", async (t) => {
  const vet = await before_the_picture(t, "Vera Invented");
  const farrier = await before_the_picture(t, "Fred Invented", { size: "tablet" });
  const took = [];
  const placed = { [vet.name]: [], [farrier.name]: [] };
  for (let n = 0; n < 20; ++n) {
    const [by, to] = n % 2 === 0 ? [vet, farrier] : [farrier, vet];
    assert.equal(await drawn_at(to.person, spot(n)), false);
    const saved = saving(by.page);
    placed[by.name].push(await place_next(by, spot(n)));
    await saved;
    took.push(await drawn_after(performance.now(), to, spot(n)));
  }
  t.diagnostic(`saved to drawn on the other device, ms: ${median_and_worst(took)}`);
  await farrier.page.getByRole("group", { name: "Other readers' points" }).getByText("Vera Invented, 10 points").waitFor();
  for (const who of [vet, farrier]) {
    await who.person.saved();
    assert.deepEqual(Object.keys((await reading_of(who)).landmarks).sort(), [...placed[who.name]].sort());
  }
  await shot(vet.page, "live-1-laptop");
  await shot(farrier.page, "live-2-tablet");

  // Out of sight and back, also after a reload.
  const hide = () => vet.page.getByRole("group", { name: "Other readers' points" }).getByRole("button");
  await hide().click();
  await expect_soon(async () => !(await drawn_at(vet.person, spot(1))));
  await vet.page.reload();
  await vet.page.locator(".loading").waitFor({ state: "hidden" });
  await hide().waitFor();
  assert.equal(await drawn_at(vet.person, spot(1)), false);
  await hide().click();
  await expect_soon(() => drawn_at(vet.person, spot(1)));
  for (const { seen } of [vet, farrier]) assert.deepEqual(seen, { complaints: [], strangers: [] });
});

test("a blind reading shows and tells nothing until both are done, then by itself", async (t) => {
  const vet = await before_the_picture(t, "Vera Blind");
  const farrier = await before_the_picture(t, "Fred Blind", { size: "tablet" });
  for (const { page } of [vet, farrier]) {
    await page.locator('.tabs [data-tab="readers"]').click();
    await page.getByLabel("Read it blind").check();
    await page.locator(".who-read", { hasText: "open, hidden" }).waitFor();
  }
  await vet.page.locator(".who-read li", { hasText: "Fred Blind" }).waitFor();
  await vet.page.locator('.tabs [data-tab="ask"]').click();
  // Nothing may even be asked for on the farrier's page while she places: each question would be a count.
  let asked = 0;
  const count = (request) => /\/(all|changes)\?/.test(request.url()) && (asked += 1);
  farrier.page.on("request", count);
  // What came before, that she is there and reads blind, may still be asked after.
  for (let before = -1; before !== asked; ) {
    before = asked;
    await new Promise((resolve) => setTimeout(resolve, a_while));
  }
  asked = 0;
  for (let n = 20; n < 24; ++n) {
    const saved = saving(vet.page);
    await place_next(vet, spot(n));
    await saved;
  }
  await new Promise((resolve) => setTimeout(resolve, a_while));
  farrier.page.off("request", count);
  assert.ok(asked <= 1, `${asked} requests`);
  for (let n = 20; n < 24; ++n) assert.equal(await drawn_at(farrier.person, spot(n)), false);
  assert.equal(await farrier.page.getByRole("group", { name: "Other readers' points" }).count(), 0);

  await farrier.page.locator('.tabs [data-tab="ask"]').click();
  for (let n = 20; n < 24; ++n) await place_next(farrier, [spot(n)[0], spot(n)[1] + 12]);
  for (const { page, person } of [vet, farrier]) {
    await person.saved();
    await page.locator('.tabs [data-tab="readers"]').click();
  }
  await vet.page.getByRole("button", { name: "I am done" }).click();
  await farrier.page.locator(".who-read li", { hasText: "Vera Blind" }).getByText("done, hidden").waitFor();
  assert.equal(await farrier.page.locator(".agreed-row").count(), 0);
  await farrier.page.getByRole("button", { name: "I am done" }).click();
  await farrier.page.locator(".agreed-row").first().waitFor();
  await vet.page.locator(".agreed-row").first().waitFor();
  for (const { seen } of [vet, farrier]) assert.deepEqual(seen, { complaints: [], strangers: [] });
});

test("the same reader on two devices: different points are put together without a question", async (t) => {
  const laptop = await before_the_picture(t, "Twice");
  const first = await place_next(laptop, spot(32));
  await laptop.person.saved();
  const tablet = await also_on(t, laptop);
  await expect_soon(() => drawn_at(tablet.person, spot(32)));
  // Live: the laptop's point arrives under the tablet's hand.
  const saved = saving(tablet.page);
  const second = await place_next(tablet, spot(33));
  await saved;
  await expect_soon(() => drawn_at(laptop.person, spot(33)));

  // Apart: the laptop doesn't hear, both place the point asked for and move one of their own.
  await deaf(laptop.page);
  const third = await place_next(tablet, spot(34));
  await tablet.person.saved();
  assert.equal(await drawn_at(laptop.person, spot(34)), false);
  const from = await laptop.person.on_screen(spot(32));
  await laptop.page.mouse.move(from.x, from.y);
  await laptop.page.mouse.down();
  await laptop.page.mouse.move(from.x + 30, from.y + 30, { steps: 4 });
  await laptop.page.mouse.up();
  await laptop.person.saved();
  await expect_soon(() => drawn_at(laptop.person, spot(34)));
  assert.equal(await laptop.page.locator(".contradiction:visible").count(), 0);
  const both = await reading_of(laptop);
  assert.deepEqual(Object.keys(both.landmarks).sort(), [first, second, third].sort());
  assert.ok(both.landmarks[first].x > spot(32)[0] + 5, "the move is in it");
  // Undo takes back the move, not what the tablet placed.
  await laptop.page.getByRole("button", { name: "Undo" }).click();
  await expect_soon(async () => Math.abs((await reading_of(laptop)).landmarks[first].x - spot(32)[0]) < 3);
  assert.equal(Object.keys((await reading_of(laptop)).landmarks).length, 3);
  assert.deepEqual([laptop.seen.strangers, tablet.seen.complaints], [[], []]);
});

test("a point that both devices moved is asked about, and both answers hold", async (t) => {
  const laptop = await before_the_picture(t, "Both");
  const ids = [await place_next(laptop, spot(40)), await place_next(laptop, spot(42))];
  await laptop.person.saved();
  const tablet = await also_on(t, laptop);
  await expect_soon(() => drawn_at(tablet.person, spot(42)));
  await deaf(laptop.page);
  const nudge = async ({ page, person }, n, key) => {
    await page.locator('.tabs [data-tab="points"]').click();
    await page.locator(`.points li[data-id="${ids[n]}"] button`).first().click();
    await person.hand.focus();
    await page.keyboard.press(`Shift+${key}`);
    await page.keyboard.press(`Shift+${key}`);
  };
  for (const n of [0, 1]) await nudge(tablet, n, "ArrowDown");
  let theirs = {};
  await expect_soon(async () => {
    theirs = (await reading_of(tablet)).landmarks;
    return ids.every((id) => theirs[id].y > spot(40)[1] + 50);
  });
  // Both are moved before the laptop's first save comes through: a point not yet moved would just follow.
  let let_through = () => {};
  const both_moved = new Promise((resolve) => (let_through = () => resolve(undefined)));
  await laptop.page.route(/\/readings\//, async (route) => {
    if (route.request().method() === "PUT") await both_moved;
    await route.fallback();
  });
  for (const n of [0, 1]) await nudge(laptop, n, "ArrowUp");
  let_through();
  const bar = laptop.page.getByRole("alert").filter({ hasText: "on another device" });
  await bar.locator("li").nth(1).waitFor();
  assert.deepEqual((await reading_of(laptop)).landmarks, theirs);
  await shot(laptop.page, "live-3-both-moved");
  // A reload in the middle asks again.
  await laptop.page.reload();
  await bar.locator("li").nth(1).waitFor();
  await bar.locator(`li[data-id="${ids[0]}"]`).getByRole("button", { name: "Keep it as here" }).click();
  await bar.locator(`li[data-id="${ids[1]}"]`).getByRole("button", { name: "Take the other place" }).click();
  await bar.waitFor({ state: "hidden" });
  await laptop.person.saved();
  const kept = (await reading_of(laptop)).landmarks;
  assert.ok(kept[ids[0]].y < theirs[ids[0]].y - 5);
  assert.deepEqual(kept[ids[1]], theirs[ids[1]]);
});

test("a drag goes on while points arrive, and ends where the hand lets go", async (t) => {
  const laptop = await before_the_picture(t, "Dragging");
  const other = await before_the_picture(t, "Meanwhile", { size: "tablet" });
  const mine = await place_next(laptop, spot(48));
  await laptop.person.saved();
  const again = await also_on(t, laptop, "upright");
  await expect_soon(() => drawn_at(again.person, spot(48)));
  const from = await laptop.person.on_screen(spot(48));
  await laptop.page.mouse.move(from.x, from.y);
  await laptop.page.mouse.down();
  await laptop.page.mouse.move(from.x + 20, from.y, { steps: 3 });
  const before = await laptop.person.hand.getAttribute("data-lies");
  await place_next(other, spot(51));
  const same = await place_next(again, spot(52));
  await expect_soon(() => drawn_at(laptop.person, spot(51)));
  await expect_soon(() => drawn_at(laptop.person, spot(52)));
  await laptop.page.mouse.move(from.x + 60, from.y, { steps: 4 });
  await laptop.page.mouse.up();
  assert.equal(await laptop.person.hand.getAttribute("data-lies"), before);
  await laptop.person.saved();
  const { landmarks } = await reading_of(laptop);
  assert.deepEqual(Object.keys(landmarks).sort(), [mine, same].sort());
  assert.ok(Math.abs(landmarks[mine].x - spot(48)[0] - 60 / from.scale) < 2 / from.scale);
  assert.deepEqual(laptop.seen.complaints, []);
});

test("after the program was away, and after the page was hidden, what happened meanwhile is caught up with", async (t) => {
  const vet = await before_the_picture(t, "Vera Again");
  const farrier = await before_the_picture(t, "Fred Again", { size: "tablet" });
  await served.kill();
  await served.serve();
  await place_next(vet, spot(30));
  await vet.person.saved();
  await expect_soon(() => drawn_at(farrier.person, spot(30)));

  const hide = (yes) => farrier.page.evaluate((hidden) => {
    Object.defineProperty(document, "hidden", { configurable: true, get: () => hidden });
    document.dispatchEvent(new Event("visibilitychange"));
  }, yes);
  await hide(true);
  let asked = 0;
  farrier.page.on("request", (request) => request.url().includes("/changes?") && (asked += 1));
  await place_next(vet, spot(31));
  await vet.person.saved();
  await new Promise((resolve) => setTimeout(resolve, a_while));
  assert.equal(asked, 0);
  assert.equal(await drawn_at(farrier.person, spot(31)), false);
  await hide(false);
  await expect_soon(() => drawn_at(farrier.person, spot(31)));
});
