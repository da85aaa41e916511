// One way to ask the server: JSON in and out, a deadline, and failures that say which kind they are.

const DEADLINE = 20_000;
const NOTHING_TO_SAY = 204;

/** The server answered, and said no. */
export class Refusal extends Error {
  constructor(status, problem) {
    super(problem.detail ?? `The server answered ${status}.`);
    this.status = status;
    this.code = problem.code ?? "";
    this.remedy = problem.remedy ?? "";
    this.problem = problem;
  }
}

/** Nobody answered: no signal, no server, or too slow. */
export class NoLine extends Error {}

/**
 * @param {string} path below /api/v1
 * @param {{method?: string, token?: string, body?: any}} [options]
 */
export async function ask(path, { method = "GET", token, body } = {}) {
  const headers = { Accept: "application/json" };
  if (token) headers.Authorization = `Bearer ${token}`;
  if (body !== undefined) headers["Content-Type"] = "application/json";
  const request = { method, headers, body: body === undefined ? undefined : JSON.stringify(body), cache: "no-store" };
  const answer = await reach("/api/v1" + path, /** @type {RequestInit} */ (request));
  const content = await answer.json().catch(() => null);
  if (!answer.ok) throw new Refusal(answer.status, content ?? {});
  if (content === null && answer.status !== NOTHING_TO_SAY) throw new NoLine("The answer was cut short, or was not the server's.");
  return content;
}

/** Fetch with a deadline; NoLine when nobody answers. */
export async function reach(url, request, deadline = DEADLINE) {
  try {
    return await fetch(url, { ...request, signal: AbortSignal.timeout(deadline) });
  } catch (error) {
    throw new NoLine(error.message);
  }
}
