// Questions under way to a worker, each a promise with a deadline. An answer is {id, text} or {id, error}.

/** Nobody answered: too late, or the worker is no more. */
export class Unanswered extends Error {}

export function createQuestions() {
  const pending = new Map();
  let last = 0;

  function close(id) {
    const question = pending.get(id);
    pending.delete(id);
    clearTimeout(question?.timer);
    return question;
  }

  function expect(id, limit) {
    return new Promise((resolve, reject) => {
      const timer = setTimeout(() => close(id)?.reject(new Unanswered("No answer in time.")), limit);
      pending.set(id, { resolve, reject, timer });
    });
  }

  return {
    expect,
    next(limit) {
      last += 1;
      return { id: last, answer: expect(last, limit) };
    },
    settle({ id, text, error }) {
      const question = close(id);
      if (error === undefined) question?.resolve(text);
      else question?.reject(new Error(error));
    },
    fail(why) {
      for (const id of [...pending.keys()]) close(id).reject(new Unanswered(why));
    },
  };
}
