/**
 * How fast the picture follows the hand, measured in a browser on a radiograph of 3000 x 2500 pixels of 16
 * bits; the table of docs/speed.md. Not a test: nothing here passes or fails. `node speed.mjs`
 */
import { Onlooker, Served, samples, truth } from "./program.mjs";
import { Person } from "./person.mjs";
import { large_picture } from "./large_picture.mjs";
import { expect_soon } from "./soon.mjs";
import { readFileSync } from "node:fs";
import { join } from "node:path";

const side = truth("lateromedial", "left-fore", "2026-03-02");
const reader = "Speed";

/** A horse whose one picture is the large one, with every point placed. @param {Served} served */
async function large_case(served) {
  const api = async (/** @type {string} */ method, /** @type {string} */ path, /** @type {any} */ body, type = "application/json") => {
    const send = () => fetch(`${served.address}/api/${path}`, { method, body: type === "application/json" ? JSON.stringify(body) : body, headers: { "Content-Type": type } });
    const answer = await send().catch(send); // the line may have been let go while the picture was enlarged
    if (!answer.ok) throw new Error(`${path}: ${await answer.text()}`);
    return answer.json();
  };
  const { id } = await api("POST", "cases", { horse: { name: "Large" } });
  const with_visit = await api("POST", `cases/${id}/visits`, { date: "2026-03-02", last_trim: "" });
  const visit = with_visit.visits[0].id;
  const pictures = `cases/${id}/visits/${visit}/pictures`;
  const octets = "application/octet-stream";
  const small = await api("POST", `${pictures}?name=small.dcm`, readFileSync(join(samples, side.picture)), octets);
  const raw = await (await fetch(`${served.address}/api/pictures/${small.picture.digest}/samples`)).arrayBuffer();
  await api("DELETE", `${pictures}/${small.picture.digest}`, {});
  const { file, scale } = large_picture(new Uint16Array(raw), side.shot);
  const { picture } = await api("POST", `${pictures}?name=large.dcm`, file, octets);
  await api("PUT", `${pictures}/${picture.digest}`, { ...picture, view: "lateromedial", limb: "left-fore", toward: "left", shoeing: "bare", loading: "weight-bearing" });
  const landmarks = Object.fromEntries(Object.entries(side.landmarks).map(([name, { px }]) =>
    [name, { x: (px[0] + 0.5) * scale - 0.5, y: (px[1] + 0.5) * scale - 0.5, how: "by-hand" }]));
  await api("PUT", `cases/${id}/readings/${picture.digest}?reader=${reader}`, { revision: 0, landmarks });
  return { landmarks, address: `${served.address}/#/case/${id}/visit/${visit}/picture/${picture.digest}` };
}

/** @param {number[]} values @param {number} share */
const at_share = (values, share) => [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(share * values.length))];

/** @param {number[]} values */
const said = (values) => [0.5, 0.95, 1].map((share) => at_share(values, share)?.toFixed(1) ?? "–").join(" | ");

/** The time from frame to frame, ms, of the page's own work in each, and the processor time that its
 * main thread took for a frame on average, while something goes on. The last is the same on a busy
 * machine as on an idle one.
 * @param {import("playwright-core").Page} page @param {() => Promise<void>} go_on */
async function frames_while(page, go_on) {
  const session = await page.context().newCDPSession(page);
  await session.send("Performance.enable", { timeDomain: "threadTicks" });
  const busy = async () => (await session.send("Performance.getMetrics")).metrics.find(({ name }) => name === "TaskDuration")?.value ?? 0;
  const begin = await busy();
  await page.evaluate(() => {
    const all = (window.frames_seen = { deltas: [], work: [], going: true });
    let last = performance.now();
    const request = (window.own_request ??= window.requestAnimationFrame.bind(window));
    window.requestAnimationFrame = (call) => request((now) => {
      const begin = performance.now();
      call(now);
      all.work.push(performance.now() - begin);
    });
    const tick = (/** @type {number} */ now) => {
      all.deltas.push(now - last);
      last = now;
      if (all.going) request(tick);
    };
    request(tick);
  });
  await go_on();
  const { deltas, work } = await page.evaluate(() => ((window.frames_seen.going = false), window.frames_seen));
  const taken = 1000 * ((await busy()) - begin);
  await session.detach();
  return { deltas: deltas.slice(2), work, processor: taken / Math.max(1, work.length) };
}

/** @param {import("playwright-core").Page} page @param {{x: number, y: number}} from
 * @param {"left" | "right"} button */
