/** The whole job as a person does it: with a mouse at a laptop, with a finger on a tablet. */
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import test from "node:test";
import { onlooker, served } from "./at_hand.mjs";
import { Person } from "./person.mjs";
import { facts_of, sample_horse, shot, truth } from "./program.mjs";
import { expect_soon } from "./soon.mjs";

const horse = sample_horse;
const day = "2 March 2026";
const side = truth("lateromedial", "left-fore", "2026-03-02");
const front = truth("dorsopalmar", "left-fore", "2026-03-02");

/** The points of the joint lie a few pixels apart: a person goes near before placing them. */
const near_the_joint = (id) => (/^(dip|p3-articular)-/.test(id) ? 1.6 : 0);

/** The sentence of the row, then the numbers against the model's own. */
function agree(numbers, of) {
  const compared = Object.entries(of.measurements).filter(([id]) => numbers[id]);
  for (const [id, { value }] of compared) {
    const { value: read, spread } = numbers[id];
    const rounding = 0.05;
    assert.ok(Math.abs(read - value) <= spread + rounding, `${id}: read ${read} ± ${spread}, in truth ${value}`);
  }
  return compared.length;
}

for (const [size, by] of [["laptop", "mouse"], ["tablet", "touch"], ["upright", "touch"]])
  test(`the job is done from pictures to paper by ${by}, ${size}`, async (t) => {
    const { page, seen, context } = await onlooker.page(size, served.address, { following: true });
    t.after(() => context.close());
    const person = new Person(page, by);
    await page.getByRole("link", { name: horse }).waitFor();
    await shot(page, `${size}-1-horses`);
    await person.open_horse(horse);
    await expect_soon(() => page.locator(".thumbs img").evaluateAll((all) => all.every((each) => each.complete && each.naturalWidth > 0)));
    await shot(page, `${size}-2-horse`);

    await person.open_picture(day, "left fore, side view");
    await shot(page, `${size}-3-name`);
    await person.say_name(`Nell Invented, ${size}`);
    await page.locator(".loading").waitFor({ state: "hidden" });
    await shot(page, `${size}-4-facts`);
    await person.confirm(facts_of(side));
    await shot(page, `${size}-5-first-point`);
    const placed = await person.place_all(side.landmarks);
    assert.ok(placed.length >= 20, `${placed.length} points of the side view`);
    await person.saved();
    await shot(page, `${size}-6-side-done`);
    await person.show_numbers();
    await person.measured();
    assert.ok(agree(await person.numbers(), side) >= 15);
    await page.locator('.number[data-id="palmar-angle"]').click();
    await shot(page, `${size}-7-side-numbers`);

    await page.getByRole("button", { name: horse }).click();
    await person.open_picture(day, "left fore, front view");
    await person.confirm(facts_of(front));
    const placed_front = await person.place_all(front.landmarks, near_the_joint);
    assert.ok(placed_front.length >= 18, `${placed_front.length} points of the front view`);
    await person.saved();
    await person.show_numbers();
    await person.measured();
    assert.ok(agree(await person.numbers(), front) >= 8);
    await page.locator('.number[data-id="dip-line-angle"]').click();
    await shot(page, `${size}-8-front-numbers`);

    await page.getByRole("button", { name: horse }).click();
    const visit = page.locator(".visit", { has: page.getByRole("heading", { name: day }) });
    await visit.getByRole("button", { name: "Plan" }).click();
    const made = page.waitForResponse((answer) => answer.request().method() === "POST" && answer.url().endsWith("/plan"));
    await page.getByRole("button", { name: /^Make/ }).click();
    assert.equal((await made).status(), 200);
    await page.getByText(`by Nell Invented, ${size}`).waitFor();
    await shot(page, `${size}-9-plan`);

    const download = page.waitForEvent("download");
    await page.getByRole("link", { name: "Print, A4" }).click();
    const paper = readFileSync(await (await download).path());
    assert.equal(paper.subarray(0, 4).toString(), "%PDF");
    assert.deepEqual(seen, { complaints: [], strangers: [] });
  });
