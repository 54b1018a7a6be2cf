/** Somebody's first minute: an empty store, the sample horse, and what each landmark means. */
import assert from "node:assert/strict";
import test, { after, before } from "node:test";
import { Person } from "./person.mjs";
import { Onlooker, Served, facts_of, sample_horse, shot, truth } from "./program.mjs";

/** @type {Served} */
let served;
/** @type {Onlooker} */
let onlooker;
before(async () => {
  served = await Served.start("nobody");
  onlooker = await Onlooker.open();
});
after(async () => {
  await onlooker?.close();
  await served?.stop();
});

test("who has no horse yet is shown the sample horse, and finds a landmark's definition in the list", async (t) => {
  const { page, seen, context } = await onlooker.page("laptop", served.address);
  t.after(() => context.close());
  await page.getByText("No horse yet").waitFor();
  await shot(page, "first-1-nobody");
  await page.getByRole("button", { name: "Show me the sample horse" }).click();
  await page.getByRole("heading", { level: 1, name: sample_horse }).waitFor();
  assert.equal(await page.locator(".visit").count(), 2);
  await shot(page, "first-2-sample");

  const person = new Person(page, "mouse");
  await person.open_picture("2 March 2026", "left fore, side view");
  await person.say_name("First Invented");
  await person.confirm(facts_of(truth("lateromedial", "left-fore", "2026-03-02")));
  await page.locator('.tabs [data-tab="points"]').click();
  await page.locator('.points li[data-id="p3-tip"] button').first().click();
  await page.locator('.points li[data-id="p3-tip"]').getByText("The lowest, foremost point of the coffin").waitFor();
  await shot(page, "first-3-definition");

  await page.getByRole("button", { name: "Horses" }).click();
  await page.getByRole("link", { name: new RegExp(sample_horse) }).waitFor();
  assert.equal(await page.getByRole("button", { name: "Show me the sample horse" }).isVisible(), false);
  assert.deepEqual(seen, { complaints: [], strangers: [] });
});
