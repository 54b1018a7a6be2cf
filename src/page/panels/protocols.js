/** Which kind of picture: the protocols grouped by what they show, likely ones in sight, others folded. */
import { fits_leg } from "../state/state.js";
import { word, words, worded_for } from "../words/words.js";
import { h } from "./dom.js";

/** What a picture of this kind can show, likeliest first. @type {Record<string, string[][]>} */
const order = { radiograph: [["radiograph"], ["foot", "limb"]], photo: [["foot", "limb"], ["radiograph"]] };

/**
 * @param {import("../state/types.js").Protocol[]} all @param {string} kind radiograph or photo
 * @param {string | null} end fore, hind or not said yet @param {string | null} chosen id
 * @param {(id: string) => void} choose @param {string} said
 */
export function protocols(all, kind, end, chosen, choose, said) {
  const w = words.confirm;
  const [likely, others] = order[kind] ?? order.photo;
  const of = (/** @type {string} */ shows) => all.filter((each) => each.shows === shows && fits_leg(each, end));
  const group = (/** @type {string} */ shows) =>
    h("div", { class: "protocol-group", role: "group", "aria-label": word(w.shows, shows) },
      h("p", { class: "hint" }, word(w.shows, shows)),
      h("div", { class: "choices" }, of(shows).map((each) => one(each, end, chosen, choose))));
  const is_other = others.some((shows) => of(shows).some((each) => each.id === chosen));
  return h("fieldset", { class: "choice protocols", "data-name": "protocol" },
    h("legend", {}, w.protocol, said && h("span", { class: "hint" }, ` ${said}`)),
    likely.map(group),
    h("details", { open: is_other }, h("summary", {}, word(w.others, others[0])), others.map(group)));
}

/** @param {import("../state/types.js").Protocol} protocol @param {string | null} end
 * @param {string | null} chosen @param {(id: string) => void} choose */
function one(protocol, end, chosen, choose) {
  return h("label", {},
    h("input", {
      type: "radio", name: "protocol", value: protocol.id, checked: protocol.id === chosen,
      "data-key": `protocol-${protocol.id}`, onchange: () => choose(protocol.id),
    }),
    h("span", {}, worded_for(end ?? "fore", protocol.title)));
}

/**
 * The protocol of the same view for the other leg, when the chosen one is not for it.
 * @param {import("../state/types.js").Protocol[]} all @param {string | null} id @param {string} end
 */
export function for_leg(all, id, end) {
  const known = all.find((each) => each.id === id);
  if (!known || fits_leg(known, end)) return id;
  return all.find((each) => each.view === known.view && fits_leg(each, end))?.id ?? null;
}
