/**
 * What every panel gets from main.js: the wishes it may utter. A panel builds its element once and
 * brings it up to date from the state.
 * @typedef {import("../state/state.js").State} State
 * @typedef {import("../state/state.js").Action} Action
 * @typedef {import("../state/state.js").Place} Place
 *
 * @typedef {object} Wishes
 * @property {(action: Action) => void} dispatch
 * @property {(place: Place) => void} go
 * @property {import("../server/server.js").Server} server
 * @property {() => State} state
 *
 * @typedef {{element: HTMLElement, update(state: State): void}} Panel
 */
export {};
