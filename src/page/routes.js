/** The address after the # <-> the place on the page, so that going back and reloading work. */

/** @param {string} hash @returns {import("./state/state.js").Place} */
export function place_at(hash) {
  const parts = hash.replace(/^#\/?/, "").split("/").map(decodeURIComponent);
  const [, case_id, , visit, what, digest, tab] = parts;
  if (parts[0] !== "case" || !case_id) return { screen: "cases" };
  if (what === "picture" && digest) return { screen: "picture", case_id, visit, digest, ...(tab === "try" && { tab }) };
  if (what === "plan") return { screen: "plan", case_id, visit };
  return { screen: "case", case_id };
}

/** @param {import("./state/state.js").Place} place */
export function hash_of(place) {
  const { screen, case_id = "", visit = "", digest = "", tab } = place;
  const parts = {
    cases: [],
    case: ["case", case_id],
    plan: ["case", case_id, "visit", visit, "plan"],
    picture: ["case", case_id, "visit", visit, "picture", digest, ...(tab ? [tab] : [])],
  }[screen];
  return "#/" + parts.map(encodeURIComponent).join("/");
}
