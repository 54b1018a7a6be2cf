/** Photos of limbs: what they are, how large, dots, checks; the truth is the digital horse's own. */
import assert from "node:assert/strict";
import test, { before } from "node:test";
import { onlooker, saved_entry, saved_reading, served } from "./at_hand.mjs";
import { Person } from "./person.mjs";
import { drawn_photo, facts_of, sample_horse, shot, truth } from "./program.mjs";
import { expect_soon, two_frames } from "./soon.mjs";

/** @type {{file: string, truth: any}} */
let limb;
/** @type {{file: string, truth: any}} */
let foot;
before(async () => {
  limb = await drawn_photo(served.folder, "limb", ["--seed", "11", "--subject", "fore-side", "--side", "left",
    "--background", "plain", "--light", "overcast", "--coat", "bay", "--dots", "orange", "blue", "--card-offset", "0", "--card-turned", "0", "--around", "0"]);
  foot = await drawn_photo(served.folder, "foot", ["--seed", "12", "--subject", "foot-side", "--side", "left", "--background", "plain"]);
});

/** Side of the picture to which the horse's front lies. */
const toward = ({ landmarks }) => (landmarks["wall-toe-ground"].px[0] < landmarks["ground-heel"].px[0] ? "left" : "right");

/** A new horse's visit with the photo, opened and unanswered. */
async function with_photo(t, name, size, by, { file }) {
  const { page, seen, context } = await onlooker.page(size, served.address);
  t.after(() => context.close());
  const person = new Person(page, by);
  await page.getByLabel("Name of the horse").fill(name);
  await page.getByRole("button", { name: "Add horse" }).click();
  await page.getByRole("button", { name: "Begin a visit" }).click();
  await page.locator(".visit").waitFor();
  await page.getByText("Add pictures").locator("input").setInputFiles(file);
  await page.locator(".thumbs li a").click();
  await person.say_name(`Reader of ${name}`);
  await page.locator(".loading").waitFor({ state: "hidden" });
  return { page, person, seen };
}

/** @param {import("playwright-core").Page} page */
const protocol_titles = (page) => page.locator(".protocols > .protocol-group label").allTextContents();

/** Everything but the scale. */
async function answer(page, facts) {
  for (const [question, value] of Object.entries(facts))
    await page.locator(`fieldset[data-name="${question}"] input[value="${value}"]`).check();
}

const whole_limb = () => ({
  protocol: "fore-limb-side", side: "left", end: "fore", toward: toward(limb.truth), shoeing: "bare", loading: "weight-bearing",
});

/** Nothing of the panels is cut off sideways. @param {import("playwright-core").Page} page */
async function nothing_clipped(page) {
  const wide = await page.locator(".side").evaluate((side) =>
    [side, ...side.querySelectorAll("*")].filter((each) => each.checkVisibility() && each.scrollWidth > each.clientWidth + 1 &&
      !["visible", "clip"].includes(getComputedStyle(each).overflowX)).map((each) => `${each.className}: ${each.scrollWidth} in ${each.clientWidth}`));
  assert.deepEqual(wide, []);
}

