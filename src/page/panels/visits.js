/** The visits, newest first, each with its pictures, its plan and its paper. */
import { paper_path, thumbnail_path } from "../server/server.js";
import { day } from "../words/numbers.js";
import { words } from "../words/words.js";
import { picture_title } from "./title.js";
import { button, h, labelled, rebuilt } from "./dom.js";
import { posture } from "./posture.js";

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function visits(wishes) {
  const list = h("div");
  const element = h("section", { class: "visits" }, h("h2", {}, words.visits.title), new_visit(wishes), list);
  const fresh = rebuilt(list);
  return {
    element,
    update(state) {
      const { record, postures, practice } = state;
      if (!record) return;
      fresh([record.id, record.visits, state.uploading, postures, practice], () =>
        record.visits.length === 0 ? [h("p", { class: "empty" }, words.visits.empty)]
          : record.visits.toReversed().map((each) => visit(wishes, state, record.id, each)));
    },
  };
}

/** @param {import("./panel.js").Wishes} wishes */
function new_visit(wishes) {
  const date = h("input", { type: "date", required: true, value: new Date().toISOString().slice(0, 10) });
  const last_trim = h("input", { type: "date" });
  return h("form", { class: "row new-visit", onsubmit: (/** @type {Event} */ event) => {
    event.preventDefault();
    const id = wishes.state().record?.id;
    if (id) wishes.server.add_visit(id, { date: date.value, last_trim: last_trim.value });
  } },
    labelled(words.visits.date, date), labelled(words.visits.last_trim, last_trim),
    h("button", {}, words.visits.new_visit));
}

/** @param {import("./panel.js").Wishes} wishes @param {import("./panel.js").State} state
 * @param {string} case_id @param {import("../state/types.js").Visit} visit */
function visit(wishes, state, case_id, visit) {
  const has_pictures = visit.pictures.length > 0;
  const to_plan = button(words.visits.to_plan,
    () => wishes.go({ screen: "plan", case_id, visit: visit.id }), { class: has_pictures ? "main" : "", "data-key": `plan-${visit.id}` });
  const paper = h("a", { class: "button", href: paper_path(case_id, visit.id, "A4"), download: paper_name(case_id, visit) }, words.visits.paper);
  return h("article", { class: "visit", "data-visit": visit.id, ...drop_target(wishes, case_id, visit.id) },
    h("div", { class: "row" },
      h("h3", {}, day(visit.date)),
      visit.last_trim && h("span", { class: "hint" }, words.visits.last_trim_was(day(visit.last_trim))),
      h("span", { class: "end row" }, has_pictures && [to_plan, paper])),
    has_pictures ? h("ul", { class: "thumbs" }, visit.pictures.map((each) => thumb(state, case_id, visit.id, each)))
      : h("p", { class: "empty" }, words.visits.no_pictures),
    state.uploading.map((name) => h("p", { class: "hint", role: "status" }, words.visits.adding(name))),
    posture(state.postures[visit.id]),
    adding(wishes, case_id, visit.id));
}

/** @param {string} case_id @param {import("../state/types.js").Visit} visit */
export const paper_name = (case_id, visit) => `${case_id}-${visit.date}.pdf`;

/** @param {import("./panel.js").State} state @param {string} case_id @param {string} visit
 * @param {import("../state/types.js").PictureEntry} entry */
function thumb(state, case_id, visit, entry) {
  const path = ["case", case_id, "visit", visit, "picture", entry.digest].map(encodeURIComponent).join("/");
  const title = picture_title(state, entry);
  return h("li", {}, h("a", { href: `#/${path}` },
    h("img", { src: thumbnail_path(entry.digest), alt: "", loading: "lazy" }),
    h("span", { title: entry.file_name }, title)));
}

/** @param {import("./panel.js").Wishes} wishes @param {string} case_id @param {string} visit */
function adding(wishes, case_id, visit) {
  const send = (/** @type {FileList | null} */ files) => {
    for (const each of files ?? []) wishes.server.add_picture(case_id, visit, each);
  };
  const chooser = (/** @type {string} */ text, /** @type {Record<string, any>} */ attributes) =>
    h("label", { class: "button" }, text,
      h("input", { type: "file", class: "unseen", onchange: (/** @type {any} */ event) => send(event.target.files), ...attributes }));
  return h("div", { class: "row adding" },
    chooser(words.visits.add_files, { multiple: true }),
    chooser(words.visits.camera, { accept: "image/*", capture: "environment" }),
    h("span", { class: "hint wide-only" }, words.visits.drop));
}

/** @param {import("./panel.js").Wishes} wishes @param {string} case_id @param {string} visit */
function drop_target(wishes, case_id, visit) {
  return {
    ondragover: (/** @type {DragEvent} */ event) => event.preventDefault(),
    ondrop: (/** @type {DragEvent} */ event) => {
      event.preventDefault();
      for (const each of event.dataTransfer?.files ?? []) wishes.server.add_picture(case_id, visit, each);
    },
  };
}
