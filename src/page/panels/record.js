/** Horse and people. */
import { words } from "../words/words.js";
import { h } from "./dom.js";
import { field } from "./fields.js";

/** @param {import("./panel.js").Wishes} wishes @returns {import("./panel.js").Panel} */
export function record(wishes) {
  const w = words.record;
  const horse = [
    field(wishes, w.name, "horse.name", "text"),
    field(wishes, w.yard, "yard", "text"),
    field(wishes, w.species, "horse.species", w.species_names),
    field(wishes, w.breed, "horse.breed", "text"),
    field(wishes, w.sex, "horse.sex", "text"),
    field(wishes, w.colour, "horse.colour", "text"),
    field(wishes, w.work, "horse.work", "text"),
    field(wishes, w.age, "horse.age_years", "number"),
    field(wishes, w.height, "horse.height_cm", "number"),
    field(wishes, w.weight, "horse.weight_kg", "number"),
  ];
  const people = [
    field(wishes, w.owner, "owner.name", "text"),
    field(wishes, w.contact, "owner.contact", "text"),
    field(wishes, w.farrier, "farrier.name", "text"),
    field(wishes, w.registration, "farrier.registration", "text"),
    field(wishes, w.vet, "vet.name", "text"),
    field(wishes, w.registration, "vet.registration", "text"),
  ];
  const element = h("section", { class: "part" },
    h("details", { open: true }, h("summary", {}, h("h2", {}, w.horse)),
      h("div", { class: "fields" }, horse.map((each) => each.element))),
    h("details", {}, h("summary", {}, h("h2", {}, w.people)),
      h("div", { class: "fields" }, people.map((each) => each.element))));
  return {
    element,
    update(state) {
      if (state.record) for (const each of [...horse, ...people]) each.show(state.record);
    },
  };
}
