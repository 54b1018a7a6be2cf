/**
 * The view's schematic drawing with one place ringed; turned over when the toe (or lateral side)
 * lies on the left of the screen, so that it looks like the picture. It lives in a shadow tree: its style
 * sheet is its own.
 */
import { drawing_path } from "../server/server.js";
import { axes_of } from "../state/view.js";
import { h } from "./dom.js";

const style_element = /<style>([\s\S]*?)<\/style>/g;
const turned = `:host(.turned) text { transform: scaleX(-1); transform-box: fill-box; transform-origin: center; }
  svg { display: block; width: 100%; height: auto; } svg text { font-size: 24px; } #with-shoe, #marker { display: none; }
  :host(.shod) #with-shoe, :host(.marker) #marker { display: inline; }`;

/**
 * The drawing and its style apart: the page's policy allows no style elements, a sheet made by the
 * page is not one.
 * @param {string} text of an SVG file
 */
function apart(text) {
  const sheet = new CSSStyleSheet();
  const rules = [...text.matchAll(style_element)].map((each) => each[1]);
  sheet.replaceSync(rules.join("") + turned);
  const bare = text.replaceAll(style_element, "");
  return { sheet, svg: new DOMParser().parseFromString(bare, "image/svg+xml").documentElement };
}

export function drawing() {
  const inner = h("div", { class: "drawing-inner" });
  const place = h("span", { class: "ringed" });
  const element = h("div", { class: "drawing", role: "img" }, inner, place);
  const root = inner.attachShadow({ mode: "open" });
  let shown = "";

  /** @param {string} name */
  async function load(name) {
    if (name === shown) return;
    shown = name;
    try {
      const answer = await fetch(drawing_path(name));
      const text = answer.ok ? await answer.text() : "";
      const { sheet, svg } = apart(text);
      if (shown !== name || svg.localName !== "svg") return;
      root.adoptedStyleSheets = [sheet];
      root.replaceChildren(document.importNode(svg, true));
    } catch {
      shown = ""; // asked again with the next point
    }
  }

  return {
    element,
    /** @param {string} name @param {import("../state/types.js").LandmarkGuide} guide
     * @param {string} label @param {{toward: string, shoeing: string, scale: {kind: string}}} entry
     * @param {{turn: number, mirrored: boolean}} view */
    show(name, guide, label, entry, view) {
      load(name);
      const left_on_screen = axes_of(view).right.x < 0 ? "right" : "left";
      const mirrored = entry.toward === left_on_screen;
      inner.classList.toggle("turned", mirrored);
      inner.classList.toggle("shod", entry.shoeing === "shod");
      inner.classList.toggle("marker", guide.id.startsWith("marker-"));
      const x = mirrored ? 1 - guide.schematic_x : guide.schematic_x;
      place.style.left = `${100 * x}%`;
      place.style.top = `${100 * guide.schematic_y}%`;
      element.setAttribute("aria-label", label);
    },
  };
}
