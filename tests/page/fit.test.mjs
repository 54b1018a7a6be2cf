/** The best fit's panel: what is asked, what is answered, what becomes a plan. */
import assert from "node:assert/strict";
import test from "node:test";
import { onlooker, served } from "./at_hand.mjs";
import { Person } from "./person.mjs";
import { sample_horse, shot } from "./program.mjs";

/** Somebody before the sample's first plan, with the panel folded out. */
async function before_the_plan(t, size, by) {
  const { page, context } = await onlooker.page(size, served.address);
  t.after(() => context.close());
  const person = new Person(page, by);
  await person.open_horse(sample_horse);
  await page.goto(page.url().replace(/\/?$/, "/visit/1/plan"));
  await person.say_name(`Fit ${size}`);
  await page.locator(".best-fit summary").click();
  return { page, panel: page.locator(".best-fit") };
}

const aim = (panel, id) => panel.locator(`.fit-aim[data-measurement="${id}"]`);

for (const [size, by] of /** @type {const} */ ([["laptop", "mouse"], ["upright", "touch"]]))
  test(`what is switched on is worked out in ways side by side, with what each costs, ${size}`, async (t) => {
    const { page, panel } = await before_the_plan(t, size, by);
    // Nothing is sought that nobody switched on.
    assert.equal(await panel.locator('input[type="checkbox"]:checked').count(), 0);
    await panel.locator('[data-key="fit-limb"]').selectOption("left-fore");
    for (const id of ["hpa-deviation", "breakover-distance"]) await aim(panel, id).locator('[name="on"]').check();
    await shot(page, `fit-asked-${size}`);
    await panel.locator('[data-key="fit-ask"]').click();
    await panel.locator(".fit-way, .fit-answer li, .fit-answer .empty").first().waitFor();
    const said = await panel.locator(".fit-answer").innerText();
    await panel.locator(".fit-answer").scrollIntoViewIfNeeded();
    await shot(page, `fit-answered-${size}`);
    const ways = await panel.locator(".fit-way").evaluateAll((all) => all.map((each) => each.dataset.means));
    assert.ok(ways.includes("trim") && ways.includes("shoe"), said);
    for (const each of await panel.locator(".fit-way").all()) {
      assert.match(await each.innerText(), /± \d/, "a change says how sure it is, unless nothing is changed");
      assert.match(await each.innerText(), /reached|nearer|no nearer|kept/);
    }
  });

test("a way that is taken stands in the plan in place of the rules' amounts", async (t) => {
  const { page, panel } = await before_the_plan(t, "laptop", "mouse");
  await panel.locator('[data-key="fit-limb"]').selectOption("left-fore");
  await aim(panel, "hpa-deviation").locator('[name="on"]').check();
  await aim(panel, "hpa-deviation").locator('[name="high"]').fill("2");
  await panel.locator('[data-key="fit-ask"]').click();
  await panel.locator('[data-key="take-shoe"]').click();
  const line = page.locator(".proposal", { hasText: "Best fit, shoe only" }).first();
  await line.waitFor();
  assert.match(await line.innerText(), /wanted between \u22123\.0° and 2\.0°/);
  assert.match(await line.innerText(), /band set by hand/);
});
