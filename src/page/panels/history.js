/** What is wrong with the horse: in words, ticks and grades. */
import { word, words } from "../words/words.js";
import { button, h, labelled, rebuilt } from "./dom.js";
import { field, save_value, tick } from "./fields.js";

const grade_scales = ["AAEP 0-5", "UK 0-10"];

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function history(wishes) {
  const w = words.record;
  const fields = [
    field(wishes, w.complaint, "history.complaint", "lines", "full"),
    field(wishes, w.vet_has_seen, "history.vet_has_seen", w.yes_no),
    field(wishes, w.laminitis, "history.laminitis", w.laminitis_names),
    tick(wishes, w.sudden_onset, "history.sudden_onset"),
    field(wishes, w.diagnosis, "history.diagnosis", "lines", "full"),
    field(wishes, w.course, "history.course", "lines", "full"),
  ];
  const flags = h("fieldset", { class: "flags" });
  const grades = h("div");
  const grades_of = () => wishes.state().record?.history.lameness ?? [];
  // Apart, so that a grade that comes in doesn't take away one that is being written.
  const adding = new_grade((grade) => keep_grades(wishes, [...grades_of(), grade]));
  const element = h("section", { class: "part" },
    h("details", { open: true }, h("summary", {}, h("h2", {}, w.history)),
      h("div", { class: "fields" }, fields.map((each) => each.element)), flags, h("div", { class: "grades" }, grades, adding)));
  const fresh_flags = rebuilt(flags);
  const fresh_grades = rebuilt(grades);
  return {
    element,
    update(state) {
      const { record, practice } = state;
      if (!record) return;
      for (const each of fields) each.show(record);
      fresh_flags([JSON.stringify(record.history.red_flags), practice], () =>
        flag_list(wishes, practice?.red_flags ?? [], record.history.red_flags ?? []));
      fresh_grades([JSON.stringify(record.history.lameness)], () =>
        grade_list(wishes, record.history.lameness ?? []));
    },
  };
}

/** @param {import("./panel.js").Wishes} wishes @param {{id: string, words: string}[]} all
 * @param {string[]} ticked */
function flag_list(wishes, all, ticked) {
  const turn = (/** @type {string} */ id) =>
    save_value(wishes, ["history", "red_flags"],
      ticked.includes(id) ? ticked.filter((each) => each !== id) : [...ticked, id]);
  return [
    h("legend", {}, words.record.red_flags),
    all.map(({ id, words: said }) =>
      h("label", { class: "tick" },
        h("input", { type: "checkbox", checked: ticked.includes(id), "data-key": id, onchange: () => turn(id) }),
        h("span", {}, said))),
  ];
}

/** @param {import("./panel.js").Wishes} wishes @param {Record<string, any>[]} all */
function grade_list(wishes, all) {
  const w = words.record;
  return [
    h("h3", {}, w.lameness),
    all.length === 0 ? h("p", { class: "empty" }, w.no_lameness)
      : h("ul", { class: "lines" }, all.map((each, at) =>
          h("li", {}, h("div", { class: "line" },
            h("strong", {}, word(words.limbs, each.limb)),
            h("span", {}, `${each.grade} (${each.scale})${each.observer ? `, ${each.observer}` : ""}`),
            button(w.remove, () => keep_grades(wishes, all.filter((_, other) => other !== at)), { class: "plain end" }))))),
  ];
}

/** @param {import("./panel.js").Wishes} wishes @param {Record<string, any>[]} grades */
const keep_grades = (wishes, grades) => save_value(wishes, ["history", "lameness"], grades);

/** @param {(grade: Record<string, any>) => void} add */
function new_grade(add) {
  const w = words.record;
  const limb = h("select", {}, Object.entries(words.limbs).map(([value, said]) => h("option", { value }, said)));
  const scale = h("select", {}, grade_scales.map((each) => h("option", {}, each)));
  const grade = h("input", { type: "number", min: 0, max: 10, step: 0.5, required: true });
  const observer = h("input", { type: "text", maxlength: 80 });
  return h("form", { class: "new-grade", onsubmit: (/** @type {Event} */ event) => {
    event.preventDefault();
    add({ limb: limb.value, scale: scale.value, grade: Number(grade.value), observer: observer.value, note: "" });
    /** @type {HTMLFormElement} */ (event.target).reset();
  } },
    labelled(w.limb, limb), labelled(w.scale, scale), labelled(w.grade, grade), labelled(w.observer, observer),
    h("button", {}, w.add_grade));
}
