/**
 * Form fields bound to the case: each shows a value of it and saves when it was changed. A field
 * that somebody writes in is left alone.
 * @typedef {import("../state/types.js").Case} Case
 * @typedef {{element: HTMLElement, show(record: Case): void}} Field
 */
import { h, labelled } from "./dom.js";

/** @param {any} value @param {string[]} path */
const at = (value, path) => path.reduce((inner, step) => inner?.[step], value);

/** @param {any} value @param {string[]} path @param {unknown} leaf @returns {any} a changed copy */
export function with_value(value, [step, ...rest], leaf) {
  return { ...value, [step]: rest.length === 0 ? leaf : with_value(value?.[step] ?? {}, rest, leaf) };
}

/** @param {import("./panel.js").Wishes} wishes @param {string[]} steps @param {unknown} value */
export function save_value(wishes, steps, value) {
  const { record } = wishes.state();
  if (record) wishes.server.save_case(with_value(record, steps, value), with_value({}, steps, value));
}

/**
 * @param {import("./panel.js").Wishes} wishes
 * @param {string} label @param {string} path such as "horse.name"
 * @param {"text" | "number" | "lines" | Record<string, string>} kind choices are value to words
 * @param {string} [class_name]
 * @returns {Field}
 */
export function field(wishes, label, path, kind, class_name = "") {
  const steps = path.split(".");
  const input = input_of(kind);
  input.setAttribute("name", path);
  input.addEventListener("change", () => save_value(wishes, steps, value_in(input, kind)));
  return {
    element: labelled(label, input, class_name),
    show(record) {
      if (document.activeElement !== input) input.value = String(at(record, steps) ?? "");
    },
  };
}

/** @param {"text" | "number" | "lines" | Record<string, string>} kind */
function input_of(kind) {
  if (kind === "lines") return h("textarea", { rows: 3, maxlength: 4000 });
  if (kind === "number") return h("input", { type: "number", min: 0, step: "any", inputmode: "decimal" });
  if (kind === "text") return h("input", { type: "text", maxlength: 400, autocomplete: "off" });
  return h("select", {}, Object.entries(kind).map(([value, words]) => h("option", { value }, words)));
}

/** @param {{value: string}} input @param {unknown} kind a number not known is null */
function value_in(input, kind) {
  if (kind !== "number") return input.value;
  return input.value === "" ? null : Number(input.value);
}

/** @param {import("./panel.js").Wishes} wishes @param {string} label @param {string} path
 * @returns {Field} */
export function tick(wishes, label, path) {
  const steps = path.split(".");
  const input = h("input", { type: "checkbox", name: path });
  input.addEventListener("change", () => save_value(wishes, steps, input.checked));
  return {
    element: h("label", { class: "tick" }, input, h("span", {}, label)),
    show(record) {
      input.checked = Boolean(at(record, steps));
    },
  };
}
