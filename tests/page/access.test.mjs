/**
 * Can everybody use it? Every state of the page held against the published rules (WCAG 2.1 A and AA,
 * as axe-core tests them), at 200 % text, and by where the keyboard's focus shows.
 */
import assert from "node:assert/strict";
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import test from "node:test";
import { onlooker, served } from "./at_hand.mjs";
import { Person } from "./person.mjs";
import { facts_of, sample_horse, shot, truth } from "./program.mjs";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const rules = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "best-practice"];

/** What axe-core calls serious or critical, one line each. @param {import("playwright-core").Page} page */
async function serious(page) {
  await page.evaluate(axe);
  const found = await page.evaluate(
    (tags) => /** @type {any} */ (window).axe.run(document, { runOnly: tags, resultTypes: ["violations"] }), rules);
  assert.ok(found.passes.length > 5, "axe-core looked at something");
  return found.violations
    .filter(({ impact }) => impact === "serious" || impact === "critical")
    .flatMap(({ id, nodes }) => nodes.map(({ target, failureSummary }) => `${id}: ${target.join(" ")}: ${failureSummary}`));
}

for (const [size, by] of /** @type {const} */ ([["laptop", "mouse"], ["upright", "touch"]]))
  for (const theme of ["indoors", "outdoors"])
    test(`no page keeps anybody out: ${size}, ${theme}`, async (t) => {
      const { page, context } = await onlooker.page(size, served.address);
      t.after(() => context.close());
      const person = new Person(page, by);
      /** @type {string[]} */
      const unfair = [];
      const fair = async (/** @type {string} */ state) =>
        unfair.push(...(await serious(page)).map((each) => `${state}: ${each}`));
      await page.getByRole("link", { name: new RegExp(sample_horse) }).waitFor();
      if (theme === "outdoors") await page.getByRole("button", { name: "Outdoors" }).click();
      await fair("horses");
      await person.open_horse(sample_horse);
      await fair("one horse");
      await person.open_picture("2 March 2026", "left fore, side view");
      await page.getByRole("dialog").waitFor();
      await fair("asked for a name");
      await person.say_name(`Access ${size} ${theme}`);
      await page.locator(".loading").waitFor({ state: "hidden" });
      await fair("asked about the picture");
      const side = truth("lateromedial", "left-fore", "2026-03-02");
      await person.confirm(facts_of(side));
      await page.locator('.ask[data-id]').waitFor();
      await fair("asked for a point");
      for (const tool of ["Brightness", "Turn", "Beside"]) {
        await page.getByRole("button", { name: tool, exact: true }).click();
        await page.locator(".strip:visible").first().waitFor();
        await fair(`the strip of ${tool}`);
      }
      await page.getByRole("button", { name: "Beside", exact: true }).click();
      await page.getByRole("button", { name: "Points", exact: true }).first().click();
      await person.tap(side.landmarks[(await person.asked()) ?? ""].px);
      await fair("a point placed");
      for (const tab of ["points", "numbers", "readers", "try"]) {
        const button = page.locator(`.tabs [data-tab="${tab}"]`);
        if (!(await button.isVisible())) continue;
        await button.click();
        if (tab === "try") {
          await page.locator(".bar, .why-not .stops").first().waitFor();
          for (const each of await page.locator(".shoe:visible").all()) await each.evaluate((shoe) => (shoe.open = true));
        }
        await fair(tab);
        await shot(page, `access-${size}-${theme}-${tab}`);
      }
      await person.hand.focus();
      await page.keyboard.press("?");
      await page.getByRole("dialog").waitFor();
      await fair("keys");
      await page.keyboard.press("Escape");
      await page.goBack();
      await page.getByRole("heading", { level: 1, name: sample_horse }).waitFor();
      await page.getByRole("button", { name: "Plan" }).first().click();
      await page.locator(".plan-head h1, .plan-head h2").first().waitFor();
      await fair("plan");
      await shot(page, `access-${size}-${theme}-plan`);
      assert.deepEqual(unfair, []);
    });

// Truth: WCAG 2.1, 1.4.4 and 1.4.10: text at 200 %, here by the browser's zoom, loses nothing sideways.
test("at twice the size nothing is cut off sideways, on no page", async (t) => {
  const context = await onlooker.browser.newContext({ viewport: { width: 683, height: 384 }, deviceScaleFactor: 2 });
  t.after(() => context.close());
  const page = await context.newPage();
  await page.goto(served.address);
  const person = new Person(page, "mouse");
  const cut_off = () => page.evaluate(() => {
    const wide = document.documentElement.clientWidth;
    return [...document.querySelectorAll("body *")]
      .filter((each) => each.checkVisibility() && !each.closest(".stage, svg"))
      .filter((each) => each.getBoundingClientRect().right > wide + 1)
      .map((each) => `${each.tagName} ${each.className}`);
  });
  const look = async (/** @type {string} */ state) => {
    assert.deepEqual(await cut_off(), [], state);
    await shot(page, `access-twice-${state}`);
  };
  await page.getByRole("link", { name: new RegExp(sample_horse) }).waitFor();
  await look("horses");
  await person.open_horse(sample_horse);
  await look("horse");
  await person.open_picture("2 March 2026", "left fore, side view");
  await person.say_name("Large");
  await page.locator(".loading").waitFor({ state: "hidden" });
  await look("facts");
  const side = truth("lateromedial", "left-fore", "2026-03-02");
  await person.confirm(facts_of(side));
  await page.locator(".ask[data-id]").waitFor();
  await look("points");
});

// Truth: WCAG 2.1, 2.4.7: whatever the keyboard reaches shows that it does.
test("the keyboard's focus is seen wherever it goes", async (t) => {
  const { page, context } = await onlooker.page("laptop", served.address);
  t.after(() => context.close());
  const person = new Person(page, "mouse");
  const unseen = async () => {
    const missed = [];
    for (let step = 0; step < 30; ++step) {
      await page.keyboard.press("Tab");
      const [name, seen] = await page.evaluate(() => {
        const at = document.activeElement;
        if (!at || at === document.body) return ["", true];
        const shows = (/** @type {Element | null} */ each) => {
          const style = each && getComputedStyle(each);
          return style !== null && style.outlineStyle !== "none" && parseFloat(style.outlineWidth) > 0;
        };
        return [`${at.tagName} ${at.className} ${at.getAttribute("type")} ${at.textContent?.slice(0, 20)}`, shows(at) || shows(at.closest(".button"))];
      });
      if (!seen) missed.push(name);
    }
    return missed;
  };
  await page.getByRole("link", { name: new RegExp(sample_horse) }).waitFor();
  assert.deepEqual(await unseen(), [], "horses");
  await person.open_horse(sample_horse);
  assert.deepEqual(await unseen(), [], "horse");
});
