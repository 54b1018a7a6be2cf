/**
 * How the picture is looked at: greys, turn, mirror, two side by side, the loupe, labels. None of it may
 * ever move a point or change a number.
 */
import assert from "node:assert/strict";
import test from "node:test";
import { before_the_picture, onlooker, saved_reading, served, side } from "./at_hand.mjs";
import { Person } from "./person.mjs";
import { facts_of, sample_horse, shot, truth } from "./program.mjs";
import { expect_soon } from "./soon.mjs";

const places = side.landmarks;

/** A fresh reader before a picture of the sample horse.
 * @param {{of?: any, picture?: string, size?: any, by?: any}} [wish] */
async function before_picture(t, name, wish = {}) {
  const asked_for = [];
  const before = await before_the_picture(t, name, { ...wish, first: (page) =>
    page.on("request", (request) => request.method() !== "GET" && asked_for.push(`${request.method()} ${new URL(request.url()).pathname}`)) });
  return { ...before, asked_for };
}

/** The points as the program has them. */
const saved_points = async (page, name) => (await saved_reading(page, name)).landmarks;

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
      done(document.querySelector(".hand").dataset.lies + document.querySelector('.stage canvas[data-painted="in haste"]'))))));
    const rests = now === last && now === `${await lies()}null`;
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
  await person.measured();
  const [before, points] = [await person.numbers(), await saved_points(page, "Greys")];
  asked_for.length = 0;
  const middle = [[900, 700], [1000, 800], [1100, 900]];
  await at_rest(page);
  const as_it_came = await greys_at(page, person, middle);

  await page.getByRole("button", { name: "Brightness" }).click();
  await page.getByLabel("Brightness", { exact: true }).fill("0.2");
  await page.getByLabel("Contrast", { exact: true }).fill("0.5");
  await page.getByLabel("Middle greys").fill("0.4");
  await page.getByLabel("Local contrast").fill("0.7");
  await at_rest(page);
  await shot(page, "view-greys-laptop");
  const changed = await greys_at(page, person, middle);
  assert.notDeepEqual(changed, as_it_came);
  await page.getByRole("button", { name: "Invert", exact: true }).click();
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
  assert.deepEqual(asked_for.filter((each) => !/^POST .*\/(measure|find)\//.test(each)), []);

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

/** Boxes of the words, and everything the hand may hit, on the stage. */
async function labels_and_marks(page, person, placed) {
  const box = await person.hand.boundingBox();
  const labels = JSON.parse((await person.hand.getAttribute("data-labels")) ?? "[]");
  const marks = [];
  for (const { x, y } of Object.values(placed)) {
    const at = await person.on_screen([x, y]);
    marks.push({ x: at.x - box.x, y: at.y - box.y });
  }
  return { labels, marks, stage: { width: box.width, height: box.height } };
}

/** What a label covers, in words; nothing when all is well. */
function covered({ labels, marks, stage }) {
  const found = [];
  const ring = 10; // of a point that isn't selected, with its ticks
  labels.forEach((a, at) => {
    for (const b of labels.slice(at + 1))
      if (a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom) found.push(`${a.text} over ${b.text}`);
    for (const { x, y } of marks) {
      const away = [Math.max(a.left - x, 0, x - a.right), Math.max(a.top - y, 0, y - a.bottom)];
      if (Math.hypot(...away) < ring) found.push(`${a.text} over a point`);
    }
    if (a.left < 0 || a.top < 0 || a.right > stage.width || a.bottom > stage.height) found.push(`${a.text} beyond the stage`);
  });
  return found;
}

for (const [size, by] of [["laptop", "mouse"], ["tablet", "touch"], ["upright", "touch"]])
  test(`no label covers a point or another label, with every point placed, ${size}`, async (t) => {
    const { page, context } = await onlooker.page(size, served.address);
    t.after(() => context.close());
    const person = new Person(page, by);
    const looked = [];
    for (const picture of ["left fore, side view", "left fore, front view"]) {
      await page.goto(served.address);
      await person.open_horse(sample_horse);
      await person.open_picture("2 March 2026", picture);
      if (looked.length === 0) await person.say_name("Ada Example"); // who has read the sample case
      await page.locator(".loading").waitFor({ state: "hidden" });
      await expect_soon(async () => Object.keys(await saved_points(page, "Ada Example")).length >= 25);
      const placed = await saved_points(page, "Ada Example");
      await person.show_numbers();
      const numbers = page.locator("button.number:not(.not-measurable)");
      await expect_soon(async () => (await numbers.count()) >= 10);
      const ids = await numbers.evaluateAll((rows) => rows.map((row) => row.dataset.id));
      for (const nearer of [1, 2.2]) {
        if (nearer > 1) {
          const zoom = await person.on_screen([0, 0]);
          await person.hand.focus();
          while ((await person.on_screen([0, 0])).scale < nearer * zoom.scale) {
            const { scale } = await person.on_screen([0, 0]);
            await page.keyboard.press("+");
            await expect_soon(async () => (await person.on_screen([0, 0])).scale > scale);
          }
        }
        for (const id of ids.filter((_, n) => n % 3 === (nearer > 1 ? 1 : 0))) {
          await person.show_numbers();
          await page.locator(`button.number[data-id="${id}"]`).first().evaluate((row) => row.click());
          await page.locator(`button.number[data-id="${id}"][aria-pressed="true"]`).first().waitFor();
          await person.hand.focus();
          await page.keyboard.press("Tab"); // the next point, with its title
          await at_rest(page);
          const seen = await labels_and_marks(page, person, placed);
          looked.push(seen.labels.length);
          assert.deepEqual(covered(seen), [], `${picture}, ${id}, ${nearer} times`);
        }
        await shot(page, `view-labels-${size}-${picture.endsWith("side view") ? "side" : "front"}-${nearer}`);
      }
    }
    assert.ok(looked.filter((n) => n >= 4).length > 20, "numbers, titles, ways and the foot's name stood there together");
  });

// Pictures whose scale no test of this file confirms anew.
const shown = truth("lateromedial", "right-fore", "2026-04-13");
const before = truth("lateromedial", "right-fore", "2026-03-02");
const left = truth("lateromedial", "left-fore", "2026-04-13");

/** Where a pane's picture lies. @param {import("playwright-core").Locator} pane */
async function lies_in(pane) {
  const [left, top, column_x, row_y, column_y, row_x] = ((await pane.getAttribute("data-lies")) ?? "").split(" ").map(Number);
  return {
    scale: Math.hypot(column_x, column_y), mirrored: column_x * row_y - column_y * row_x < 0,
    at: (/** @type {{x: number, y: number}} */ { x, y }) => ({
      x: left + (x + 0.5) * column_x + (y + 0.5) * row_x, y: top + (x + 0.5) * column_y + (y + 0.5) * row_y,
    }),
  };
}

// Truth: the size of a pixel that the digital foot was drawn with (mm_per_pixel of its truth file). Each
// scale in use comes from a marker of 25 mm whose ends were placed by hand, and says of itself ± 1.4 %:
// two of them lie within 4 % of each other (2 * sqrt(2) * 1.4 %). How the panes are held together is exact.
for (const [size, by] of [["laptop", "mouse"], ["tablet", "touch"]])
  test(`two pictures side by side move together, millimetre for millimetre, ${size}`, async (t) => {
    const { page, seen, context } = await onlooker.page(size, served.address);
    t.after(() => context.close());
    const person = new Person(page, by);
    await person.open_horse(sample_horse);
    await person.open_picture("13 April 2026", "right fore, side view");
    await person.say_name("Ada Example");
    await page.getByRole("button", { name: "Beside" }).click();
    const choice = page.getByLabel("Beside it:");
    assert.match((await choice.locator("option").allTextContents()).slice(1, 2).join(), /right fore.*2 March/);
    const looker = page.locator(".looker");
    const case_path = page.url().split("/case/")[1].split("/")[0];
    const record = await (await page.request.get(`${served.address}/api/cases/${case_path}`)).json();
    /** As the program gives it for the points that Ada placed. */
    const pixel_mm = async (/** @type {any} */ of) => {
      const { digest } = record.visits.flatMap(({ pictures }) => pictures).find(({ file_name }) => file_name === of.picture);
      const answer = await page.request.get(`${served.address}/api/cases/${case_path}/readings/${digest}?reader=Ada%20Example`);
      return (await answer.json()).result.calibration.pixel_mm[0];
    };
    const measured = async () => /millimetre for millimetre/.test((await page.locator(".strip [role=status]").first().textContent()) ?? "");
    const together = async (/** @type {any} */ other) => {
      const [a, b] = [await lies_in(person.hand), await lies_in(looker)];
      const true_mm = (a.scale / shown.mm_per_pixel[0]) / (b.scale / other.mm_per_pixel[0]);
      const said_mm = (a.scale / (await pixel_mm(shown))) / (b.scale / (await pixel_mm(other)));
      return { a, b, same: Math.abs(true_mm - 1) < 0.04 && Math.abs(said_mm - 1) < 1e-9 };
    };
    for (const [option, other] of [["right fore, side view, 2 March 2026", before], ["left fore, side view, 13 April 2026", left]]) {
      await choice.selectOption({ label: option });
      await expect_soon(measured);
      await expect_soon(async () => (await together(other)).same);
      await at_rest(page);
      const first = await together(other);
      const pane = await looker.boundingBox();
      const finger = { x: pane.x + pane.width / 3, y: pane.y + pane.height / 2 };
      if (by === "touch") await person.pinch(finger, 2);
      else {
        await page.mouse.move(finger.x, finger.y);
        await page.mouse.wheel(0, -480);
      }
      await expect_soon(async () => (await together(other)).a.scale > 1.5 * first.a.scale);
      await at_rest(page);
      const after = await together(other);
      assert.ok(after.same);
      // Under the fingers, in the second pane, the picture stayed where it was; the first went along.
      const still = { x: finger.x - pane.x, y: finger.y - pane.y };
      for (const [was, is] of [[first.a, after.a], [first.b, after.b]]) {
        const grown = is.scale / was.scale;
        const [p, q] = [was.at({ x: 700, y: 500 }), is.at({ x: 700, y: 500 })];
        assert.ok(Math.hypot(q.x - still.x - grown * (p.x - still.x), q.y - still.y - grown * (p.y - still.y)) < 1.5);
      }
      await person.hand.focus();
      for (const key of ["q", "m"]) await page.keyboard.press(key);
      await at_rest(page);
      const turned = await together(other);
      assert.ok(turned.same && turned.a.mirrored && turned.b.mirrored);
      await page.getByRole("button", { name: "Mirror the second" }).click();
      await expect_soon(async () => !(await together(other)).b.mirrored);
      assert.match((await looker.getAttribute("aria-label")) ?? "", /fore/);
      await shot(page, `view-beside-${size}-${other === before ? "before" : "left"}`);
      await person.hand.focus();
      for (const key of ["u", "0"]) await page.keyboard.press(key);
      await at_rest(page);
    }
    assert.equal(Object.keys(await saved_points(page, "Ada Example")).length >= 30, true);
    await choice.selectOption({ label: "nothing" });
    await looker.waitFor({ state: "hidden" });
    assert.deepEqual(seen.complaints, []);
  });

test("no picture stands beside under the next one's name, and one that is still on its way can be zoomed", async (t) => {
  const { page, context } = await onlooker.page("laptop", served.address);
  t.after(() => context.close());
  const person = new Person(page, "mouse");
  await person.open_horse(sample_horse);
  await person.open_picture("13 April 2026", "right fore, side view");
  await person.say_name("Ada Example");
  await page.getByRole("button", { name: "Beside" }).click();
  const choice = page.getByLabel("Beside it:");
  const looker = page.locator(".looker");
  const painted = () => page.locator(".panes .stage").last().locator("canvas").first().evaluate((canvas) =>
    canvas.getContext("2d").getImageData(0, 0, canvas.width, canvas.height).data.some((each) => each > 0));
  await choice.selectOption({ label: "right fore, side view, 2 March 2026" });
  await page.locator(".loading-beside").waitFor({ state: "hidden" });
  await expect_soon(painted);

  // What is known of a picture, and its pixels, are each held back until they are let.
  const let_come = {};
  const held = (/** @type {RegExp} */ path, /** @type {string} */ what) => {
    const let_it = new Promise((resolve) => (let_come[what] = resolve));
    return page.route(path, (route) => let_it.then(() => route.fallback()));
  };
  await held(/\/api\/pictures\/[^/]+$/, "info");
  await held(/\/api\/pictures\/[^/]+\/samples$/, "samples");
  await choice.selectOption({ label: "left fore, side view, 13 April 2026" });
  await expect_soon(async () => (await looker.getAttribute("data-lies")) === null);
  assert.equal(await painted(), false);
  let_come.info();
  await expect_soon(async () => (await looker.getAttribute("data-lies")) !== null);
  const note = await page.locator(".loading-beside").boundingBox();
  assert.ok(note, "it is said that the picture is on its way");
  const { scale } = await lies_in(person.hand);
  await page.mouse.move(note.x + note.width / 2, note.y + note.height / 2);
  await page.mouse.wheel(0, -480);
  await expect_soon(async () => (await lies_in(person.hand)).scale > 1.5 * scale);
  let_come.samples();
  await page.locator(".loading-beside").waitFor({ state: "hidden" });
  await expect_soon(painted);
});

/** @param {import("playwright-core").Page} page @returns a finger that a test moves */
async function finger_on(page) {
  const session = await page.context().newCDPSession(page);
  return (/** @type {string} */ type, /** @type {{x: number, y: number}[]} */ ...at) =>
    session.send("Input.dispatchTouchEvent", { type, touchPoints: at.map(({ x, y }, id) => ({ x, y, id: id + 1 })) });
}

test("under a finger at any edge or corner the loupe stands free, and shows the place under it", async (t) => {
  const { page, person } = await before_picture(t, "Loupe", { size: "tablet" });
  const box = await person.hand.boundingBox();
  const touch = await finger_on(page);
  const reach = 22; // half of what a finger covers
  for (const fx of [0, 0.5, 1])
    for (const fy of [0, 0.5, 1]) {
      const at = { x: box.x + 3 + fx * (box.width - 6), y: box.y + 3 + fy * (box.height - 6) };
      await touch("touchStart", at);
      await page.locator(".hand[data-loupe]").waitFor();
      const [x, y, r] = ((await person.hand.getAttribute("data-loupe")) ?? "").split(" ").map(Number);
      const where = JSON.stringify({ at, x, y });
      assert.ok(Math.hypot(box.x + x - at.x, box.y + y - at.y) > r + reach, where);
      assert.ok(x >= r && y >= r && x <= box.width - r && y <= box.height - r, where);
      if (fx === 0.5 && fy === 0) await shot(page, "view-loupe-top");
      if (fx === 1 && fy === 0) await shot(page, "view-loupe-corner");
      await touch("touchCancel");
      await page.locator(".hand:not([data-loupe])").waitFor();
    }
  assert.equal(await person.placed_points(), 0);
});

test("two fingers move the picture, and leave no point", async (t) => {
  const { page, person } = await before_picture(t, "Two fingers", { size: "tablet" });
  const touch = await finger_on(page);
  const before = await person.on_screen([800, 600]);
  const start = [{ x: before.x, y: before.y }, { x: before.x + 120, y: before.y + 20 }];
  const moved = (/** @type {number} */ step) => start.map(({ x, y }) => ({ x: x + 15 * step, y: y - 10 * step }));
  await touch("touchStart", ...start);
  for (let step = 1; step <= 4; ++step) await touch("touchMove", ...moved(step));
  await touch("touchEnd");
  await expect_soon(async () => Math.abs((await person.on_screen([800, 600])).x - before.x - 60) < 1);
  await at_rest(page);
  const after = await person.on_screen([800, 600]);
  assert.ok(Math.abs(after.y - before.y + 40) < 1 && Math.abs(after.scale / before.scale - 1) < 0.01);
  assert.equal(await person.placed_points(), 0);
});

// Truth: the places of the digital foot: each next point is within what is shown, and nearer than before.
for (const [picture, of] of [["left fore, side view", side], ["left fore, front view", truth("dorsopalmar", "left-fore", "2026-03-02")]])
  test(`each next point comes up near, with its place in view: ${picture}`, async (t) => {
    const { page, context } = await onlooker.page("tablet", served.address, { following: true });
    t.after(() => context.close());
    const person = new Person(page, "touch");
    await person.open_horse(sample_horse);
    await person.open_picture("2 March 2026", picture);
    await person.say_name(`Follow ${of.shot.view}`);
    await person.confirm(facts_of(of));
    await at_rest(page);
    const whole = (await person.on_screen([0, 0])).scale;
    let [nearer, asked] = [0, 0];
    for (let id = await person.asked(); id !== null; id = await person.asked()) {
      const place = of.landmarks[id]?.px;
      if (place) {
        assert.ok(await person.sees(place), id);
        const { scale } = await person.on_screen(place);
        asked += 1;
        nearer += scale > 1.4 * whole ? 1 : 0;
        if (asked === 6) await shot(page, `view-follow-${of.shot.view}`);
        await person.tap(place);
      } else await page.getByRole("button", { name: "Can't see it: skip" }).click();
      await expect_soon(async () => (await person.asked()) !== id);
    }
    assert.ok(nearer >= asked - 3, `${nearer} of ${asked} came up near`);
    await at_rest(page);
    assert.ok(Math.abs((await person.on_screen([0, 0])).scale / whole - 1) < 1e-6, "the whole picture after the last one");
  });
