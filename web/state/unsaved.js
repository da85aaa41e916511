// Whether something typed is not yet kept: then no new version takes over.
import { hasDigits } from "./draft.js";

/** @param {import("./actions.js").State} state */
export const unsaved = ({ draft, closing, newCall, sheet, caption }) =>
  hasDigits(draft) || Boolean(closing.handing || closing.note || closing.reason || newCall.reported || caption || (sheet && Object.values(sheet.values ?? {}).some(Boolean)));
