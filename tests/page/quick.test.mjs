/**
 * The whole side view, from opening it to its numbers, in few strokes: what the program proposes is
 * looked at and confirmed, the rest placed or skipped. Every tap and every key is counted.
 */
import assert from "node:assert/strict";
import test from "node:test";
import { onlooker, served } from "./at_hand.mjs";
import { Person } from "./person.mjs";
import { facts_of, sample_horse, shot, truth } from "./program.mjs";
import { expect_soon } from "./soon.mjs";

const side = truth("lateromedial", "left-fore", "2026-03-02");
const places = side.landmarks;
const fewer_than = 40; // issue 4
const seen_off_mm = 2.5; // what a reader who looks sees and corrects

/** @returns {number} how far the proposal lies from the truth, mm */
function off(id, at) {
  const [x, y] = places[id].px;
  return Math.hypot(at.x - x, at.y - y) * side.mm_per_pixel[0];
}

for (const [way, size] of [["touch", "tablet"], ["keyboard", "laptop"]])
  test(`the side view is confirmed and measured in under ${fewer_than} strokes by ${way}`, async (t) => {
    const { page, context } = await onlooker.page(size, served.address, { helped: true });
    t.after(() => context.close());
    const person = new Person(page, way === "touch" ? "touch" : "mouse");
    let strokes = 0;
    const press = async (/** @type {string} */ key) => (++strokes, page.keyboard.press(key));
    const touch = async (/** @type {import("playwright-core").Locator} */ what) => (++strokes, way === "touch" ? what.tap() : (await what.focus(), page.keyboard.press("Enter")));
    await person.open_horse(sample_horse);
    await person.open_picture("2 March 2026", "left fore, side view");
    await person.say_name(`Quick by ${way}`);
    const proposals = page.waitForResponse(/\/find\/[^/]+\/landmarks$/);
    for (const [question, answer] of Object.entries(facts_of(side))) {
      const choice = page.locator(`fieldset[data-name="${question}"] input[value="${answer}"]`);
      if (await choice.isChecked()) continue;
      ++strokes;
      await choice.check();
    }
    await touch(page.getByRole("button", { name: "That is right" }));
    await page.locator(".confirm").waitFor({ state: "hidden" });
    await page.locator(".loading").waitFor({ state: "hidden" });
    const { suggestions } = await (await proposals).json();
    const proposed = Object.fromEntries(suggestions.map((each) => [each.id, each]));
    if (suggestions.length > 0) await page.getByText("Proposed by the program").or(page.locator(".ask[data-id]")).first().waitFor();
    await shot(page, `quick-1-${size}`);
    if (way === "keyboard") await page.locator(".hand").focus();
    let [confirmed, placed, skipped] = [0, 0, 0];
    for (let id = await person.asked(); id !== null; id = await person.asked()) {
      const right = proposed[id] && off(id, proposed[id]) <= seen_off_mm;
      if (right && way === "touch") await touch(page.getByRole("button", { name: "It lies right there" })), ++confirmed;
      else if (right) await press("Enter"), ++confirmed;
      else if (way === "touch") ++strokes, ++placed, await person.tap(places[id].px);
      else await press("s"), ++skipped;
      await expect_soon(async () => (await person.asked()) !== id);
    }
    await person.show_numbers();
    await person.measured();
    await shot(page, `quick-2-${size}`);
    const read = await person.numbers();
    t.diagnostic(`${strokes} strokes: ${confirmed} confirmed, ${placed} placed, ${skipped} skipped; ${Object.keys(read).length} numbers`);
    assert.ok(strokes < fewer_than, `${strokes} strokes`);
    assert.ok(confirmed > placed + skipped, "most was proposed rightly");
    for (const id of ["palmar-angle", "sole-depth-tip", "hoof-angle"]) {
      const true_value = side.measurements[id].value;
      assert.ok(Math.abs(read[id].value - true_value) <= 1.5 * read[id].spread, `${id}: ${read[id].value}, truly ${true_value}`);
    }
  });
