/**
 * Decisions on the lines of a plan, sent in turn. When somebody else saved the same plan meanwhile,
 * decisions on different lines are put together; of a line that both decided the other's stands,
 * which is saved, and mine is asked about.
 * @typedef {import("../state/types.js").Plan} Plan
 * @typedef {import("../state/types.js").ProposalLine} ProposalLine
 */
import { decided_by_both, same_lines } from "../state/merge.js";
import { words } from "../words/words.js";
import { Refusal, ask } from "./ask.js";

export class Decisions {
  /** @param {(action: import("../state/state.js").Action) => void} dispatch */
  constructor(dispatch) {
    this.dispatch = dispatch;
    /** @type {Map<string, Plan | null>} by visit: as the program has it, the last we know */
    this.known = new Map();
    /** @type {Map<string, ProposalLine[]>} by visit: as they shall be */
    this.wanted = new Map();
    this.surprises = 0;
  }

  /** The plan as the program has it. @param {string} visit @param {Plan | null} plan */
  seen(visit, plan) {
    const known = this.known.get(visit);
    if (known && (plan?.version !== known.version || plan.revision !== known.revision)) this.surprises += 1;
    this.known.set(visit, plan);
    this.dispatch({ type: "plan", visit, plan });
  }

  /** Shown at once. @param {string} visit @param {Plan} plan with the lines as they shall be */
  want(visit, plan) {
    this.wanted.set(visit, plan.lines);
    this.dispatch({ type: "plan", visit, plan });
  }

  /** @param {string} path of the plan @param {string} visit @returns {Promise<void>} */
  async send(path, visit) {
    const [known, lines] = [this.known.get(visit), this.wanted.get(visit)];
    if (!known || !lines) return;
    if (same_lines(lines, known.lines)) {
      this.wanted.delete(visit);
      return;
    }
    try {
      const { version, revision } = known;
      const said = lines.map(({ decision, note }) => ({ decision, note }));
      const { plan } = await ask("PUT", path, { version, revision, lines: said });
      this.known.set(visit, plan);
      if (this.wanted.get(visit) === lines) this.wanted.delete(visit);
      this.dispatch({ type: "plan", visit, plan: { ...plan, lines: this.wanted.get(visit) ?? plan.lines } });
    } catch (error) {
      if (!(error instanceof Refusal && error.status === 409)) throw error;
      const { plan } = await ask("GET", path);
      this.surprises += 1;
      this.#put_together(visit, known, this.wanted.get(visit) ?? lines, plan ?? null);
      return this.send(path, visit);
    }
  }

  /** @param {string} visit @param {Plan} base @param {ProposalLine[]} mine @param {Plan | null} theirs */
  #put_together(visit, base, mine, theirs) {
    this.known.set(visit, theirs);
    if (!theirs || theirs.version !== base.version || theirs.sign_off) {
      this.wanted.delete(visit);
      const lost = mine.flatMap((each, at) => (same_lines([each], [base.lines[at]]) ? [] : [at + 1]));
      this.dispatch({ type: "plan", visit, plan: theirs });
      if (lost.length > 0) this.dispatch({ type: "notice", sentence: words.plan.replaced(lost, Boolean(theirs?.sign_off)) });
      return;
    }
    const { lines, asks } = decided_by_both(base.lines, mine, theirs.lines);
    this.wanted.set(visit, lines);
    this.dispatch({ type: "plan", visit, plan: { ...theirs, lines } });
    if (Object.keys(asks).length > 0) this.dispatch({ type: "plan-asks", asks });
  }
}
