/** Points that settle on edges, strokes, and what the program proposes. */
import assert from "node:assert/strict";
import test from "node:test";
import { before_the_picture, saved_reading, side } from "./at_hand.mjs";
import { shot } from "./program.mjs";
import { expect_soon } from "./soon.mjs";

const places = side.landmarks;

/** A fresh reader before the side view, with nothing placed; what the program proposes is `proposed`. */
async function begun(t, name, { size = "laptop", proposed = [] } = {}) {
  const before = await before_the_picture(t, name, { size, helped: true, first: (page) =>
    page.route(/\/find\/[^/]+\/landmarks$/, (route) => route.fulfill({ json: { suggestions: proposed } })) });
  const saved = async () => {
    await before.person.saved();
    return (await saved_reading(before.page, name)).landmarks;
  };
  return { ...before, saved };
}

/** How far a place lies off the true line through two landmarks, picture px. */
function off_line(ids, { x, y }) {
  const [[x1, y1], [x2, y2]] = ids.map((id) => places[id].px);
  return Math.abs((x2 - x1) * (y - y1) - (y2 - y1) * (x - x1)) / Math.hypot(x2 - x1, y2 - y1);
}

const ground = ["ground-heel", "ground-toe"];
const about = 15; // picture px beside the edge: 2 mm
const on_edge = 3; // picture px: 0.4 mm, the placement spread across of these points

test("a point put beside an edge settles on it; with Shift, or switched off, it stays", async (t) => {
  const { page, person, saved } = await begun(t, "Settle");
  const [x, y] = places["ground-heel"].px;
  await person.come_nearer([x, y], 1);
  await person.tap([x, y - about]);
  await expect_soon(async () => (await saved())["ground-heel"]?.how === "snapped");
  assert.ok(off_line(ground, (await saved())["ground-heel"]) < on_edge);
  await page.getByRole("button", { name: "Undo" }).click();
  await expect_soon(async () => (await person.asked()) === "ground-heel");

  await page.keyboard.down("Shift");
  await person.tap([x, y - about]);
  await page.keyboard.up("Shift");
  await expect_soon(async () => (await saved())["ground-heel"]?.how === "by-hand");
  await page.getByRole("button", { name: "Undo" }).click();

  await page.locator('[data-tool="settles"]').click();
  await person.tap([x, y - about]);
  await expect_soon(async () => (await saved())["ground-heel"]?.how === "by-hand");
  assert.ok(off_line(ground, (await saved())["ground-heel"]) > about - on_edge);
  await page.reload();
  await expect_soon(async () => (await page.locator('[data-tool="settles"]').getAttribute("aria-pressed")) === "false");
});

test("a stroke along the front of the coffin bone gives both of its points", async (t) => {
  const { page, person, saved, seen } = await begun(t, "Stroke");
  const ends = ["p3-dorsal-distal", "p3-dorsal-proximal"];
  await page.locator('.tabs [data-tab="points"]').click();
  await page.locator(`.points li[data-id="${ends[0]}"] button`).first().click();
  await page.locator('.tabs [data-tab="ask"]').click();
  await page.getByRole("button", { name: "Draw along this edge" }).click();
  const [from, to] = await Promise.all(ends.map((id) => person.on_screen(places[id].px)));
  const at = (share) => [from.x + (to.x - from.x) * share + 6 * Math.sin(9 * share), from.y + (to.y - from.y) * share];
  await page.mouse.move(...at(0));
  await page.mouse.down();
  for (let step = 1; step <= 12; ++step) await page.mouse.move(...at(step / 12));
  await shot(page, "settle-1-stroke");
  await page.mouse.up();
  await expect_soon(async () => (await saved())[ends[1]]?.how === "snapped");
  const landmarks = await saved();
  for (const id of ends) {
    assert.equal(landmarks[id].how, "snapped");
    assert.ok(off_line(ends, landmarks[id]) < on_edge, `${id} lies ${off_line(ends, landmarks[id])} px off`);
    assert.ok(Math.abs(landmarks[id].x - places[id].px[0]) < 20, `${id} is the right end`);
  }
  assert.deepEqual(seen.complaints, []);
});

