/**
 * A change of one foot that is tried on its pictures before anything is planned. Amounts by name, in
 * millimetres or degrees; the program holds them within its limits.
 * @typedef {import("./types.js").Tried} Tried
 * @typedef {import("./types.js").ShoeFacts} ShoeFacts
 *
 * @typedef {object} Trying
 * @property {string} visit
 * @property {string} limb
 * @property {Record<string, number> | null} wished null: the plan's own, until the answer is there
 * @property {Partial<ShoeFacts> | null} wished_shoe null: as it was answered
 * @property {string} moved the amount under the hand, or the last that was; empty at the beginning
 * @property {boolean} pulling is a hand on it?
 * @property {Tried | null} tried as far as the limits let it
 * @property {boolean} settled is that the answer to what is wished now, and not to something before?
 * @property {boolean} missing is it that no answer came, or none in time?
 */

/** @param {string} visit @param {string} limb @returns {Trying} */
export const begun = (visit, limb) => ({ visit, limb, wished: null, wished_shoe: null, moved: "", pulling: false, tried: null, settled: false, missing: false });

/** @param {Trying | null} now @param {Record<string, any>} of a visit and a limb */
export const is_about = (now, { visit, limb }) => now !== null && now.visit === visit && now.limb === limb;

/** The amounts as they are held, or while that isn't known as they are wished: the program holds those again.
 * @param {Trying} now @returns {Record<string, number>} */
export const amounts_in = (now) => (now.settled || !now.wished ? now.tried?.change : now.wished) ?? {};

/** @param {Trying} now @param {string} variable @param {number} value @returns {Trying} */
export function wish(now, variable, value) {
  if (!now.tried) return now;
  return { ...now, wished: { ...amounts_in(now), [variable]: Math.max(0, value) }, moved: variable, pulling: true, settled: false };
}

/** @type {ShoeFacts} nothing is said of it */
export const bare_shoe = { kind: "", bar: "none", frog_support: "none", web_mm: 0, roll_rise_mm: 0 };

/** The shoe as it is wished, or as it was answered. @param {Trying} now @returns {ShoeFacts} */
export const shoe_in = (now) => ({ ...(now.tried?.shoe ?? bare_shoe), ...now.wished_shoe });

/** @param {Trying} now @param {Partial<ShoeFacts>} some @returns {Trying} */
export function wish_shoe(now, some) {
  if (!now.tried) return now;
  return { ...now, wished: { ...amounts_in(now) }, wished_shoe: { ...shoe_in(now), ...some }, moved: "", settled: false };
}

/** @param {Trying} now @returns {Trying} */
export const wish_nothing = (now) => ({ ...now, wished: {}, wished_shoe: bare_shoe, moved: "", pulling: false, settled: false });

/** @param {Tried} tried */
export const asks_nothing = ({ change, shoe }) =>
  Object.keys(change).length === 0 && Object.entries(bare_shoe).every(([name, value]) => shoe[/** @type {keyof ShoeFacts} */ (name)] === value);

/** @param {Trying} now @param {Tried} tried @param {Record<string, number> | null} wished what it answers @returns {Trying} */
export function answered(now, tried, wished) {
  const settled = wished === now.wished;
  return { ...now, tried, wished: now.wished ?? tried.change, wished_shoe: settled ? null : now.wished_shoe, settled, missing: false };
}

/** What was tried before doesn't stand for what is wished now. @param {Trying} now @returns {Trying} */
export const unanswered = (now) => ({ ...now, missing: true });

/** What the bar of an amount shows: where it is held, or where the hand has it while that isn't known.
 * @param {Trying} now @param {string} variable */
export function shown(now, variable) {
  const from = !now.settled && variable === now.moved ? now.wished : now.tried?.change;
  return from?.[variable] ?? 0;
}

/** @param {Trying} now @returns {Trying} */
export function let_go(now) {
  return now.pulling ? { ...now, pulling: false } : now;
}

/** Where the hand wants the amount, and where it is held. @param {Trying} now */
export function held_in(now) {
  const held = now.tried?.held_back ?? [];
  return held.find((each) => each.variable === now.moved) ?? held[0] ?? null;
}
