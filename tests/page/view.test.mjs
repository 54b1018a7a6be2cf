/**
 * How the picture is looked at: greys, turn, mirror, two side by side, the loupe, labels. None of it may
 * ever move a point or change a number.
 */
import assert from "node:assert/strict";
import test from "node:test";
import { onlooker, served } from "./at_hand.mjs";
import { Person } from "./person.mjs";
import { facts_of, sample_horse, shot, truth } from "./program.mjs";
import { expect_soon } from "./soon.mjs";

const side = truth("lateromedial", "left-fore", "2026-03-02");
const places = side.landmarks;

/** A fresh reader before a picture of the sample horse.
 * @param {{of?: any, picture?: string, size?: any, by?: any}} [wish] */
async function before_picture(t, name, { of = side, picture = "left fore, side view", size = "laptop", by = "mouse" } = {}) {
  const { page, seen, context } = await onlooker.page(size, served.address);
  t.after(() => context.close());
  const asked_for = [];
  page.on("request", (request) => request.method() !== "GET" && asked_for.push(`${request.method()} ${new URL(request.url()).pathname}`));
  const person = new Person(page, by);
  await person.open_horse(sample_horse);
  await person.open_picture("2 March 2026", picture);
  await person.say_name(name);
  await person.confirm(facts_of(of));
  await person.placed_points();
  return { page, person, seen, asked_for };
}

/** The reading as the program has it. */
async function saved_points(page, name) {
  const digest = page.url().split("/").at(-1);
  const case_id = page.url().split("/case/")[1].split("/")[0];
  const answer = await page.request.get(`${served.address}/api/cases/${case_id}/readings/${digest}?reader=${encodeURIComponent(name)}`);
  return (await answer.json()).reading.landmarks;
}

/** What is painted at picture pixels, red channel. @param {[number, number][]} pixels */
async function greys_at(page, person, pixels) {
  const box = await person.hand.boundingBox();
  const at = [];
  for (const px of pixels) {
    const { x, y } = await person.on_screen(px);
    at.push([Math.floor(x - box.x), Math.floor(y - box.y)]);
  }
  return page.locator(".stage canvas").first().evaluate((canvas, at) => {
    const to = canvas.getContext("2d");
    return at.map(([x, y]) => to.getImageData(x, y, 1, 1).data[0]);
  }, at);
}

/** The picture has come to rest when nothing has changed for two frames. */
async function at_rest(page) {
  const lies = () => page.locator(".hand").getAttribute("data-lies");
  let last;
  await expect_soon(async () => {
    const now = await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() =>
      done(document.querySelector(".hand").dataset.lies)))));
    const rests = now === last && now === (await lies());
    last = now;
    return rests;
  });
}

const eight = [0, 1, 2, 3].flatMap((quarters) => [[quarters, false], [quarters, true]]);

// Truth: the samples of the picture themselves: the pixel under the hand is the pixel that is kept.
test("in all eight positions a tap lands on the pixel that is seen under it, and the arrows go as the screen goes", async (t) => {
  const { page, person, seen } = await before_picture(t, "Eight");
  const around = (/** @type {[number, number]} */ [x, y]) =>
    [-2, -1, 0, 1, 2].flatMap((dx) => [-2, 0, 1].map((dy) => /** @type {[number, number]} */ ([Math.round(x) + dx, Math.round(y) + dy])));
  const info = await (await page.request.get(`${served.address}/api/pictures/${page.url().split("/").at(-1)}/samples`)).body();
  const samples = new Uint16Array(info.buffer, info.byteOffset, info.length / 2);
  const columns = side.shot.columns;
  const brighter_with = (/** @type {[number, number][]} */ pixels, /** @type {number[]} */ greys) => {
    const pairs = pixels.map(([x, y], at) => [samples[y * columns + x], greys[at]]).sort(([a], [b]) => a - b);
    return pairs.every(([, grey], at) => at === 0 || grey >= pairs[at - 1][1]) || pairs.every(([, grey], at) => at === 0 || grey <= pairs[at - 1][1]);
  };
  await page.getByRole("button", { name: "Turn", exact: true }).click();
  for (const [quarters, mirrored] of eight) {
    await page.getByRole("button", { name: "As it was taken" }).click();
    for (let n = 0; n < quarters; ++n) await page.getByRole("button", { name: "Quarter right" }).click();
    if (mirrored) await page.getByRole("button", { name: "Mirror", exact: true }).click();
    await page.getByRole("button", { name: "Points", exact: true }).first().click();
    await at_rest(page);
    const which = `${quarters} quarters, ${mirrored ? "mirrored" : "plain"}`;
    const id = (await person.asked()) ?? "";
    await person.come_nearer(places[id].px, 6);
    await at_rest(page);
    const pixels = around(places[id].px);
    assert.ok(brighter_with(pixels, await greys_at(page, person, pixels)), `painted where it lies: ${which}`);

    const screen = await person.on_screen(places[id].px);
    const tapped = { x: Math.round(screen.x), y: Math.round(screen.y) };
    await page.mouse.click(tapped.x, tapped.y);
    await expect_soon(async () => (await person.asked()) !== id);
    await person.saved();
    const kept = (await saved_points(page, "Eight"))[id];
    const back = await person.on_screen([kept.x, kept.y]);
    assert.ok(Math.hypot(back.x - tapped.x, back.y - tapped.y) < 1e-6, `${which}: ${JSON.stringify({ kept, back, tapped })}`);
    const pixel = 0.75 / screen.scale; // the hand can only aim at whole screen pixels
    assert.ok(Math.hypot(kept.x - places[id].px[0], kept.y - places[id].px[1]) < pixel, which);

    await page.locator(".hand").focus();
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("Shift+ArrowDown");
    let moved = kept;
    await expect_soon(async () => Math.abs((await person.on_screen([(moved = (await saved_points(page, "Eight"))[id]).x, moved.y])).y - tapped.y - 10) < 1e-6);
    assert.ok(Math.abs((await person.on_screen([moved.x, moved.y])).x - tapped.x - 1) < 1e-6, `arrows, ${which}`);
    await page.keyboard.press("Control+z");
    await person.saved();
    await page.getByRole("button", { name: "Turn", exact: true }).click();
  }
  assert.deepEqual(seen.complaints, []);
});

