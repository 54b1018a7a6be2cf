/** Waits for something to become true, frame by frame; fails after a while with what was last seen. */
const patience = 40000; // ms; a busy machine is no fault of the page

/** @param {() => Promise<unknown>} true_yet */
export async function expect_soon(true_yet) {
  const until = Date.now() + patience;
  let last;
  while (Date.now() < until) {
    last = await true_yet();
    if (last) return;
    await new Promise((resolve) => setImmediate(resolve));
  }
  throw new Error(`This didn't become true: ${true_yet} (last: ${last})`);
}

/** What was asked of the page has been drawn. @param {import("playwright-core").Page} page */
export const two_frames = (page) => page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
