/** The program with the sample case and a browser, there for all tests of the file that imports this. */
import { after } from "node:test";
import { Person } from "./person.mjs";
import { Onlooker, Served, facts_of, sample_horse, truth } from "./program.mjs";

// Not in a before(): the importing file's own one may need them.
export const served = await Served.start();
export const onlooker = await Onlooker.open();
after(async () => {
  await onlooker.close();
  await served.stop();
});

export const side = truth("lateromedial", "left-fore", "2026-03-02");

/**
 * A fresh reader before a picture of the sample's first visit, with its facts confirmed: by mouse on
 * the laptop, by touch on the others.
 * @param {import("node:test").TestContext} t @param {string} name
 * @param {{size?: "laptop" | "tablet" | "upright", picture?: string, of?: any, helped?: boolean,
 *   first?: (page: import("playwright-core").Page) => unknown}} [wish]
 *   of: the picture's truth; first: what is done before any picture is opened
 */
export async function before_the_picture(t, name, { size = "laptop", picture = "left fore, side view", of = side, helped = false, first = () => {} } = {}) {
  const { page, seen, context } = await onlooker.page(size, served.address, { helped });
  t.after(() => context.close());
  await first(page);
  const person = new Person(page, size === "laptop" ? "mouse" : "touch");
  await person.open_horse(sample_horse);
  await person.open_picture("2 March 2026", picture);
  await person.say_name(name);
  await person.confirm(facts_of(of));
  return { page, person, seen, name };
}

/** Case and picture that are open. @param {import("playwright-core").Page} page */
const open_ids = (page) => [page.url().split("/case/")[1].split("/")[0], page.url().split("/").at(-1)];

/** What the program has of the reader at the picture that is open. @param {import("playwright-core").Page} page
 * @param {string} reader */
export async function saved_reading(page, reader) {
  const [case_id, digest] = open_ids(page);
  const answer = await page.request.get(`${served.address}/api/cases/${case_id}/readings/${digest}?reader=${encodeURIComponent(reader)}`);
  return (await answer.json()).reading;
}

/** What the program keeps of the picture that is open. @param {import("playwright-core").Page} page */
export async function saved_entry(page) {
  const [case_id, digest] = open_ids(page);
  const answer = await page.request.get(`${served.address}/api/cases/${case_id}`);
  return (await answer.json()).visits.flatMap((visit) => visit.pictures).find((each) => each.digest === digest);
}
