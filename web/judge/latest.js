// Answers for what is typed now: one question under way, and only the newest of those that wait.

/** @param {(question: any) => Promise<any>} ask @param {(answer: any, question: any) => void} onAnswer */
export function createLatest(ask, onAnswer) {
  let busy = false;
  let waiting = null;

  async function run(question) {
    busy = true;
    try {
      const answer = await ask(question);
      if (waiting === null) onAnswer(answer, question);
    } catch {
      // The judge reports its own state; a look that failed shows nothing.
    }
    busy = false;
    next();
  }

  function next() {
    if (waiting === null || busy) return;
    const question = waiting;
    waiting = null;
    run(question);
  }

  return {
    ask(question) {
      waiting = question;
      next();
    },
  };
}
