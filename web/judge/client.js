// Talks to the worker that holds the engine: a promise per question, a deadline, one restart, then a plain "gone".
import { createQuestions, Unanswered } from "./questions.js";

const DEADLINE = 10_000;
const HEALTH_DEADLINE = 3_000;

/** The engine can't answer on this phone. Readings are kept all the same. */
export class JudgeGone extends Error {}

/** The judge of this phone. `onState` hears "starting", "ready", "restarting" and "gone". */
export class Judge {
  #spawn;
  #onState;
  #deadline;
  /** @type {Worker | null} */
  #worker = null;
  #questions = createQuestions();
  #restarted = false;
  /** @type {Promise<void> | null} */
  #recovering = null;
  /** @type {string[]} what opened the call in hand, and the lists of entries added since */
  #opened = [];
  #added = [];
  /** Which engine this is, once it started. */
  digest = "";

  /** @param {{spawn: () => Worker, onState: (state: string) => void, deadline?: number}} options */
  constructor({ spawn, onState, deadline = DEADLINE }) {
    this.#spawn = spawn;
    this.#onState = onState;
    this.#deadline = deadline;
  }

  async start() {
    this.#onState(this.#restarted ? "restarting" : "starting");
    this.#worker = this.#spawn();
    this.#worker.onmessage = ({ data }) => this.#questions.settle(data);
    this.#worker.onerror = (event) => this.#questions.fail(event.message ?? "The worker stopped.");
    try {
      this.digest = await this.#questions.expect(0, this.#deadline);
    } catch (error) {
      return this.#restarted ? this.#giveUp(error) : this.#recover(error);
    }
    this.#onState("ready");
  }

  stop() {
    this.#worker?.terminate();
    this.#worker = null;
    this.#questions.fail("The worker was stopped.");
  }

  describe = (language = "en") => this.#ask("describe", [language]);
  look = (question) => this.#ask("look", [JSON.stringify(question)]);
  judge = (caseInHand, language = "en") => this.#ask("judge", [JSON.stringify(caseInHand), language]);
  isWell = () => this.#post("health", [], HEALTH_DEADLINE).then(() => true, () => false);

  /** Keep a call open in the worker; what it knows goes over once. */
  open(log, language = "en") {
    this.#opened = [JSON.stringify(log), language];
    this.#added = [];
    return this.#ask("open", this.#opened);
  }

  async add(entries) {
    const text = JSON.stringify(entries);
    const opened = this.#opened;
    const isOpen = () => this.#opened === opened;
    const answer = await this.#ask("add", [text], isOpen);
    if (isOpen()) this.#added.push(text);
    return answer;
  }

  /** Ask; when nobody answers, restart the worker once with the call in hand, and ask again what is still wanted. */
  async #ask(door, texts, isWanted = () => true) {
    try {
      return JSON.parse(await this.#post(door, texts));
    } catch (error) {
      if (!(error instanceof Unanswered)) throw error;
      await this.#recover(error);
      if (!isWanted()) throw error;
      return JSON.parse(await this.#post(door, texts));
    }
  }

  #post(door, texts, limit = this.#deadline) {
    if (!this.#worker) return Promise.reject(new JudgeGone("No engine on this phone."));
    const { id, answer } = this.#questions.next(limit);
    this.#worker.postMessage({ id, door, texts });
    return answer;
  }

  #recover(error) {
    if (this.#recovering) return this.#recovering;
    if (this.#restarted) return this.#giveUp(error);
    this.stop();
    this.#restarted = true;
    this.#recovering = this.start().then(() => this.#reopen()).finally(() => (this.#recovering = null));
    return this.#recovering;
  }

  async #reopen() {
    if (this.#opened.length) await this.#post("open", this.#opened);
    for (const text of this.#added) await this.#post("add", [text]);
  }

  async #giveUp(error) {
    this.stop();
    this.#onState("gone");
    throw new JudgeGone(error.message);
  }
}