test("greys, turn and mirror are kept on this device, never reach the program and never change a number or the paper", async (t) => {
  const { page, person, asked_for } = await before_picture(t, "Greys");
  for (const id of ["ground-heel", "ground-toe", "p3-tip", "p3-palmar-process"]) {
    assert.equal(await person.asked(), id);
    await person.tap(places[id].px);
    await expect_soon(async () => (await person.asked()) !== id);
  }
  await person.saved();
  await expect_soon(async () => (await person.number("palmar-angle")) !== null);
  const [before, points] = [await person.numbers(), await saved_points(page, "Greys")];
  asked_for.length = 0;
  const middle = [[900, 700], [1000, 800], [1100, 900]];
  await at_rest(page);
  const as_it_came = await greys_at(page, person, middle);

  await page.getByRole("button", { name: "Brightness" }).click();
  await page.getByLabel("Brightness", { exact: true }).fill("0.2");
  await page.getByLabel("Contrast", { exact: true }).fill("0.5");
  await page.getByLabel("Middle greys (gamma)").fill("0.4");
  await page.getByLabel("Local contrast").fill("0.7");
  await at_rest(page);
  await shot(page, "view-greys-laptop");
  const changed = await greys_at(page, person, middle);
  assert.notDeepEqual(changed, as_it_came);
  await page.getByRole("button", { name: "Black for white" }).click();
  await expect_soon(async () => (await greys_at(page, person, middle)).every((grey, at) => Math.abs(grey - (255 - changed[at])) <= 1));
  await page.locator(".hand").focus();
  for (const key of ["Escape", "q", "m"]) await page.keyboard.press(key);
  await page.getByText("Left and right are exchanged on this screen only").waitFor();
  await at_rest(page);
  const looked_at = await greys_at(page, person, middle);
  assert.deepEqual(asked_for, []);

  await page.reload();
  await person.saved();
  await page.locator(".loading").waitFor({ state: "hidden" });
  await page.getByText("Left and right are exchanged on this screen only").waitFor();
  await expect_soon(async () => JSON.stringify(await greys_at(page, person, middle)) === JSON.stringify(looked_at));
  await expect_soon(async () => JSON.stringify(await person.numbers()) === JSON.stringify(before));
  assert.deepEqual(await saved_points(page, "Greys"), points);
  assert.deepEqual(asked_for.filter((each) => !/^POST .*\/measure\//.test(each)), []);

  await page.locator(".hand").focus();
  for (const key of ["r", "u"]) await page.keyboard.press(key);
  await page.getByText("Left and right are exchanged on this screen only").waitFor({ state: "hidden" });
  await at_rest(page);
  assert.deepEqual(await greys_at(page, person, middle), as_it_came);
  await page.reload();
  await page.locator(".loading").waitFor({ state: "hidden" });
  await at_rest(page);
  assert.deepEqual(await greys_at(page, person, middle), as_it_came);
});
