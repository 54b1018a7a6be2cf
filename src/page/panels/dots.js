/**
 * Stick-on dots of two colours: tapped in the picture or named, found by the program, offered as
 * joint centres. An offer is no point until a person confirms it.
 * @typedef {import("../state/found.js").Found} Found
 */
import { asked_in, entry_of } from "../state/state.js";
import { words, worded_for } from "../words/words.js";
import { button, h, rebuilt, show } from "./dom.js";

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function dots(wishes) {
  const body = h("div", { class: "dots-body" });
  const element = h("details", { class: "dots", hidden: true }, h("summary", {}, words.dots.title), body);
  const fresh = rebuilt(body);
  /** @type {(string | null)[]} colours by name, where no dot was tapped */
  let named = [null, null];
  let busy = false;
  let turn = 0;
  const again = () => {
    turn += 1;
    draw(wishes.state());
  };
  const choose = (/** @type {number} */ n, /** @type {string} */ name) => {
    named = named.map((each, at) => (at === n ? name : each));
    const { open } = wishes.state();
    wishes.dispatch({ type: "found", found: { picking: "", colours: open?.found.colours.map((each, at) => (at === n ? null : each)) } });
    again();
  };
  const look = async () => {
    busy = true;
    again();
    await find(wishes, named);
    busy = false;
    again();
  };
  /** @param {import("./panel.js").State} state */
  function draw(state) {
    const { open } = state;
    const guides = asked_in(state);
    const wanted = Boolean(open?.loaded && !open.confirming && open.info?.kind === "photo" && guides.some((each) => each.dot));
    show(element, wanted);
    if (!open || !wanted) return;
    const limb = entry_of(state)?.limb ?? "";
    const titles = new Map(guides.map((each) => [each.id, worded_for(limb, each.title)]));
    const joints = guides.filter((each) => each.dot).map((each) => each.id);
    fresh([open.digest, open.found, turn, state.practice], () => open.found.offers.length > 0 ? [
      open.found.said && h("p", { class: "found-said", role: "status" }, open.found.said),
      offers(wishes, open.found, joints, titles),
    ] : [
      h("p", { class: "hint" }, words.dots.lead),
      [0, 1].map((n) => colour(wishes, open.found, named, n, choose)),
      button(busy ? words.confirm.looking : words.dots.find, look,
        { class: "main", disabled: busy || !ready(open.found, named), "data-key": "find-dots" }),
    ]);
  }
  return { element, update: draw };
}

/** @param {Found} found @param {(string | null)[]} named */
const ready = (found, named) => [0, 1].every((n) => found.colours[n] || named[n]);

/** @param {import("./panel.js").Wishes} wishes @param {Found} found @param {(string | null)[]} named
 * @param {number} n @param {(n: number, name: string) => void} choose */
function colour(wishes, found, named, n, choose) {
  const w = words.dots;
  const picking = found.picking === `colour-${n}`;
  const tapped = Boolean(found.colours[n]);
  return h("fieldset", { class: "choice colour", "data-name": `colour-${n}` },
    h("legend", {}, w.colour(n + 1)),
    h("div", { class: "choices" },
      h("label", {},
        h("input", { type: "radio", name: `colour-${n}`, value: "tap", "data-key": `colour-${n}-tap`, checked: picking || tapped,
          onchange: () => wishes.dispatch({ type: "found", found: { picking: `colour-${n}` } }) }),
        h("span", {}, tapped ? w.tapped : w.tap)),
      Object.entries(w.colours).map(([name, text]) =>
        h("label", { title: text },
          h("input", { type: "radio", name: `colour-${n}`, value: name, "data-key": `colour-${n}-${name}`,
            checked: !tapped && !picking && named[n] === name, onchange: () => choose(n, name) }),
          h("span", { class: "swatch", "data-colour": name }), h("span", {}, text)))),
    picking && h("p", { class: "hint", role: "status" }, w.tap_now));
}

/** @param {import("./panel.js").Wishes} wishes @param {(string | null)[]} named */
async function find(wishes, named) {
  const { open, place } = wishes.state();
  if (!open) return;
  const colours = open.found.colours.map((at, n) => (at ? { at: [at.x, at.y] } : { name: named[n] }));
  const seen = await wishes.server.find("dots", place.case_id ?? "", open.digest, { colours });
  if (!seen) return;
  /** @type {import("../state/types.js").Offer[]} */
  const offered = seen.dots.map((/** @type {any} */ each, /** @type {number} */ at) => ({ id: "", ...each, n: at + 1 }));
  const unnamed = seen.sentence && `${seen.sentence} ${words.dots.name_them}`;
  wishes.dispatch({ type: "found", digest: open.digest, found: { offers: offered, said: unnamed } });
}

/** @param {import("./panel.js").Wishes} wishes @param {Found} found @param {string[]} joints
 * @param {Map<string, string>} titles */
function offers(wishes, found, joints, titles) {
  const w = words.dots;
  const all = found.offers;
  const every = all.map((each) => each.n);
  const named = all.filter((each) => each.id).map((each) => each.n);
  const confirm = (/** @type {number[]} */ numbers) => wishes.dispatch({ type: "offers-confirmed", numbers });
  const drop = (/** @type {number[]} */ numbers) => wishes.dispatch({ type: "offers-dropped", numbers });
  return h("div", { class: "offers" },
    h("p", {}, h("strong", {}, w.offered(all.length)), ` ${w.offered_lead}`),
    h("div", { class: "row" },
      button(w.confirm_all, () => confirm(named), { class: "main", "data-key": "confirm-all", disabled: named.length === 0 }),
      button(w.drop_all, () => drop(every), { class: "plain", "data-key": "drop-all" })),
    h("ul", {}, all.map((each) => h("li", { "data-offer": each.id, "data-n": each.n },
      h("span", { class: "offer-sign", "aria-hidden": "true" }),
      h("label", { class: "offer-title" }, h("span", {}, w.number(each.n)), which(wishes, each, joints, titles)),
      button(w.confirm, () => confirm([each.n]), { "data-key": `confirm-${each.n}`, disabled: !each.id }),
      button(w.drop, () => drop([each.n]), { class: "plain", "data-key": `drop-${each.n}` })))));
}

/** Which joint a dot marks. @param {import("./panel.js").Wishes} wishes
 * @param {import("../state/types.js").Offer} offer @param {string[]} joints @param {Map<string, string>} titles */
function which(wishes, offer, joints, titles) {
  return h("select", {
    "data-key": `joint-${offer.n}`, value: offer.id, name: `joint-${offer.n}`,
    onchange: (/** @type {any} */ event) => wishes.dispatch({ type: "offer-named", n: offer.n, id: event.target.value }),
  }, h("option", { value: "" }, words.dots.unnamed), joints.map((id) => h("option", { value: id }, titles.get(id) ?? id)));
}
