/** Two readers before the same picture: blind until both are done, then held against each other. */
import assert from "node:assert/strict";
import test from "node:test";
import { before_the_picture, side } from "./at_hand.mjs";
import { shot } from "./program.mjs";
import { expect_soon } from "./soon.mjs";

const some = ["ground-heel", "ground-toe", "p3-tip", "p3-palmar-process"];

/** @param {import("playwright-core").Page} page @param {string} tab */
const turn_to = (page, tab) => page.locator(`.tabs [data-tab="${tab}"]`).click();

/** @param {import("playwright-core").Page} page */
async function go_blind(page) {
  await turn_to(page, "readers");
  await page.getByLabel("Read it blind").check();
  await page.locator(".who-read", { hasText: "hidden" }).or(page.getByText("blind, in progress")).first().waitFor();
  await turn_to(page, "ask");
}

/** Places the first few points, one of them beside its place. */
async function place_some(person, off = 0) {
  for (const id of some) {
    assert.equal(await person.asked(), id);
    const [x, y] = side.landmarks[id].px;
    await person.tap([x, y + (id === "p3-tip" ? off : 0)]);
    await expect_soon(async () => (await person.asked()) !== id);
  }
  await person.saved();
}

async function be_done(page) {
  await turn_to(page, "readers");
  await page.getByRole("button", { name: "I am done" }).click();
  await page.getByText("A blind reading that is done stays as it is.").waitFor();
}

test("two readers read blind, are done, and see how far they agree", async (t) => {
  const vet = await before_the_picture(t, "Vera Invented");
  const farrier = await before_the_picture(t, "Fred Invented");
  await go_blind(vet.page);
  await go_blind(farrier.page);
  await place_some(vet.person, 0);
  await shot(vet.page, "readers-1-blind");
  await be_done(vet.page);
  await shot(vet.page, "readers-2-one-done");
  assert.equal(await vet.page.locator(".agreed-row").count(), 0);

  await place_some(farrier.person, 16);
  await turn_to(farrier.page, "readers");
  const hers = farrier.page.locator(".who-read li", { hasText: "Vera Invented" });
  await expect_soon(async () => /done, hidden/.test((await hers.textContent()) ?? ""));
  assert.equal(await farrier.page.locator(".agreed-row").count(), 0);
  await be_done(farrier.page);

  // Truth: the farrier's tip was placed 16 picture pixels lower than the vet's; a tap is good to a
  // screen pixel, which here is less than two of the picture's.
  const tip = farrier.page.locator('.agreed-row[data-id="p3-tip"] .value');
  await tip.waitFor();
  const millimetres = Number.parseFloat((await tip.textContent()) ?? "");
  assert.ok(millimetres > 1, `tips ${millimetres} mm apart`);
  await farrier.page.locator('.agreed-row[data-id="palmar-angle"]').getByText("too few to tell (1 of 10 pairs)").waitFor();
  await farrier.page.locator('.agreed-row[data-id="p3-tip"]').click();
  await shot(farrier.page, "readers-3-agreement");

  await vet.page.getByRole("button", { name: "Look again" }).click();
  await vet.page.locator('.agreed-row[data-id="p3-tip"]').waitFor();
  await vet.page.locator(".who-read li", { hasText: "Fred Invented" }).getByRole("button", { name: "Use for plan and paper" }).click();
  await vet.page.locator(".who-read li", { hasText: "Fred Invented" }).getByText("used for plan and paper").waitFor();
  for (const { seen } of [vet, farrier]) assert.deepEqual(seen, { complaints: [], strangers: [] });
});

test("a done blind reading doesn't move under the hand; another turn begins empty", async (t) => {
  const { page, person, seen } = await before_the_picture(t, "Nell Invented", { size: "upright" });
  await go_blind(page);
  await place_some(person);
  await be_done(page);
  await turn_to(page, "points");
  const placed = await person.placed_points();
  assert.equal(placed, some.length);
  await page.locator('.points li[data-id="p3-tip"] button').first().click();
  await page.getByRole("button", { name: "Remove point" }).click();
  assert.equal(await person.placed_points(), placed);

  await turn_to(page, "readers");
  await shot(page, "readers-4-upright");
  await page.getByRole("button", { name: "Read it again, blind" }).click();
  await page.getByLabel("Read it blind").waitFor();
  assert.ok(await page.getByLabel("Read it blind").isChecked());
  await turn_to(page, "ask");
  await expect_soon(async () => (await person.asked()) === some[0]);
  await page.reload();
  await page.locator(".loading").waitFor({ state: "hidden" });
  await expect_soon(async () => (await person.asked()) === some[0]);
  assert.deepEqual(seen, { complaints: [], strangers: [] });
});
