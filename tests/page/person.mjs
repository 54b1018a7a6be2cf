/** What a person does before the page: look, tap, read. Waits for what is seen, never for time. */
import { expect_soon } from "./soon.mjs";

export class Person {
  /** @param {import("playwright-core").Page} page @param {"mouse" | "touch"} by */
  constructor(page, by) {
    this.page = page;
    this.by = by;
    this.hand = page.locator(".hand");
    this.ask = page.locator(".ask");
  }

  /** @param {string} horse */
  async open_horse(horse) {
    await this.page.getByRole("link", { name: new RegExp(horse) }).click();
    await this.page.getByRole("heading", { level: 1, name: horse }).waitFor();
  }

  /** @param {string} date as shown @param {string} picture "left fore, side view" */
  async open_picture(date, picture) {
    const visit = this.page.locator(".visit", { has: this.page.getByRole("heading", { name: date }) });
    await visit.getByRole("link", { name: picture }).first().click();
    await this.page.locator("main.picture").waitFor();
  }

  /** @param {string} name when it is asked for */
  async say_name(name) {
    await this.page.getByRole("dialog").getByLabel("Your name").fill(name);
    await this.page.getByRole("button", { name: "Keep this name" }).click();
  }

  /** @param {Record<string, string>} facts by question, for example {shoeing: "bare"} */
  async confirm(facts) {
    for (const [question, answer] of Object.entries(facts))
      await this.page.locator(`fieldset[data-name="${question}"] input[value="${answer}"]`).check();
    await this.page.getByRole("button", { name: "That is right" }).click();
    await this.page.locator(".confirm").waitFor({ state: "hidden" });
    await this.page.locator(".loading").waitFor({ state: "hidden" });
  }

  /** @returns {Promise<string | null>} the landmark asked for now */
  asked() {
    return this.ask.getAttribute("data-id");
  }

  /** Where a picture pixel lies on the screen. @param {[number, number]} px */
  async on_screen([x, y]) {
    const lies = (await this.hand.getAttribute("data-lies")) ?? "";
    const [left, top, column_x, row_y, column_y, row_x] = lies.split(" ").map(Number);
    const box = await this.hand.boundingBox();
    if (!box) throw new Error("The picture isn't shown.");
    const [u, v] = [x + 0.5, y + 0.5];
    return {
      x: box.x + left + u * column_x + v * row_x,
      y: box.y + top + u * column_y + v * row_y,
      scale: Math.hypot(column_x, column_y),
    };
  }

  /** Steps back to see the whole picture where a place lies beyond the stage. @param {[number, number]} px */
  async tap(px) {
    if (!(await this.sees(px))) await this.see_all();
    const at = await this.on_screen(px);
    if (this.by === "touch") await this.page.touchscreen.tap(at.x, at.y);
    else await this.page.mouse.click(at.x, at.y);
  }

  /** @param {[number, number]} px */
  async sees(px) {
    const [at, box] = [await this.on_screen(px), await this.hand.boundingBox()];
    return at.x > box.x && at.y > box.y && at.x < box.x + box.width && at.y < box.y + box.height;
  }

  /** Comes nearer to a place until a picture pixel is `scale` screen pixels. @param {[number, number]} px
   * @param {number} scale */
  async come_nearer(px, scale) {
    for (let at = await this.on_screen(px); at.scale < scale; ) {
      const before = at.scale;
      if (this.by === "mouse") {
        await this.page.mouse.move(at.x, at.y);
        await this.page.mouse.wheel(0, -240);
      } else await this.pinch(at, 1.5);
      // The whole step: a tap while the picture still grows would go beside the place.
      await expect_soon(async () => (at = await this.on_screen(px)).scale > 1.4 * before);
    }
  }

  /** Two fingers about a place, through the browser's own touch input.
   * @param {{x: number, y: number}} at @param {number} factor */
  async pinch(at, factor) {
    const session = await this.page.context().newCDPSession(this.page);
    const fingers = (/** @type {number} */ apart) => [
      { x: at.x - apart, y: at.y, id: 1 },
      { x: at.x + apart, y: at.y, id: 2 },
    ];
    const send = (/** @type {string} */ type, /** @type {object[]} */ touchPoints) =>
      session.send("Input.dispatchTouchEvent", { type, touchPoints });
    await send("touchStart", fingers(30));
    for (let step = 1; step <= 4; ++step) await send("touchMove", fingers(30 * factor ** (step / 4)));
    await send("touchEnd", []);
    await session.detach();
  }

  async see_all() {
    const before = (await this.on_screen([0, 0])).scale;
    await this.page.getByRole("button", { name: "Fit", exact: true }).click();
    await expect_soon(async () => (await this.on_screen([0, 0])).scale < before);
  }

  /**
   * Places everything that is asked for, where it truly lies; skips what isn't known.
   * @param {Record<string, {px: [number, number]}>} places
   * @param {(id: string) => number} nearness least screen pixels per picture pixel
   */
  async place_all(places, nearness = () => 0) {
    const placed = [];
    for (let id = await this.asked(); id !== null; id = await this.asked()) {
      if (!places[id]) await this.page.getByRole("button", { name: "Can't see it: skip" }).click();
      else {
        const near = nearness(id);
        if (near > 0) await this.come_nearer(places[id].px, near);
        await this.tap(places[id].px);
        placed.push(id);
      }
      await expect_soon(async () => (await this.asked()) !== id);
      if (nearness(id) > 0) await this.see_all();
    }
    return placed;
  }

  async show_numbers() {
    const tab = this.page.locator('.tabs [data-tab="numbers"]');
    if (await tab.isVisible()) await tab.click();
  }

  /** The numbers are those of the points as they lie now. */
  async measured() {
    await this.page.locator('.numbers[aria-busy="false"]').waitFor({ state: "attached" });
  }

  /** What a row says: value and its ±, or null while it isn't measured. @param {string} id */
  async number(id) {
    const row = this.page.locator(`.number[data-id="${id}"] .value`).first();
    const text = (await row.textContent()) ?? "";
    const [value, spread] = text.replaceAll("\u2212", "-").split("±").map(Number.parseFloat);
    return Number.isNaN(value) ? null : { value, spread };
  }

  /** Every row that has a number. */
  async numbers() {
    const ids = await this.page.locator("button.number").evaluateAll((rows) => rows.map((row) => row.dataset.id));
    /** @type {Record<string, {value: number, spread: number}>} */
    const all = {};
    for (const id of ids) {
      const read = await this.number(id);
      if (read) all[id] = read;
    }
    return all;
  }

  async saved() {
    await this.page.locator('.keeping[data-state="saved"]').waitFor();
  }

  /** @returns {Promise<number>} points in the list that say "placed" */
  placed_points() {
    return this.page.locator('.points li[data-state="placed"]').count();
  }
}