const proposal = (id, by = 0) => ({ id, x: places[id].px[0] + by, y: places[id].px[1], confidence: 0.9 });

for (const [size, by] of [["laptop", "mouse"], ["tablet", "touch"]])
  test(`proposals count for nothing until each is confirmed, by ${by}`, async (t) => {
    const proposed = ["ground-heel", "ground-toe", "p3-tip", "p3-palmar-process"].map((id) => proposal(id));
    const { page, person, saved } = await begun(t, `Proposed by ${by}`, { size, proposed });
    const confirm = page.getByRole("button", { name: "It lies right there" });
    await confirm.waitFor();
    await shot(page, `settle-2-proposed-${size}`);
    assert.equal(await person.number("palmar-angle"), null);
    for (const { id } of proposed) {
      assert.equal(await person.asked(), id);
      if (by === "touch") await confirm.tap();
      else await confirm.click();
      await expect_soon(async () => (await person.asked()) !== id);
    }
    await expect_soon(async () => (await person.number("palmar-angle")) !== null);
    await shot(page, `settle-3-confirmed-${size}`);
    const landmarks = await saved();
    for (const { id, x, y } of proposed) assert.deepEqual(landmarks[id], { how: "confirmed", x, y });
  });

test("a proposal that is dragged or placed elsewhere is the reader's own", async (t) => {
  const { page, person, saved } = await begun(t, "Corrects", { proposed: [proposal("p3-tip", 60), proposal("ground-heel")] });
  await page.locator('[data-tool="settles"]').click();
  await page.getByRole("button", { name: "It lies right there" }).waitFor();
  const at = await person.on_screen([places["p3-tip"].px[0] + 60, places["p3-tip"].px[1]]);
  const to = await person.on_screen(places["p3-tip"].px);
  await page.mouse.move(at.x, at.y);
  await page.mouse.down();
  for (let step = 1; step <= 5; ++step) await page.mouse.move(at.x + ((to.x - at.x) * step) / 5, at.y);
  await page.mouse.up();
  await expect_soon(async () => (await saved())["p3-tip"]?.how === "by-hand");
  assert.ok(Math.abs((await saved())["p3-tip"].x - places["p3-tip"].px[0]) < 8);
  await page.getByRole("button", { name: "Undo" }).click();
  await expect_soon(async () => (await saved())["p3-tip"] === undefined);
  const [x, y] = places["ground-heel"].px;
  assert.equal(await person.asked(), "ground-heel");
  await person.tap([x - 40, y - 40]);
  await expect_soon(async () => (await saved())["ground-heel"]?.how === "by-hand");
});

test("by keyboard, Enter confirms what is proposed", async (t) => {
  const { page, person, saved } = await begun(t, "Enter", { proposed: [proposal("ground-heel")] });
  await page.getByRole("button", { name: "It lies right there" }).waitFor();
  await page.locator(".hand").focus();
  await page.keyboard.press("Enter");
  await expect_soon(async () => (await person.asked()) === "ground-toe");
  assert.equal((await saved())["ground-heel"].how, "confirmed");
});

test("a blind reader is shown no proposal", async (t) => {
  const { page, person } = await begun(t, "Blind", { proposed: [proposal("ground-heel")] });
  await page.getByRole("button", { name: "It lies right there" }).waitFor();
  await page.getByRole("button", { name: "Readers", exact: true }).click();
  await page.getByLabel("Read it blind").check();
  await page.locator(".who-read", { hasText: "hidden" }).or(page.getByText("blind, in progress")).first().waitFor();
  await page.getByRole("button", { name: "Next point", exact: true }).click();
  await expect_soon(async () => (await person.asked()) === "ground-heel");
  assert.equal(await page.getByRole("button", { name: "It lies right there" }).count(), 0);
  await page.locator(".hand").focus();
  await page.keyboard.press("Enter");
  await expect_soon(async () => (await person.asked()) === "ground-toe");
  await person.saved();
  assert.equal((await page.evaluate(() => Object.values(sessionStorage).join())).includes("confirmed"), false);
});
