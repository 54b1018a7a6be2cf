/** The program with the sample case and a browser, there for all tests of the file that imports this. */
import { after, before } from "node:test";
import { Onlooker, Served } from "./program.mjs";

/** @type {Served} */
export let served;
/** @type {Onlooker} */
export let onlooker;
before(async () => {
  served = await Served.start();
  onlooker = await Onlooker.open();
});
after(async () => {
  await onlooker?.close();
  await served?.stop();
});
