/**
 * The real program on a store of its own, and a browser before it. Nothing is faked.
 * PRITCHEL: the program. PRITCHEL_PHANTOM: the program that draws photos, beside it in a build. PRITCHEL_PAGE: a folder to take the page from instead of the one packed
 * into the program, for work on it. PRITCHEL_SAMPLES: another folder of truth files.
 * PRITCHEL_SHOTS: where screenshots go. PRITCHEL_LATE: every question to the program waits up to that many
 * ms more, to find a test that leans on a quick answer.
 */
import { execFile, spawn } from "node:child_process";
import { once } from "node:events";
import { existsSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { promisify } from "node:util";
import { chromium } from "playwright-core";

export const root = new URL("../../", import.meta.url).pathname;
const shots = process.env.PRITCHEL_SHOTS ?? join(root, "build/page-shots");
export const samples = process.env.PRITCHEL_SAMPLES ?? join(root, "sample-images");
export const sample_horse = JSON.parse(readFileSync(join(samples, "case.json"), "utf8")).horse.name;
const late = Number(process.env.PRITCHEL_LATE ?? 0); // ms
const builds = ["build/tests", "build/start"].map((each) => `${each}/bin/pritchel`);

/** @returns {string} the program: from PRITCHEL, else from one of the usual builds */
function program() {
  const found = process.env.PRITCHEL ?? builds.map((each) => join(root, each)).find(existsSync);
  if (!found) throw new Error("Build pritchel first, or say where it is in PRITCHEL.");
  return found;
}

/** A store with the sample case, served; killed and started again at will on the same port. */
export class Served {
  /** @param {"sample" | "nobody"} whose what is in the store */
  static async start(whose = "sample") {
    const served = new Served();
    served.folder = mkdtempSync(join(tmpdir(), "pritchel-page-"));
    served.port = 0;
    if (whose === "sample") await promisify(execFile)(program(), ["demo", join(served.folder, "store")]);
    await served.serve();
    return served;
  }

  async serve() {
    const page = process.env.PRITCHEL_PAGE ? ["--page", process.env.PRITCHEL_PAGE] : [];
    const store = join(this.folder, "store");
    this.process = spawn(program(), ["serve", "--store", store, "--port", String(this.port), ...page], {
      stdio: ["ignore", "pipe", "inherit"],
    });
    for await (const line of createInterface({ input: this.process.stdout })) {
      const address = line.match(/http:\/\/[^\s]+/)?.[0];
      if (!address) continue;
      this.address = address.replace(/\/$/, "");
      this.port = Number(new URL(address).port);
      return;
    }
    throw new Error("pritchel serve ended without an address.");
  }

  /** As a power cut would. */
  async kill() {
    const gone = once(this.process, "exit");
    this.process.kill("SIGKILL");
    await gone;
  }

  async stop() {
    if (this.process.exitCode === null && this.process.signalCode === null) await this.kill();
    rmSync(this.folder, { recursive: true, force: true });
  }
}

export const sizes = {
  laptop: { viewport: { width: 1366, height: 768 } },
  tablet: { viewport: { width: 1024, height: 768 }, hasTouch: true },
  upright: { viewport: { width: 820, height: 1180 }, hasTouch: true },
};

/** A browser that notes every complaint and every request that leaves the program. */
export class Onlooker {
  static async open() {
    const onlooker = new Onlooker();
    onlooker.browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox"] });
    return onlooker;
  }

  /** @param {keyof typeof sizes} size @param {string} address
   * @param {{following?: boolean, helped?: boolean, density?: number}} [wish] following: does the next point
   *   come up near? helped: does the program propose points and move them onto edges? Else view and points
   *   stay where the hand put them, which is what most tests want to speak of. density: device pixels per
   *   CSS pixel */
  async page(size, address, { following = false, helped = false, density = 1 } = {}) {
    const context = await this.browser.newContext({ ...sizes[size], deviceScaleFactor: density, acceptDownloads: true, locale: "en-GB" });
    if (!following) await context.addInitScript(() => localStorage.setItem("pritchel/following", '"no"'));
    if (!helped) {
      await context.addInitScript(() => localStorage.setItem("pritchel/settles", '"no"'));
      await context.route(/\/find\/[^/]+\/landmarks$/, (route) => route.fulfill({ json: { suggestions: [] } }));
    }
    if (late > 0)
      await context.route(/\/api\//, async (route) => {
        await new Promise((resolve) => setTimeout(resolve, late * Math.random()));
        await route.fallback();
      });
    const page = await context.newPage();
    const seen = { complaints: [], strangers: [] };
    page.on("console", (message) => message.type() === "error" && seen.complaints.push(message.text()));
    page.on("pageerror", (error) => seen.complaints.push(error.message));
    page.on("request", (request) => {
      if (!/^(data|blob):/.test(request.url()) && !request.url().startsWith(address)) seen.strangers.push(request.url());
    });
    await page.goto(address);
    return { page, seen, context };
  }

  close() {
    return this.browser.close();
  }
}

/** @param {import("playwright-core").Page} page @param {string} name */
export async function shot(page, name) {
  mkdirSync(shots, { recursive: true });
  await page.screenshot({ path: join(shots, `${name}.png`) });
}

/**
 * The digital foot's own truth of one picture (docs/sample-images, phantom): places in pixels and
 * numbers from the three-dimensional model, not from the measuring code.
 * @param {string} view @param {string} limb @param {string} [date] the first that fits
 */
export function truth(view, limb, date = "") {
  const names = readdirSync(samples).filter((each) => each.endsWith(".truth.json") && each.startsWith(date)).sort();
  for (const name of names) {
    const read = JSON.parse(readFileSync(join(samples, name), "utf8"));
    if (read.shot.view === view && read.parameters.limb === limb) return read;
  }
  throw new Error(`No sample picture shows the ${limb} ${view}.`);
}

/** What a person answers, looking at a sample picture. @param {any} of its truth */
export function facts_of(of) {
  const [side, end] = of.parameters.limb.split("-");
  return {
    protocol: of.shot.view, side, end, toward: of.shot.toward,
    shoeing: of.parameters.shoeing, loading: "weight-bearing", scale: "automatic",
  };
}

/** @returns {string} */
function phantom() {
  const beside = builds.map((each) => join(root, each, "../../src/pritchel-phantom"));
  const found = process.env.PRITCHEL_PHANTOM ?? beside.find(existsSync);
  if (!found) throw new Error("Build pritchel-phantom first, or say where it is in PRITCHEL_PHANTOM.");
  return found;
}

/**
 * A photo that the digital horse draws, with its truth: landmarks, card corners and dots in pixels,
 * from the three-dimensional model.
 * @param {string} folder @param {string} name @param {string[]} wish options of the drawing program
 */
export async function drawn_photo(folder, name, wish) {
  await promisify(execFile)(phantom(), ["photo", "--out", folder, "--name", name, ...wish]);
  return { file: join(folder, `${name}.jpg`), truth: JSON.parse(readFileSync(join(folder, `${name}.truth.json`), "utf8")) };
}