async function drag_about(page, from, button) {
  await page.mouse.move(from.x, from.y);
  await page.mouse.down({ button });
  for (let step = 0; step < 200; ++step) {
    const angle = (step / 200) * 4 * Math.PI;
    await page.mouse.move(from.x + 40 * Math.sin(angle), from.y + 40 * (1 - Math.cos(angle)));
  }
  await page.mouse.up({ button });
}

/** From an arrow key to the number that it changed, ms. @param {import("playwright-core").Page} page */
async function moved_to_number(page, person) {
  await person.hand.focus();
  const row = page.locator('.number[data-id="palmar-angle"] .value').first();
  const times = [];
  for (let n = 0; n < 40; ++n) {
    await page.evaluate(() => {
      window.seen_after = new Promise((done) => {
        let start = 0;
        document.addEventListener("keydown", () => (start = performance.now()), { capture: true, once: true });
        const row = document.querySelector('.number[data-id="palmar-angle"]')?.parentElement;
        const watch = new MutationObserver(() => {
          if (start === 0) return;
          watch.disconnect();
          done(performance.now() - start);
        });
        watch.observe(row, { subtree: true, childList: true, characterData: true });
      });
    });
    const before = await row.textContent();
    await page.keyboard.press(n % 2 ? "Shift+ArrowUp" : "Shift+ArrowDown");
    times.push(await page.evaluate(() => window.seen_after));
    if ((await row.textContent()) === before) throw new Error("The number didn't change.");
    await new Promise((resolve) => setTimeout(resolve, 150));
  }
  return times;
}

const served = await Served.start();
const onlooker = await Onlooker.open();
try {
  const { landmarks, address } = await large_case(served);
  const about = (/** @type {string} */ id) => /** @type {[number, number]} */ ([landmarks[id].x, landmarks[id].y]);
  console.log("| what | screen | frame to frame, ms: median | 95 % | worst | own work, ms: median | 95 % | worst | processor, ms a frame |");
  console.log("| --- | --- | --- | --- | --- | --- | --- | --- | --- |");
  for (const [size, density] of [["laptop", 1], ["tablet", 2]]) {
    const { page, context } = await onlooker.page(size, address, { density });
    const person = new Person(page, "mouse");
    await person.say_name(reader);
    await page.locator(".loading").waitFor({ state: "hidden" });
    await page.locator('.tabs [data-tab="numbers"]').click();
    await expect_soon(async () => (await person.number("palmar-angle")) !== null);
    const { width, height } = page.viewportSize();
    const line = async (/** @type {string} */ what, /** @type {() => Promise<void>} */ go_on) => {
      const { deltas, work, processor } = await frames_while(page, go_on);
      console.log(`| ${what} | ${width} × ${height}, density ${density} | ${said(deltas)} | ${said(work)} | ${work.length > 5 ? processor.toFixed(1) : "–"} |`);
    };
    const middle = await person.on_screen(about("p3-tip"));
    await line("nothing, to compare", () => new Promise((resolve) => setTimeout(resolve, 3000)));
    await line("dragging a point", async () => drag_about(page, await person.on_screen(about("p3-tip")), "left"));
    await line("windowing", () => drag_about(page, middle, "right"));
    await page.getByRole("button", { name: "Brightness" }).click();
    await page.getByLabel("Middle greys").fill("0.3");
    await line("windowing with gamma", () => drag_about(page, middle, "right"));
    await page.getByLabel("Local contrast").fill("0.7");
    await line("windowing with local contrast", () => drag_about(page, middle, "right"));
    const slider = await page.getByLabel("Local contrast").boundingBox();
    await line("sliding local contrast", () => drag_about(page, { x: slider.x + slider.width / 2, y: slider.y + slider.height / 2 }, "left"));
    await person.hand.focus();
    for (const key of ["Escape", "1"]) await page.keyboard.press(key);
    await line("windowing with local contrast, one to one", () => drag_about(page, middle, "right"));
    await page.keyboard.press("0");
    if (size === "laptop") {
      await page.locator('.tabs [data-tab="points"]').click();
      await page.locator('.points li[data-id="p3-palmar-process"] button').first().click();
      await page.locator('.tabs [data-tab="numbers"]').click();
      const times = await moved_to_number(page, person);
      console.log(`\nPoint moved to number changed, ms, median | 95 % | worst of ${times.length}: ${said(times)}\n`);
    }
    await context.close();
  }
} finally {
  await onlooker.close();
  await served.stop();
}
