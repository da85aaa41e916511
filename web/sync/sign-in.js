// A phone signs in once with a person's password and is given a token of its own.
import { ask } from "./http.js";

/** @returns {Promise<Session>} */
export const signIn = (name, password, device) => ask("/devices", { method: "POST", body: { name, password, device } });

export const signOut = (session) => ask(`/devices/${session.device}`, { method: "DELETE", token: session.token });