for (const [size, by] of [["laptop", "mouse"], ["tablet", "touch"], ["upright", "touch"]])
  test(`a limb's photo is named, scaled by its card, and its dots confirmed by ${by}, ${size}`, async (t) => {
    const { page, person, seen } = await with_photo(t, `Limb ${size}`, size, by, limb);
    await expect_soon(async () => (await protocol_titles(page)).includes("Fore limb from the side"));
    const offered = await protocol_titles(page);
    assert.ok(offered.includes("Sole"), offered.join());
    assert.ok(!offered.some((each) => each.includes("lateromedial")), "radiographs are folded away for a photo");
    await answer(page, { end: "hind" });
    await expect_soon(async () => !(await protocol_titles(page)).includes("Fore limb from the side"));
    await answer(page, { end: "fore" });
    await answer(page, whole_limb());
    await shot(page, `photo-${size}-1-what`);
    assert.ok(await page.getByRole("button", { name: "That is right" }).isDisabled(), "a scale is still to be chosen");

    await page.locator('fieldset[data-name="scale"] input[value="card"]').check();
    await page.getByRole("button", { name: "Find the card" }).click();
    await page.getByText("The card was found").waitFor();
    assert.match((await page.locator(".found-said").textContent()) ?? "", /printed on A4/);
    const warnings = page.locator(".scale-said .verdict-line");
    await page.getByLabel("I don't know").check();
    await page.locator(".scale-said").waitFor();
    await expect_soon(async () => (await warnings.count()) > 0);
    await nothing_clipped(page);
    await shot(page, `photo-${size}-2-card-unsure`);
    await page.locator('input[name="offset_mm"]').fill("0");
    await page.locator('input[name="offset_mm"]').blur();
    await expect_soon(async () => !(await page.getByLabel("I don't know").isChecked()) && (await page.locator(".scale-said").count()) > 0);
    await shot(page, `photo-${size}-3-card`);
    await page.getByRole("button", { name: "That is right" }).click();
    await page.locator(".confirm").waitFor({ state: "hidden" });

    await page.locator(".dots > summary").click();
    const [first, second] = [0, 1].map((colour) => limb.truth.stick_on.dots.find((each) => each.colour === colour));
    await page.locator('fieldset[data-name="colour-0"] input[value="tap"]').check();
    await person.tap(first.px);
    await person.tap(second.px);
    assert.equal(await person.placed_points(), 0, "tapping a colour places nothing");
    await page.getByRole("button", { name: "Find the dots" }).click();
    await page.locator(".offers li").first().waitFor();
    await shot(page, `photo-${size}-4-offers`);
    await nothing_clipped(page);
    const ids = await page.locator(".offers li").evaluateAll((all) => all.map((each) => each.dataset.offer));
    assert.ok(ids.length >= 3, ids.join());
    assert.equal(await person.placed_points(), 0, "an offer is no point");
    assert.ok(ids.every(Boolean), `each dot is named: ${ids.join()}`);
    await page.locator(`.offers li[data-offer="${ids[0]}"]`).getByRole("button", { name: "Confirm" }).click();
    await expect_soon(async () => (await person.placed_points()) === 1);
    await page.getByRole("button", { name: "Confirm all" }).click();
    await expect_soon(async () => (await person.placed_points()) === ids.length);
    await person.saved();
    const reading = await saved_reading(page, `Reader of Limb ${size}`);
    for (const id of ids) {
      assert.equal(reading.landmarks[id].how, "on-dot", id);
      const { px } = limb.truth.stick_on.dots.find((each) => each.id === id);
      const off = Math.hypot(reading.landmarks[id].x - px[0], reading.landmarks[id].y - px[1]);
      assert.ok(off <= 1.5, `${id} lies ${off} px from its dot`);
    }
    await page.locator(".dots > summary").click();

    await person.place_all(limb.truth.landmarks);
    await person.saved();
    await person.show_numbers();
    await expect_soon(async () => Object.keys(await person.numbers()).length >= 5);
    const touched = page.locator(".number .cautions");
    if (await page.locator(".check-list li.caution").count()) assert.ok((await touched.count()) > 0, "a caution stands beside each number it touches");
    await shot(page, `photo-${size}-5-numbers`);
    await nothing_clipped(page);
    assert.deepEqual(seen, { complaints: [], strangers: [] });
  });

test("an unconfirmed offer is forgotten, never saved", async (t) => {
  const { page, person } = await with_photo(t, "Forgotten", "laptop", "mouse", limb);
  await answer(page, { ...whole_limb(), scale: "none" });
  await page.getByRole("button", { name: "That is right" }).click();
  await page.locator(".dots > summary").click();
  for (const [n, colour] of [[0, "orange"], [1, "blue"]])
    await page.locator(`fieldset[data-name="colour-${n}"] input[value="${colour}"]`).check();
  await page.getByRole("button", { name: "Find the dots" }).click();
  await page.locator(".offers li").first().waitFor();
  await page.reload();
  await page.locator(".loading").waitFor({ state: "hidden" });
  assert.equal(await person.placed_points(), 0);
  assert.deepEqual((await saved_reading(page, "Reader of Forgotten")).landmarks, {});
});

test("a foot's photo gets its millimetres from a known length by two points", async (t) => {
  const { page, person } = await with_photo(t, "Known length", "laptop", "mouse", foot);
  await answer(page, { protocol: "foot-side", side: "left", end: "fore", toward: toward(foot.truth), shoeing: "bare", loading: "weight-bearing", scale: "marker" });
  // Truth: the drawn foot's own length on the ground, as a tape would give it. The ends are taken a
  // tenth inwards, so that no other point lies on them.
  const [toe, heel] = ["wall-toe-ground", "heel-ground"].map((id) => foot.truth.landmarks[id]);
  const length = (0.8 * Math.hypot(toe.plane_mm[0] - heel.plane_mm[0], toe.plane_mm[1] - heel.plane_mm[1])).toFixed(1);
  const between = (/** @type {number} */ share) => toe.px.map((each, at) => each + share * (heel.px[at] - each));
  await page.locator('input[name="offset_mm"]').waitFor();
  // Both within one frame: nothing was drawn anew between them.
  await page.locator(".scale-part").evaluate((part, numbers) => {
    for (const [name, number] of Object.entries(numbers)) {
      const field = /** @type {HTMLInputElement} */ (part.querySelector(`input[name="${name}"]`));
      field.value = number;
      for (const each of ["input", "change"]) field.dispatchEvent(new Event(each, { bubbles: true }));
    }
  }, { length_mm: length, offset_mm: "0" });
  await page.getByText("Still to answer").waitFor({ state: "hidden" });
  // A correction, and the button pressed straight from the field.
  await page.locator('input[name="offset_mm"]').fill("1");
  const button = await page.getByRole("button", { name: "That is right" }).boundingBox();
  assert.ok(button);
  await page.mouse.move(button.x + button.width / 2, button.y + button.height / 2);
  await page.mouse.down();
  await two_frames(page);
  await page.mouse.up();
  await page.locator(".confirm").waitFor({ state: "hidden" });
  const { length_mm, offset_mm } = (await saved_entry(page)).scale;
  assert.deepEqual([length_mm, offset_mm], [Number(length), 1]);
  assert.equal(await person.asked(), "marker-1");
  await person.tap(between(0.1));
  await expect_soon(async () => (await person.asked()) === "marker-2");
  await person.tap(between(0.9));
  await expect_soon(async () => (await person.asked()) !== "marker-2");
  await person.place_all(foot.truth.landmarks);
  await person.saved();
  await page.locator('.tabs [data-tab="numbers"]').click();
  await person.measured();
  assert.ok((await page.locator(".numbers .scale").textContent())?.includes(length));
  const numbers = await person.numbers();
  assert.ok(Object.keys(numbers).length >= 5, Object.keys(numbers).join());
  await shot(page, "photo-known-length");
});

