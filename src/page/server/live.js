/**
 * What others save, as soon as they have: one request waits at the program while a case is open and
 * the page is seen; when it comes back, what is shown is asked for anew.
 */
import { Refusal, Unreachable, ask, path_of } from "./ask.js";

const longest_wait = 30000; // ms; the program answers after twenty seconds in any case
const least_wait = 1000; // between answers that bring nothing
const case_gone_wait = 10000;
const heartbeat = 5000;

export class Live {
  /**
   * @param {() => Promise<void>} refresh brings up to date what is shown
   * @param {(yes: boolean) => void} reachable does the program answer?
   */
  constructor(refresh, reachable) {
    this.refresh = refresh;
    this.reachable = reachable;
    this.of = { case_id: "", reader: "" };
    this.since = 0;
    /** @type {{stopped: boolean, cut: () => void} | null} */
    this.watch = null;
    this.seen = () => this.#fit();
    this.woken = () => this.watch?.cut();
    this.pulse = 0;
    this.last_beat = 0;
  }

  on() {
    document.addEventListener("visibilitychange", this.seen);
    window.addEventListener("online", this.woken);
    window.addEventListener("pageshow", this.woken);
    this.last_beat = Date.now();
    this.pulse = window.setInterval(() => this.#beat(), heartbeat);
  }

  off() {
    document.removeEventListener("visibilitychange", this.seen);
    window.removeEventListener("online", this.woken);
    window.removeEventListener("pageshow", this.woken);
    clearInterval(this.pulse);
    this.about("", "");
  }

  /** Which case is open, and who reads; none when it is empty. @param {string} case_id @param {string} reader */
  about(case_id, reader) {
    if (case_id === this.of.case_id && reader === this.of.reader) return;
    this.of = { case_id, reader };
    this.since = 0;
    this.#stop();
    this.#fit();
  }

  /** A connection doesn't outlive the machine's sleep, and nobody is told. */
  #beat() {
    const slept = Date.now() - this.last_beat > 3 * heartbeat;
    this.last_beat = Date.now();
    if (slept) this.woken();
  }

  #stop() {
    if (!this.watch) return;
    this.watch.stopped = true;
    this.watch.cut();
    this.watch = null;
  }

  #fit() {
    const wanted = this.of.case_id !== "" && !document.hidden;
    if (!wanted) this.#stop();
    else if (!this.watch) {
      this.watch = { stopped: false, cut: () => {} };
      this.#wait(this.watch);
    }
  }

  /** @param {{stopped: boolean, cut: () => void}} watch */
  async #wait(watch) {
    while (!watch.stopped) {
      const begun = Date.now();
      let rest = 0;
      try {
        const change = await this.#change(watch);
        if (watch.stopped) return;
        this.reachable(true);
        if (change === this.since) rest = least_wait - (Date.now() - begun);
        else {
          await this.refresh();
          if (watch.stopped) return;
          this.since = change;
        }
      } catch (error) {
        if (watch.stopped) return;
        if (error instanceof Cut) continue;
        if (error instanceof Unreachable) this.reachable(false);
        rest = error instanceof Refusal && error.status === 404 ? case_gone_wait : least_wait;
      }
      if (rest > 0) await paused(watch, rest);
    }
  }

  /** @param {{cut: () => void}} watch @returns {Promise<number>} */
  async #change(watch) {
    const { case_id, reader } = this.of;
    const path = `${path_of("api", "cases", case_id, "changes")}?since=${this.since}&reader=${encodeURIComponent(reader)}`;
    const control = new AbortController();
    const timer = setTimeout(() => control.abort(), longest_wait);
    watch.cut = () => control.abort();
    try {
      return (await ask("GET", path, undefined, control.signal)).change;
    } catch (error) {
      throw control.signal.aborted ? new Cut() : error;
    } finally {
      clearTimeout(timer);
    }
  }
}

/** We gave the request up ourselves. */
class Cut extends Error {}

/** @param {{cut: () => void}} watch @param {number} time ms */
function paused(watch, time) {
  return new Promise((resolve) => {
    const timer = setTimeout(resolve, time);
    watch.cut = () => {
      clearTimeout(timer);
      resolve(undefined);
    };
  });
}
