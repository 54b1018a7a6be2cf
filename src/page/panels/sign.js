/** The sign-off at the end of a plan, and what a signed plan says. */
import { day } from "../words/numbers.js";
import { words } from "../words/words.js";
import { h, labelled } from "./dom.js";

/** @param {import("./panel.js").Wishes} wishes @param {import("./panel.js").State} state
 * @param {import("../state/types.js").Plan} plan
 * @param {Record<string, any>} written here before, when somebody made another version meanwhile */
export function sign(wishes, state, plan, written) {
  const w = words.plan;
  const signed = plan.sign_off;
  if (signed)
    return h("section", { class: "signed" }, h("h2", {}, w.sign),
      h("p", {}, w.signed(signed.name, signed.registration, day(signed.date))),
      signed.note && h("p", {}, signed.note));
  const vet = state.record?.vet ?? {};
  const name = h("input", { type: "text", name: "sign-name", required: true, maxlength: 120, value: written["sign-name"] ?? (vet.name || state.reader) });
  const registration = h("input", { type: "text", name: "sign-registration", required: true, maxlength: 60, value: written["sign-registration"] ?? vet.registration ?? "" });
  const date = h("input", { type: "date", name: "sign-date", required: true, value: written["sign-date"] ?? new Date().toISOString().slice(0, 10) });
  const note = h("textarea", { rows: 2, maxlength: 2000, name: "sign-note", value: written["sign-note"] ?? "" });
  return h("form", { class: "signing", "data-visit": plan.visit, onsubmit: (/** @type {Event} */ event) => {
    event.preventDefault();
    const { record, place, planning } = wishes.state();
    if (!record || !place.visit) return;
    if (Object.keys(planning?.asks ?? {}).length > 0) return wishes.dispatch({ type: "notice", sentence: w.answer_first });
    wishes.server.sign_plan(record.id, place.visit, {
      name: name.value, registration: registration.value, date: date.value, note: note.value,
    });
  } },
    h("h2", {}, w.sign),
    h("p", { class: "hint" }, w.sign_lead),
    h("div", { class: "fields" },
      labelled(w.sign_name, name), labelled(w.sign_registration, registration), labelled(w.sign_date, date),
      labelled(w.sign_note, note, "full")),
    h("button", { class: "main" }, w.sign_button));
}
