/** Small helpers to build the document from state. Native elements first. */
import { is_under_hand } from "./writing.js";

/**
 * @typedef {Node | string | number | null | undefined | false} Child
 * @typedef {Record<string, any>} Attributes on… is a listener, class and others are attributes
 */

/** @param {Element} element @param {Attributes} attributes */
function dress(element, attributes) {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
    else if (name === "value" && "value" in element) element.value = value;
    else if (name === "checked" && element instanceof HTMLInputElement) element.checked = Boolean(value);
    else element.setAttribute(name, value === true ? "" : String(value));
  }
}

/** @template {keyof HTMLElementTagNameMap} T
 * @param {T} tag @param {Attributes} [attributes] @param {...(Child | Child[])} children
 * @returns {HTMLElementTagNameMap[T]} */
export function h(tag, attributes = {}, ...children) {
  const element = document.createElement(tag);
  element.append(...kept(children));
  dress(element, attributes);
  return element;
}

/** @param {string} tag @param {Attributes} [attributes] @param {...(Child | Child[])} children
 * @returns {SVGElement} */
export function svg(tag, attributes = {}, ...children) {
  const element = document.createElementNS("http://www.w3.org/2000/svg", tag);
  dress(element, attributes);
  element.append(...kept(children));
  return /** @type {SVGElement} */ (element);
}

/** @param {(Child | Child[])[]} children @returns {(Node | string)[]} */
function kept(children) {
  return children
    .flat()
    .filter((each) => each !== null && each !== undefined && each !== false)
    .map((each) => (each instanceof Node ? each : String(each)));
}

/**
 * Rebuilds an element's content only when one of the values it is made from became another, and not
 * while somebody writes in it.
 * @param {Element} element
 * @param {(element: Element, content: (Node | string)[]) => void} [fill] filled() or amended()
 * @returns {(values: unknown[], build: () => (Child | Child[])[]) => boolean} true when it was rebuilt
 */
export function rebuilt(element, fill = filled) {
  /** @type {unknown[] | null} */
  let last = null;
  return (values, build) => {
    const same = last !== null && last.length === values.length && last.every((each, at) => each === values[at]);
    if (same || is_under_hand(element)) return false;
    last = values;
    const focus = focus_key(element);
    const all_chosen = focus !== null && is_all_chosen(document.activeElement);
    fill(element, kept(build()));
    if (focus !== null) focus_again(element, focus, all_chosen);
    return true;
  };
}

/** @param {Element} element @param {(Node | string)[]} content */
export function filled(element, content) {
  element.replaceChildren(...content);
}

/**
 * The same, but only what differs is touched: what follows the hand must not be laid out anew as a
 * whole in every frame. A part stays where tag and data-key or data-id are the same, and keeps its
 * listeners; so they may lean on these only.
 * @param {Element} element @param {(Node | string)[]} content
 */
export function amended(element, content) {
  const old = [...element.childNodes];
  content.forEach((each, at) => {
    const next = typeof each === "string" ? document.createTextNode(each) : each;
    if (!old[at]) element.append(next);
    else if (!is_same_part(old[at], next)) old[at].replaceWith(next);
    else if (next instanceof Element) amend(/** @type {Element} */ (old[at]), next);
    else if (old[at].nodeValue !== next.nodeValue) old[at].nodeValue = next.nodeValue;
  });
  for (const each of old.slice(content.length)) each.remove();
}

/** @param {Element} old @param {Element} next */
function amend(old, next) {
  if (old.isEqualNode(next)) return;
  for (const { name } of [...old.attributes]) if (!next.hasAttribute(name)) old.removeAttribute(name);
  for (const { name, value } of next.attributes) if (old.getAttribute(name) !== value) old.setAttribute(name, value);
  amended(old, [...next.childNodes]);
}

/** @param {Node} a @param {Node} b */
function is_same_part(a, b) {
  const named = (/** @type {Node} */ each) => (each instanceof Element ? each.getAttribute("data-key") ?? each.getAttribute("data-id") : null);
  return a.nodeName === b.nodeName && named(a) === named(b);
}

/** @param {Element} element which child has the focus, by its data-key */
function focus_key(element) {
  const focused = document.activeElement;
  return focused && element.contains(focused) ? focused.getAttribute("data-key") : null;
}

/** Would the next key write over the whole field? @param {Element | null} field */
function is_all_chosen(field) {
  if (!(field instanceof HTMLInputElement || field instanceof HTMLTextAreaElement) || field.value === "") return false;
  // A field of a number doesn't tell its own selection.
  return field.selectionStart === null ? getSelection()?.toString() === field.value
    : field.selectionStart === 0 && field.selectionEnd === field.value.length;
}

/** @param {Element} element @param {string} key @param {boolean} all_chosen */
function focus_again(element, key, all_chosen) {
  const found = /** @type {HTMLElement | null} */ (element.querySelector(`[data-key="${CSS.escape(key)}"]`));
  found?.focus({ preventScroll: true });
  if (all_chosen && (found instanceof HTMLInputElement || found instanceof HTMLTextAreaElement)) found.select();
}

/** @param {HTMLElement} element @param {boolean} yes */
export function show(element, yes) {
  if (element.hidden === yes) element.hidden = !yes;
}

/** @param {string} label @param {HTMLElement} field @param {string} [class_name] */
export function labelled(label, field, class_name = "") {
  return h("label", { class: `field ${class_name}` }, h("span", {}, label), field);
}

/** @param {string} text @param {() => void} act @param {Attributes} [attributes] */
export function button(text, act, attributes = {}) {
  return h("button", { type: "button", onclick: act, ...attributes }, text);
}

/**
 * One choice of a few, all of them in sight.
 * @param {string} legend @param {string} name @param {[string, string][]} choices value and words
 * @param {string | null} chosen @param {(value: string) => void} choose @param {string} [hint]
 */
export function choice(legend, name, choices, chosen, choose, hint = "") {
  return h("fieldset", { class: "choice", "data-name": name },
    h("legend", {}, legend, hint && h("span", { class: "hint" }, ` ${hint}`)),
    h("div", { class: "choices" }, choices.map(([value, words]) =>
      h("label", {},
        h("input", {
          type: "radio", name, value, checked: value === chosen, "data-key": `${name}-${value}`,
          onchange: () => choose(value),
        }),
        h("span", {}, words)))));
}
