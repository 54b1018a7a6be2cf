/** One request and its answer. An answer of the program is a value or a Refusal. */

/** The program answered, and said no. */
export class Refusal extends Error {
  /** @param {number} status @param {string} sentence */
  constructor(status, sentence) {
    super(sentence);
    this.status = status;
  }
}

/** The program didn't answer. */
export class Unreachable extends Error {}

/**
 * @param {string} method
 * @param {string} path
 * @param {unknown} [body] a value to send as JSON, or a Blob as it is
 * @param {AbortSignal} [until] no longer than that
 * @returns {Promise<any>}
 */
export async function ask(method, path, body, until) {
  const answer = await send(method, path, body, until);
  const text = await answer.text().catch(() => {
    throw new Unreachable();
  });
  if (!answer.ok) throw new Refusal(answer.status, sentence_in(text) || `${answer.status}`);
  return text ? JSON.parse(text) : null;
}

/** @param {string} path @returns {Promise<ArrayBuffer>} */
export async function ask_bytes(path) {
  const answer = await send("GET", path, undefined);
  if (!answer.ok) throw new Refusal(answer.status, sentence_in(await answer.text()));
  return answer.arrayBuffer();
}

/** @param {string} method @param {string} path @param {unknown} body @param {AbortSignal} [signal] */
async function send(method, path, body, signal) {
  const raw = body instanceof Blob;
  try {
    return await fetch(path, {
      method,
      signal,
      headers: body === undefined || raw ? {} : { "Content-Type": "application/json" },
      body: body === undefined ? undefined : raw ? body : JSON.stringify(body),
    });
  } catch {
    throw new Unreachable();
  }
}

/** @param {string} text */
function sentence_in(text) {
  try {
    return String(JSON.parse(text).error ?? "");
  } catch {
    return "";
  }
}

/** @param {string[]} parts */
export function path_of(...parts) {
  return "/" + parts.map(encodeURIComponent).join("/");
}
