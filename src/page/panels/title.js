/** What a picture is called in a line: the limb, and the kind of picture in short. */
import { protocol_of_entry } from "../state/state.js";
import { word, words, worded_for } from "../words/words.js";

/** Nobody has said yet what a photo shows; the program's first guess is not worth a title.
 * @param {import("../state/types.js").PictureEntry} entry */
const undescribed = ({ view, protocol }) => view !== "lateromedial" && view !== "dorsopalmar" && !protocol;

/** @param {import("./panel.js").State} state @param {import("../state/types.js").PictureEntry} entry */
export function picture_title(state, entry) {
  if (undescribed(entry)) return entry.file_name;
  const protocol = protocol_of_entry(state, entry);
  const usual = protocol_of_entry(state, { ...entry, protocol: "" });
  const title = protocol === usual ? word(words.views, entry.view) : protocol?.title ?? entry.view;
  return `${word(words.limbs, entry.limb)}, ${worded_for(entry.limb, title)}`;
}
