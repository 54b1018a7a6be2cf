/** What a picture is called in a line: the limb, and the kind of picture in short. */
import { protocol_of_entry } from "../state/state.js";
import { word, words, worded_for } from "../words/words.js";

/** @param {import("./panel.js").State} state @param {import("../state/types.js").PictureEntry} entry */
export function picture_title(state, entry) {
  const protocol = protocol_of_entry(state, entry);
  const usual = protocol_of_entry(state, { ...entry, protocol: "" });
  const title = protocol === usual ? word(words.views, entry.view) : protocol?.title ?? entry.view;
  return `${word(words.limbs, entry.limb)}, ${worded_for(entry.limb, title)}`;
}