test("the sample film's checks stand above its numbers, and one shows its points", async (t) => {
  const side = truth("lateromedial", "left-fore", "2026-03-02");
  const { page, context } = await onlooker.page("laptop", served.address);
  t.after(() => context.close());
  const person = new Person(page, "mouse");
  await person.open_horse(sample_horse);
  await person.open_picture("2 March 2026", "left fore, side view");
  await person.say_name("Checks");
  await person.confirm(facts_of(side));
  await person.place_all(side.landmarks);
  await page.locator('.tabs [data-tab="points"]').click();
  await page.getByRole("heading", { name: "Is the view straight?" }).waitFor();
  assert.ok(!(await page.locator(".points li[data-id='navicular-proximal']").isVisible()), "further points are folded");
  await shot(page, "checks-1-points");
  await page.locator('.tabs [data-tab="ask"]').click();
  await page.getByRole("button", { name: /^Check that the view is straight/ }).click();
  await expect_soon(async () => (await person.asked()) !== null);
  const asked = await person.asked();
  assert.equal(await page.locator(`.points li[data-id="${asked}"]`).getAttribute("data-state"), "check");
  await person.place_all(side.landmarks);
  await person.show_numbers();
  const checks = page.locator(".check-list li");
  await checks.first().waitFor();
  const words = await page.locator(".check-verdict").allTextContents();
  assert.ok(words.every((each) => ["fit", "with caution", "not fit", "not checked"].includes(each)), words.join());
  await page.locator(".checks").evaluate((each) => (each.open = true));
  await page.locator(".check-list button").first().click();
  await expect_soon(async () => (await page.locator('.check-list button[aria-pressed="true"]').count()) === 1);
  await shot(page, "checks-2-lit");
  const folded = page.locator(".folded > summary", { hasText: "more when further points are placed" });
  await folded.waitFor();
  await folded.click();
  await expect_soon(async () => (await page.locator(".numbers .folded .not-measurable").first().isVisible()));
});

test("the sample film's ball is found, chosen and asked about", async (t) => {
  const { page, context } = await onlooker.page("laptop", served.address);
  t.after(() => context.close());
  const person = new Person(page, "mouse");
  await person.open_horse(sample_horse);
  await person.open_picture("2 March 2026", "left fore, side view");
  await person.say_name("Ball");
  await page.locator(".loading").waitFor({ state: "hidden" });
  await page.locator('fieldset[data-name="scale"] input[value="ball"]').check();
  await page.getByRole("button", { name: "Find the ball" }).click();
  await page.locator('fieldset[data-name="ball"] input').first().check();
  await page.getByLabel("Diameter of the ball, mm").fill("25");
  await page.getByLabel("Diameter of the ball, mm").blur();
  await page.getByText("Still to answer").filter({ hasText: "how far it stood" }).waitFor();
  await page.getByLabel("I don't know").check();
  await page.locator(".scale-said").filter({ hasText: "25" }).waitFor();
  await shot(page, "film-ball");
});

test("what isn't a limb's photo gets one sentence", async (t) => {
  const { page } = await with_photo(t, "No card", "laptop", "mouse", await drawn_photo(served.folder, "bare", ["--seed", "13", "--subject", "fore-side", "--no-card", "--no-dots", "--size", "800"]));
  await page.locator('fieldset[data-name="scale"] input[value="card"]').check();
  await page.getByRole("button", { name: "Find the card" }).click();
  await page.getByRole("alert").filter({ hasText: /card/i }).waitFor();
  assert.ok(await page.getByRole("button", { name: "That is right" }).isDisabled());
  await shot(page, "photo-no-card");
});
