/**
 * Which gesture has the hand. A second finger takes it from the first gesture, which is told to let
 * go; so no point moves while two fingers zoom.
 * @typedef {{cancel(): void}} Owner
 */
export class Claim {
  constructor() {
    /** @type {Owner | null} */
    this.owner = null;
    this.takes = 0; // how often it was taken: a tap counts only if nobody took the hand meanwhile
  }

  /** @param {Owner} owner */
  take(owner) {
    if (this.owner === owner) return;
    this.takes += 1;
    this.owner?.cancel();
    this.owner = owner;
  }

  /** @param {Owner} owner */
  leave(owner) {
    if (this.owner === owner) this.owner = null;
  }

  get free() {
    return this.owner === null;
  }
}
