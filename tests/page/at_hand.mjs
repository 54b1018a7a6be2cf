/** The program with the sample case and a browser, there for all tests of the file that imports this. */
import { after } from "node:test";
import { Onlooker, Served } from "./program.mjs";

// Not in a before(): the importing file's own one may need them.
export const served = await Served.start();
export const onlooker = await Onlooker.open();
after(async () => {
  await onlooker.close();
  await served.stop();
});
