/** Two people in the same record and before the same plan: neither undoes what the other wrote or decided. */
import assert from "node:assert/strict";
import test from "node:test";
import { onlooker, served } from "./at_hand.mjs";
import { Person } from "./person.mjs";
import { sample_horse, samples, shot, truth } from "./program.mjs";
import { expect_soon } from "./soon.mjs";

const side = truth("lateromedial", "left-fore", "2026-03-02");

test("the record follows, and a half-written field, its focus and the scroll stay", async (t) => {
  const [one, two] = await Promise.all(["laptop", "tablet"].map(async (size) => {
    const { page, seen, context } = await onlooker.page(size, served.address);
    t.after(() => context.close());
    await new Person(page, "mouse").open_horse(sample_horse);
    return { page, seen };
  }));
  const words = one.page.getByLabel("What is wrong, in your words");
  await words.fill("Half a sen");
  await one.page.mouse.wheel(0, 200);
  const scroll = () => one.page.evaluate(() => [...document.querySelectorAll("main.sheet"), document.scrollingElement].map((each) => each.scrollTop));
  await expect_soon(async () => (await scroll()).some((each) => each > 0));
  const before = await scroll();
  await two.page.getByLabel("Weight, kg").fill("541");
  await two.page.getByLabel("Weight, kg").blur();
  await expect_soon(async () => (await one.page.getByLabel("Weight, kg").inputValue()) === "541");
  await two.page.getByRole("button", { name: "Begin a visit" }).click();
  await expect_soon(async () => (await one.page.locator(".visit").count()) === (await two.page.locator(".visit").count()));
  const newest = two.page.locator(".visit").first();
  await newest.getByText("Add pictures").locator("input").setInputFiles(`${samples}/${side.picture}`).catch(() => {});
  assert.equal(await words.inputValue(), "Half a sen");
  assert.ok(await words.evaluate((each) => each === document.activeElement));
  assert.deepEqual(await scroll(), before);
  await words.pressSequentially("tence");
  await words.blur();
  await expect_soon(async () => (await two.page.getByLabel("What is wrong, in your words").inputValue()) === "Half a sentence");
  assert.equal(await two.page.getByLabel("Weight, kg").inputValue(), "541");
});

/** Hears nothing of others any more. @param {import("playwright-core").Page} page */
async function deaf(page) {
  await page.route(/\/changes\?/, () => {});
  await page.evaluate(() => window.dispatchEvent(new Event("online")));
}

/** @param {import("playwright-core").Page} page @param {"GET" | "PUT"} method */
const plan_answer = (page, method) =>
  page.waitForResponse((answer) => answer.request().method() === method && answer.url().endsWith("/plan") && answer.ok());

/** Both before the newest plan. */
async function before_the_plan(t, names) {
  const both = [];
  for (const [nth, name] of names.entries()) {
    const { page, seen, context } = await onlooker.page(nth === 0 ? "laptop" : "tablet", served.address);
    t.after(() => context.close());
    const person = new Person(page, "mouse");
    await person.open_horse(sample_horse);
    await page.locator(".visit", { has: page.getByRole("heading", { name: "2 March 2026" }) }).getByRole("button", { name: "Plan" }).click();
    await person.say_name(name);
    await page.getByRole("button", { name: /^Make/ }).waitFor();
    both.push({ page, seen, lines: page.locator(".proposal") });
  }
  const [one, two] = both;
  await one.page.getByRole("button", { name: /^Make/ }).click();
  for (const { page } of both) await page.getByText(`by ${names[0]}`).waitFor();
  assert.ok((await one.lines.count()) >= 2, "the sample visit has two lines to decide");
  return [one, two];
}

test("two decide on one plan: different lines are put together, a half-written note stays", async (t) => {
  const [one, two] = await before_the_plan(t, ["Ann Invented", "Bob Invented"]);
  const note = one.lines.nth(0).getByLabel("Note");
  await note.click();
  await note.pressSequentially("Take le");
  const heard = plan_answer(one.page, "GET");
  await two.lines.nth(1).getByLabel("Accept").check();
  await heard;
  assert.equal(await note.inputValue(), "Take le");
  assert.ok(await note.evaluate((each) => each === document.activeElement));
  await note.pressSequentially("ss");
  await note.blur();
  for (const { lines } of [one, two]) {
    await expect_soon(() => lines.nth(1).getByLabel("Accept").isChecked());
    await expect_soon(async () => (await lines.nth(0).getByLabel("Note").inputValue()) === "Take less");
  }
  // Not hearing of it changes nothing: the second save is put together with the first.
  await deaf(one.page);
  const saved = plan_answer(two.page, "PUT");
  await two.lines.nth(0).getByLabel("Decline").check();
  await saved;
  await one.lines.nth(1).getByLabel("Decline").check();
  for (const { lines } of [one, two])
    for (const nth of [0, 1]) await expect_soon(() => lines.nth(nth).getByLabel("Decline").isChecked());
  assert.equal(await one.page.locator(".decided-otherwise").count(), 0);
});

test("of a line that both decided the saved decision stands and the other is asked about", async (t) => {
  const [one, two] = await before_the_plan(t, ["Cat Invented", "Dan Invented"]);
  await deaf(one.page);
  const saved = plan_answer(two.page, "PUT");
  await two.lines.nth(0).getByLabel("Decline").check();
  await saved;
  // Once: check() would look for it again in the line that is built anew, and decide a second time.
  await one.lines.nth(0).getByText("Accept", { exact: true }).click();
  const asked = one.page.locator(".decided-otherwise");
  await asked.waitFor();
  assert.ok(await one.lines.nth(0).getByLabel("Decline").isChecked());
  await shot(one.page, "live-4-same-line");
  await one.page.locator(".signing").getByLabel("Registration number").fill("V 1");
  await one.page.getByRole("button", { name: "Sign this version" }).click();
  await one.page.getByRole("alert").filter({ hasText: "say first which" }).waitFor();
  await asked.getByRole("button", { name: "Use mine" }).click();
  await asked.waitFor({ state: "hidden" });
  await expect_soon(() => two.lines.nth(0).getByLabel("Accept").isChecked());
});
