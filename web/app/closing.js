// Signs, decision and submission of the open call; with the last two goes what this phone's engine said.
import { keepInCall } from "./call.js";

export const closingActs = (page) => ({
  setSign: (sign, present) => keepInCall(page, "sign", { sign, present }),
  closing: (change) => page.store.dispatch({ type: "closing-changed", change }),
  async keepDecision() {
    const { decision, cause, reason } = page.store.state.closing;
    await keepInCall(page, "decision", { decision, ...(cause && { cause }), ...(reason && { reason }) });
    await keepJudgement(page);
  },
  async submit() {
    const { note } = page.store.state.closing;
    await keepJudgement(page);
    await keepInCall(page, "submission", note ? { note } : {});
  },
});

async function keepJudgement(page) {
  const { call, engine } = page.store.state;
  if (!call.result) return;
  const upto = call.rows.map((row) => row.id);
  await keepInCall(page, "judgement", { engine: engine.words.engine, upto, result: call.result });
}
